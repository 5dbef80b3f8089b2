"""The demo: an invented crew goes through the whole loop, on real files, in a folder of its own.

Juno passes and is signed off, so she may mix. Teo misses a must-get. Bram reads 1 to 4 as one
quarter. Pia passes but has not been seen at work yet.
"""

from __future__ import annotations

import shutil
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from datetime import date, timedelta
from pathlib import Path

from generator.marking import result as marking
from generator.model.course import Curriculum, Module
from generator.model.event import Event
from generator.model.item import Item
from generator.model.paper import Paper
from generator.printing.audit import audit_html
from generator.printing.board import board_html
from generator.printing.key import key_html
from generator.printing.paper import paper_html
from generator.printing.pdf import Printer
from generator.printing.person import person_html
from generator.printing.pocket import pocket_html
from generator.records.needs import MIXING
from generator.records.papers_kept import result_to_data
from generator.records.store import open_records
from generator.workflows import board, booklet, grade, people
from generator.workflows.audit import audit_of
from generator.workflows.drawing import draw_papers
from generator.workflows.paper import issued_event
from generator.workflows.person import person_file
from generator.workflows.place import Place
from generator.workflows.pocket import pocket_card
from generator.workflows.record import append, event
from generator.workflows.strip import strip
from generator.workflows.today import today

OWNER, TRAINER = "Odile", "Mara"
CREW = ("Juno", "Teo", "Bram", "Pia")
Say = Callable[[str], None]
Answers = Callable[[Item], str]


@dataclass(frozen=True)
class Made:
    """A file of the demo, and what it is."""

    path: Path
    what: str


def run(curriculum: Curriculum, out: Path, say: Say) -> list[Made]:
    """Do it all into `out`, which is emptied of an earlier demo first. Raises Refusal."""
    shutil.rmtree(out, ignore_errors=True)
    place = Place(Path(), out / "records.sqlite3", out, own=True)
    out.mkdir(parents=True, exist_ok=True)
    module = next(m for m in curriculum.modules.values() if m.grants == MIXING)
    printer = Printer()
    made = list(_booklets(curriculum, out, say))
    say(f"{TRAINER} teaches, and everybody does the practice papers.")
    papers = _teach_and_test(place, curriculum, module)
    say("The class sits a paper each, no two alike. The papers are marked.")
    made += _papers(curriculum, module, papers, out, printer)
    made += _marks(place, curriculum, papers, printer)
    say(f"{TRAINER} watches {CREW[0]} mix, and signs.")
    _sign_off(place, curriculum, module)
    made += _boards(place, curriculum, out, printer)
    return [*made, *_files(place, curriculum, out, printer)]


def _booklets(curriculum: Curriculum, out: Path, say: Say) -> Iterator[Made]:
    modules = [module for module in curriculum.modules.values() if module.grants]
    say(f"Printing {len(modules)} of the {len(curriculum.modules)} booklets.")
    for module, printed in zip(
        modules, booklet.print_booklets(curriculum, modules, out / "booklets"), strict=True
    ):
        yield Made(printed.path, f"booklet: {module.title}")


def _ago(days: int) -> str:
    return (date.fromisoformat(today()) - timedelta(days=days)).isoformat()


def _teach_and_test(place: Place, curriculum: Curriculum, module: Module) -> list[Paper]:
    """Everything up to the counted papers, and the papers themselves."""
    events = [event("joined", name, seen=_ago(20)) for name in (TRAINER, *CREW)]
    basis = "six seasons at the rig; the supplier's two-day course"
    events.append(event("trainer-named", TRAINER, seen=_ago(20), by=OWNER, basis=basis))
    for each in curriculum.modules.values():
        events += people.taught(each, CREW, (), TRAINER, _ago(12))
    sheets = _earlier_papers(curriculum, module)
    for number in range(module.blueprint.practice):
        day = _ago(8 - 2 * number)
        sheets += draw_papers(curriculum, module, CREW, True, _codes(sheets), day)
    counted = draw_papers(curriculum, module, CREW, False, _codes(sheets), _ago(2))
    for sheet in sheets:
        events += [issued_event(sheet), _marked_right(sheet)]
    events += [issued_event(sheet) for sheet in counted]
    with open_records(place.records, create=True) as records:
        append(records, curriculum, events)
    return list(counted)


