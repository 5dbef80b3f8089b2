"""Pages made from the record: they hold every field, fit, and take any name without harm."""

from __future__ import annotations

import csv
import io
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from types import ModuleType
from typing import Any

import icalendar
import pikepdf
import pytest

from generator.model.board import Board, Cell, Row
from generator.model.file import (
    Audit,
    ChangeLine,
    Due,
    DueList,
    Duty,
    IncidentLine,
    Lessons,
    ModuleFile,
    PersonFile,
    PocketCard,
    Remark,
    SeenLine,
    Signature,
    Sitting,
    State,
    StopLine,
    Trail,
    TrainerLine,
)
from generator.printing.audit import STATEMENTS, audit_html
from generator.printing.board import board_html
from generator.printing.calendar import calendar_text
from generator.printing.due import due_html
from generator.printing.files import file_stem, one_line
from generator.printing.pdf import Printer
from generator.printing.person import person_html
from generator.printing.pocket import pocket_html

HOSTILE = (
    'Ann "Bo" O\'Lee, jr; \\ <b>&amp;',
    "two\nlines\r\nBEGIN:VEVENT",
    "=cmd|'/C calc'!A1",
    "@SUM(1+1)",
    "Juno 🚿",
    "نورة",
    "mixed \u202eevil\u202c",
    "bell\x07\x1b[31m",
    "{{ shop }} {% raise %}",
    "x" * 300,
)
TRAIL = Trail(7, "2026-02-02", "2026-02-04", "Mara", "named by Odile on 2026-01-05: six seasons")


def person(name: str) -> PersonFile:
    module = ModuleFile(
        "mixing",
        "Mixing",
        2,
        "mix",
        (
            State("Rig 1", "cleared", "2026-02-02", "2027-02-02", (), True),
            State("Rig 2", "lapsed", "2026-02-03", "", ("a new sign-off on Rig 2",), False),
        ),
        (Lessons(TRAIL, ("Batch", "Soap"), 2, minutes=45, language="es"),),
        (Sitting(TRAIL, "K7M-2QF", "counted", 2, "es", "written", 23, 24, 22, ("acid",), True),),
        (Signature(TRAIL, "Rig 1", (SeenLine("Puts on goggles.", "told", True),)),),
    )
    remarks = (Remark(TRAIL, f"Incident in Mixing: {name}"),)
    return PersonFile(name, "2026-03-10", "crew", "2026-01-05", (module,), remarks, "3f9c-12ab")


def due_list(name: str) -> DueList:
    lines = (
        Due("2026-03-01", name, "mix", ("Rig 1",), f"a new sign-off, {name}", True),
        Due("2026-04-01", name, "gear", (), "a new written paper"),
    )
    return DueList("2026-03-10", "2026-05-10", lines, "3f9c-12ab")


def audit(name: str) -> Audit:
    file = person(name)
    return Audit(
        "2026-03-10", "2026-01-05", 99, (file,), (file,),
        (TrainerLine(name, "2026-01-05", "Odile", name, "", ("Mixing",)),), (),
        (ChangeLine(TRAIL, "Mixing, Rig 1", f"Other equipment for it: {name}"),),
        (IncidentLine(TRAIL, name, "Mixing", name, True, (f"taught again by {name}",)),),
        (StopLine("2026-03-01", name, "Mixing, Rig 1", name, "cleared", "lapsed", ""),),
        (("Time", "after 365 days"),), "3f9c-12ab",
    )  # fmt: skip


def card(name: str) -> PocketCard:
    duty = Duty("Any mix", ("Rig 1", "Rig 2"), "Bleach and soap only.")
    return PocketCard(name, "2026-03-10", "2026-06-08", (duty,), "3f9c-12ab")


PAGES: dict[str, Callable[[Any, str], str]] = {
    "person": lambda shop, name: person_html(shop, person(name)),
    "pocket": lambda shop, name: pocket_html(shop, card(name)),
    "due": lambda shop, name: due_html(shop, due_list(name)),
    "audit": lambda shop, name: audit_html(shop, audit(name)),
    "board": lambda shop, name: board_html(
        shop,
        Board(
            "2026-03-10", ("mix",), (), (Row(name, "crew", (Cell("cleared"),), (name,)),), "", ""
        ),
    ),
}


@pytest.mark.parametrize("page", PAGES)
def test_any_name_comes_out_whole_and_harmless(
    samples: ModuleType, lay_out: Callable[[str], Any], page: str
) -> None:
    for name in HOSTILE:
        html = PAGES[page](samples.SHOP, name)
        assert "<b>&amp;" not in html
        pages = lay_out(html)
        text = "".join(pages.text(n + 1) for n in range(len(pages)))
        wanted = one_line(name).replace(" ", "")
        assert wanted in text.replace(" ", "").replace("\u00ad", ""), name


