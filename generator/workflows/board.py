"""The board: everybody's standing on one day, on screen, as PDF, CSV or JSON."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable, Sequence
from typing import Any

from generator.memory import collecting_later
from generator.model.board import Board, Cell, Duty, Row
from generator.model.course import Curriculum, Module
from generator.model.event import Event
from generator.model.standing import Standing
from generator.records import crew
from generator.records.exceptions import Used, exceptions_used
from generator.records.gather import gather
from generator.records.needs import BY_CARD, SHEETS, by_rig
from generator.records.standing import may_mix, standings_in
from generator.workflows.today import today

NOTE = (
    "Names of trainers are statements, not logins. The signed papers are kept by the owner. "
    "Where this board and a pocket card differ, the board wins."
)
Columns = Sequence[tuple[str, str]]  # module and rig


def board_of(curriculum: Curriculum, events: Sequence[Event], day: str, head: str) -> Board:
    """The board of that day (ISO); `head` is the head of the record's chain."""
    with collecting_later():
        book = gather(events, day)
    standing = standings_in(book, curriculum, day)
    people, trainers = crew.here(book), crew.training(book)
    columns = columns_of(curriculum)
    at = {(each.person, each.module, each.rig): each for each in standing}
    used = [each for each in exceptions_used(book) if each.person in people]
    return Board(
        date=day,
        modules=tuple(heading(curriculum, module, rig) for module, rig in columns),
        duties=_duties(curriculum, standing, "today" if day == today() else f"on {day}"),
        rows=tuple(
            Row(
                person,
                "trainer" if person in trainers else "crew",
                tuple(_cell(at[person, module, rig], used) for module, rig in columns),
                wants(curriculum, columns, [at[person, *column] for column in columns]),
            )
            for person in people
        ),
        note=NOTE,
        head=head,
        exceptions=tuple(_told(curriculum, each, n) for n, each in enumerate(used, 1)),
    )


def columns_of(curriculum: Curriculum) -> list[tuple[str, str]]:
    """Module and rig of each column."""
    rigs = [rig.id for rig in curriculum.shop.rigs]
    return [(m.id, rig) for m in in_order(curriculum) for rig in (rigs if by_rig(m) else [""])]


def in_order(curriculum: Curriculum) -> list[Module]:
    """The modules that clear for a duty first, the others after those they require."""
    return sorted(
        curriculum.modules.values(),
        key=lambda m: (not m.grants, m.grants, len(curriculum.before(m)), m.title),
    )


def heading(curriculum: Curriculum, module: str, rig: str) -> str:
    """The module's short word, with the rig's name where it matters: `mix, Rig 1`."""
    found = curriculum.shop.rig(rig)
    short = curriculum.modules[module].short
    return f"{short}, {found.name}" if found else short


def wants(
    curriculum: Curriculum, columns: Columns, standing: Sequence[Standing]
) -> tuple[str, ...]:
    """What is missing, in short lines; modules and rigs that lack the same stand together.

    The data sheets of a rig are asked for once, and the modules not begun stand in the last line.
    """
    rigs_of: dict[tuple[str, str], list[str]] = {}
    sheets, later = [], []
    for (module, rig), each in zip(columns, standing, strict=True):
        short = curriculum.modules[module].short
        if each.state == "not started":
            later.append(short)
            continue
        sheets += [rig] if SHEETS in each.short else []
        if what := ", ".join(need for need in each.short if need != SHEETS):
            rigs_of.setdefault((short, what), []).append(rig)
    found = _merged(curriculum, rigs_of)
    found += [f"{SHEETS}{_on(curriculum, list(dict.fromkeys(sheets)))}"] if sheets else []
    found += [f"not begun: {', '.join(dict.fromkeys(later))}"] if later else []
    return tuple(found)


def _merged(curriculum: Curriculum, rigs_of: dict[tuple[str, str], list[str]]) -> list[str]:
    """A line for all modules that lack the same on the same rigs."""
    lines: dict[tuple[str, str], list[str]] = {}
    for (short, what), rigs in rigs_of.items():
        lines.setdefault((_on(curriculum, rigs), what), []).append(short)
    return [f"{', '.join(shorts)}{where}: {what}" for (where, what), shorts in lines.items()]


