"""The board: everybody's standing on one day, on screen, as PDF, CSV or JSON."""

from __future__ import annotations

import csv
import io
from collections.abc import Sequence
from typing import Any

from generator.model.board import Board, Cell, Duty, Row
from generator.model.course import Curriculum
from generator.model.event import Event
from generator.model.standing import Standing
from generator.records import crew
from generator.records.needs import BY_CARD, by_rig
from generator.records.standing import may_mix, standings

NOTE = (
    "Names of trainers are statements, not logins. The signed papers are kept by the owner. "
    "Where this board and a pocket card differ, the board wins."
)


def board_of(curriculum: Curriculum, events: Sequence[Event], day: str, head: str) -> Board:
    """The board of that day (ISO); `head` is the head of the record's chain."""
    standing = standings(events, curriculum, day)
    by_then = [event for event in events if event.seen <= day]
    people = crew.on_crew(by_then)
    trainers = crew.trainers(by_then)
    columns = _columns(curriculum)
    at = {(each.person, each.module, each.rig): each for each in standing}
    return Board(
        date=day,
        modules=tuple(_heading(curriculum, module, rig) for module, rig in columns),
        duties=_duties(curriculum, standing),
        rows=tuple(
            Row(
                person,
                "trainer" if person in trainers else "crew",
                tuple(_cell(at[person, module, rig]) for module, rig in columns),
            )
            for person in people
        ),
        note=NOTE,
        head=head,
    )


def _columns(curriculum: Curriculum) -> list[tuple[str, str]]:
    """Module and rig of each column; the modules that clear for a duty stand first."""
    modules = sorted(curriculum.modules.values(), key=lambda m: (not m.grants, m.title))
    rigs = [rig.id for rig in curriculum.shop.rigs]
    return [(m.id, rig) for m in modules for rig in (rigs if by_rig(m) else [""])]


def _heading(curriculum: Curriculum, module: str, rig: str) -> str:
    found = curriculum.shop.rig(rig)
    short = curriculum.modules[module].short
    return f"{short}, {found.name}" if found else short


def _cell(standing: Standing) -> Cell:
    return Cell(standing.state, standing.due or standing.since, standing.missing)


def _duties(curriculum: Curriculum, standing: Sequence[Standing]) -> tuple[Duty, ...]:
    """Who may mix on each rig today, as whole sentences; by the card alone said apart."""
    rigs = [rig.id for rig in curriculum.shop.rigs]
    mixers = may_mix(standing, rigs)
    by_card = may_mix(standing, rigs, BY_CARD)
    duties: list[Duty] = []
    for rig in curriculum.shop.rigs:
        names = mixers[rig.id]
        others = [name for name in by_card[rig.id] if name not in names]
        sentence = f"{_joined(names) or 'Nobody'} may mix today."
        if others:
            sentence += f" By the card: {_joined(others)}."
        duties.append(Duty(rig.name, sentence, bool(names or others)))
    return tuple(duties)


def _joined(names: Sequence[str]) -> str:
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
                    {"module": m, "state": c.state, "date": c.day, "missing": list(c.missing)}
                    for m, c in zip(board.modules, row.cells, strict=True)
                ],
            }
            for row in board.rows
        ],
        "head": board.head,
    }


def as_csv(board: Board) -> str:
    """The board as CSV (RFC 4180); a cell that a spreadsheet would run as a formula is quoted."""
    text = io.StringIO()
    writer = csv.writer(text)
    writer.writerow(["person", "role", "module", "state", "date", "missing"])
    for row in board.rows:
        for module, cell in zip(board.modules, row.cells, strict=True):
            fields = [row.person, row.role, module, cell.state, cell.day, "; ".join(cell.missing)]
            writer.writerow([_harmless(field) for field in fields])
    return text.getvalue()


def _harmless(field: str) -> str:
    return f"'{field}" if field[:1] in ("=", "+", "-", "@", "\t", "\r", "\n") else field