def test_a_page_with_such_names_prints_as_tagged_pdf(
    samples: ModuleType, printer: Printer, tmp_path: Path
) -> None:
    file = replace(person("".join(HOSTILE)), name=" ".join(HOSTILE[:7]))
    printed = printer.write(person_html(samples.SHOP, file), tmp_path / "file.pdf")
    with pikepdf.open(printed.path) as pdf:
        assert pdf.Root.MarkInfo.Marked


def test_the_calendar_reads_back_as_it_was_meant(samples: ModuleType) -> None:
    for name in HOSTILE:
        text = calendar_text(samples.SHOP, due_list(name))
        lines = text.split(b"\r\n")
        assert all(len(line) <= 75 for line in lines)
        assert b"\n" not in text.replace(b"\r\n", b"")
        entries = icalendar.Calendar.from_ical(text).walk("VEVENT")
        assert [str(entry["summary"]) for entry in entries] == [
            f"{one_line(name)}: LAPSED, mix on Rig 1",
            f"{one_line(name)}: gear",
        ]


def test_the_calendar_puts_an_entry_on_its_day_and_keeps_its_id(samples: ModuleType) -> None:
    due = due_list("Juno")
    over, ahead = icalendar.Calendar.from_ical(calendar_text(samples.SHOP, due)).walk("VEVENT")
    assert over.decoded("dtstart").isoformat() == "2026-03-10"
    assert ahead.decoded("dtstart").isoformat() == "2026-04-01"
    assert ahead.decoded("dtend").isoformat() == "2026-04-02"
    assert len(ahead.walk("VALARM")) == 1
    later = replace(due, lines=tuple(replace(line, day="2026-05-01") for line in due.lines))
    again = icalendar.Calendar.from_ical(calendar_text(samples.SHOP, later)).walk("VEVENT")
    assert [entry["uid"] for entry in again] == [over["uid"], ahead["uid"]]
    assert calendar_text(samples.SHOP, due) == calendar_text(samples.SHOP, due)


def test_names_of_files_are_safe_and_never_the_same(tmp_path: Path) -> None:
    stems = [file_stem(name) for name in (*HOSTILE, "Juno", "juno ", "Ju-no", "Ju no", "..", "a/b")]
    assert len(set(stems)) == len(stems)
    for stem in stems:
        (tmp_path / f"{stem}-file.pdf").write_bytes(b"")
        assert not set(stem) & set('/\\:*?"<>|\n\r\t\0')
        assert len(stem.encode()) < 200
    assert len(list(tmp_path.iterdir())) == len(stems)


def test_the_file_holds_every_field(samples: ModuleType, lay_out: Callable[[str], Any]) -> None:
    pages = lay_out(person_html(samples.SHOP, person("Juno")))
    text = " ".join(pages.text(n + 1) for n in range(len(pages)))
    for words in (
        "Mixing, Rig 1 ✓ yes 2026-02-02 2027-02-02",
        "a new sign-off on Rig 2",
        "Batch, Soap; edition 2; in Spanish; 45 min 2026-02-02, entered 2026-02-04 Mara 7",
        "K7M-2QF, counted, edition 2, in Spanish; written. 23 of 24, needed 22: passed.",
        "Must-gets missed: acid.",
        "Rig 1. TOLD: Puts on goggles. Must.",
        "Mara named by Odile on 2026-01-05: six seasons.",
        "head is 3f9c-12ab",
    ):
        assert words in text


def test_the_card_is_the_size_of_a_bank_card_and_names_nobody_else(
    samples: ModuleType, lay_out: Callable[[str], Any]
) -> None:
    pages = lay_out(pocket_html(samples.SHOP, card("Juno")))
    front, back = pages.boxes("face")
    for face in (front, back):
        assert face.right - face.left == pytest.approx(85.6 * 96 / 25.4, abs=1)
        assert face.bottom - face.top == pytest.approx(54 * 96 / 25.4, abs=1)
    assert "Any mix on Rig 1 and Rig 2" in front.text
    assert "Void after Jun 8, 2026" in front.text
    assert "The board wins." in back.text
    assert "Mara" not in pages.text(1)
    assert len(pages) == 1


def test_the_audit_has_a_blank_for_each_statement_of_the_owner(
    samples: ModuleType, lay_out: Callable[[str], Any]
) -> None:
    pages = lay_out(audit_html(samples.SHOP, audit("Juno")))
    text = " ".join(pages.text(n + 1) for n in range(len(pages)))
    assert all(what in text for what, _ in STATEMENTS)
    assert len(pages.boxes("blank")) == 3 * len(STATEMENTS)
    broken = audit_html(samples.SHOP, replace(audit("Juno"), faults=("event 3 was removed",)))
    assert "The record is not whole" in lay_out(broken).text(1)


def test_a_table_takes_any_name(samples: ModuleType) -> None:
    from generator.workflows.board import table

    for name in HOSTILE:
        ((cell,),) = csv.reader(io.StringIO(table([[name]]), newline=""))
        assert cell.lstrip("'") == name.lstrip("'")
        assert cell[0] not in "=+-@\t\r\n"