def _on(curriculum: Curriculum, rigs: Sequence[str]) -> str:
    if len(rigs) == len(curriculum.shop.rigs) > 1:
        return f" on {'both' if len(rigs) == 2 else 'all'} rigs"
    names = [found.name for rig in rigs if (found := curriculum.shop.rig(rig))]
    return f" on {joined(names)}" if names else ""


def _cell(standing: Standing, used: Sequence[Used]) -> Cell:
    numbers = [
        f"E{n}"
        for n, each in enumerate(used, 1)
        if (each.person, each.module) == (standing.person, standing.module)
    ]
    day = standing.due or standing.since
    note = " ".join(numbers)
    return Cell(standing.state, day, standing.missing, standing.since, standing.due, note)


def _told(curriculum: Curriculum, used: Used, number: int) -> str:
    module = curriculum.modules.get(used.module)
    short = module.short if module else used.module
    what = f"{used.by} opened a try early on {used.day}: {used.why}"
    return f"E{number} {used.person}, {short}: {what}"


def _duties(curriculum: Curriculum, standing: Sequence[Standing], when: str) -> tuple[Duty, ...]:
    """Who may mix on each rig then, as whole sentences; by the card alone said apart."""
    rigs = [rig.id for rig in curriculum.shop.rigs]
    mixers = may_mix(standing, rigs)
    by_card = may_mix(standing, rigs, BY_CARD)
    duties: list[Duty] = []
    for rig in curriculum.shop.rigs:
        names = mixers[rig.id]
        others = [name for name in by_card[rig.id] if name not in names]
        sentence = f"{joined(names) or 'Nobody'} may mix {when}."
        if others:
            sentence += f" By the card: {joined(others)}."
        duties.append(Duty(rig.name, sentence, bool(names or others)))
    return tuple(duties)


def joined(names: Sequence[str]) -> str:
    """`Ann, Bo and Cy`."""
    return " and ".join([", ".join(names[:-1]), names[-1]] if len(names) > 1 else names)


def as_data(board: Board) -> dict[str, Any]:
    """The board as plain data for --json."""
    return {
        "date": board.date,
        "may_mix": [{"rig": d.rig, "sentence": d.sentence, "open": d.open} for d in board.duties],
        "people": [
            {
                "name": row.person,
                "role": row.role,
                "standing": [
                    _cell_data(module, cell)
                    for module, cell in zip(board.modules, row.cells, strict=True)
                ],
                "wants": list(row.wants),
            }
            for row in board.rows
        ],
        "head": board.head,
        "exceptions": list(board.exceptions),
    }


def _cell_data(module: str, cell: Cell) -> dict[str, Any]:
    dates = {"date": cell.day, "since": cell.since, "due": cell.due}
    return {
        "module": module,
        "state": cell.state,
        **dates,
        "missing": list(cell.missing),
        "exception": cell.note,
    }


def as_csv(board: Board) -> str:
    """The board as CSV (RFC 4180); a cell that a spreadsheet would run as a formula is quoted."""
    head = ["person", "role", "module", "state", "date", "missing", "since", "due", "exception"]
    rows = [
        [row.person, row.role, module, *_cell_fields(cell)]
        for row in board.rows
        for module, cell in zip(board.modules, row.cells, strict=True)
    ]
    return table([head, *rows])


def _cell_fields(cell: Cell) -> list[str]:
    missing = "; ".join(cell.missing)
    return [cell.state, cell.day, missing, cell.since, cell.due, cell.note]


def table(rows: Iterable[Sequence[str]]) -> str:
    """Rows as CSV (RFC 4180), every cell harmless to a spreadsheet."""
    text = io.StringIO()
    csv.writer(text).writerows([_harmless(field) for field in row] for row in rows)
    return text.getvalue()


def _harmless(field: str) -> str:
    return f"'{field}" if field[:1] in ("=", "+", "-", "@", "\t", "\r", "\n") else field