def _earlier_papers(curriculum: Curriculum, module: Module) -> list[Paper]:
    """The papers of all that must be passed first: practice a day before the counted one."""
    made: list[Paper] = []
    for needed in curriculum.before(module):
        for day, practice in [(11, True)] * needed.blueprint.practice + [(10, False)]:
            made += draw_papers(curriculum, needed, CREW, practice, _codes(made), _ago(day))
    return made


def _codes(papers: list[Paper]) -> list[str]:
    return [each.code for each in papers]


def _marked_right(sheet: Paper) -> Event:
    """A paper with every answer right, marked on the day it was printed."""
    result = marking.mark(sheet, [right_answer(item) for item in sheet.items])
    data = result_to_data(result, "answers")
    return event("marked", sheet.person, seen=sheet.printed, by=TRAINER, **data)


def right_answer(item: Item) -> str:
    """What a person who knows writes."""
    return item.answer.text


def _misses_a_must(item: Item) -> str:
    """Answers all but one must-get question."""
    wrong = item.id == "acid-and-bleach"
    return _wrong_letter(item) if wrong else right_answer(item)


def _reads_a_quarter(item: Item) -> str:
    """Takes 1 to 4 for one quarter, wherever that slip can be made."""
    slip = next((slip for slip in item.slips if slip.id == "read-as-fraction"), None)
    return slip.text if slip and item.form == "write" else right_answer(item)


def _wrong_letter(item: Item) -> str:
    return next(letter for letter in "ABC" if letter != item.answer.text)


_ANSWERS: dict[str, Answers] = {"Teo": _misses_a_must, "Bram": _reads_a_quarter}


def _papers(
    curriculum: Curriculum, module: Module, papers: list[Paper], out: Path, printer: Printer
) -> list[Made]:
    shop = curriculum.shop
    sheets = printer.write(
        paper_html(shop, papers, strip(module)), out / "papers" / "mixing-papers.pdf"
    )
    key = printer.write(key_html(shop, papers), out / "keys" / "mixing-key.pdf")
    return [Made(sheets.path, f"a paper for each of {len(papers)}"), Made(key.path, "their key")]


def _marks(
    place: Place, curriculum: Curriculum, papers: list[Paper], printer: Printer
) -> Iterator[Made]:
    for sheet in papers:
        answers = _ANSWERS.get(sheet.person, right_answer)
        result = grade.mark(sheet, [answers(item) for item in sheet.items], {})
        marked = grade.keep(place, curriculum, grade.Graded(result, seen=_ago(2)), TRAINER, printer)
        assert marked.slip
        verdict = "passed" if result.passed else "not yet"
        yield Made(marked.slip.path, f"result slip: {sheet.person}, {verdict}")


def _sign_off(place: Place, curriculum: Curriculum, module: Module) -> None:
    rig = curriculum.shop.rigs[0]
    first = CREW[0]
    shown = event("sheets-shown", first, seen=_ago(1), by=TRAINER, rig=rig.id)
    signed = people.signed_off(module, first, rig.id, TRAINER, _ago(1), {})
    with open_records(place.records) as records:
        append(records, curriculum, [shown, signed])


def _boards(place: Place, curriculum: Curriculum, out: Path, printer: Printer) -> list[Made]:
    with open_records(place.records) as records:
        head, events = records.head(), records.events()
    shown = board.board_of(curriculum, events, today(), head)
    printed = printer.write(board_html(curriculum.shop, shown), out / "board.pdf")
    table = out / "board.csv"
    table.write_text(board.as_csv(shown), encoding="utf-8-sig", newline="")
    return [Made(printed.path, "the board"), Made(table, "the board as a table")]


def _files(place: Place, curriculum: Curriculum, out: Path, printer: Printer) -> Iterator[Made]:
    """What the owner shows to others, made for the one who may mix."""
    with open_records(place.records) as records:
        head, events, faults = records.head(), records.events(), records.verify()
    who, day, shop = CREW[0], today(), curriculum.shop
    file = person_file(curriculum, events, who, day, head)
    card = pocket_card(curriculum, events, who, day, head)
    pack = audit_of(curriculum, events, day, head, faults)
    for name, html, what in (
        (f"{who}-file", person_html(shop, file), f"training file of {who}"),
        (f"{who}-card", pocket_html(shop, card), f"pocket card of {who}"),
        ("audit-pack", audit_html(shop, pack), "the audit pack"),
    ):
        yield Made(printer.write(html, out / "files" / f"{name}.pdf").path, what)
