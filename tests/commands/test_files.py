"""Files made from the record, and what is noted, as people type it."""

from __future__ import annotations

import json
import os
import shutil
from collections.abc import Callable
from pathlib import Path

import icalendar
import pikepdf
import pytest
from click.testing import CliRunner, Result

from generator.cli import run
from generator.records.store import open_records

MODULES = ("welcome", "safety", "gear", "card", "mixing", "ladders")
NAMES = ("Juno", "=cmd|'/C calc'!A1", 'Ann "Bo", jr', "Lu 🚿", "نورة", "two\nlines")


def rigprimer(folder: Path, *words: str, typed: str = "") -> Result:
    place = ("--curriculum", str(folder / "curriculum"))
    return CliRunner().invoke(run, [*place, *words], input=typed, catch_exceptions=False)


def done(folder: Path, *words: str) -> str:
    result = rigprimer(folder, *words)
    assert result.exit_code == 0, result.output
    return result.output


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory, part_of_starter: Callable[..., Path]) -> Path:
    """A shop of six modules with the trainer Mara and people with odd names."""
    folder = tmp_path_factory.mktemp("shop")
    part_of_starter(folder / "curriculum", *MODULES)
    done(folder, "crew", "add", "Mara", *NAMES)
    done(folder, "crew", "trainer", "Mara", "--by", "Odile", "--basis", "six seasons")
    return folder


@pytest.fixture
def folder(made: Path, tmp_path: Path) -> Path:
    """A copy of it."""
    return Path(shutil.copytree(made, tmp_path / "shop"))


def test_a_file_is_printed_for_a_name_that_no_system_takes(folder: Path) -> None:
    said = done(folder, "person", NAMES[1])
    (path,) = (folder / "build" / "files").iterdir()
    assert path.name in said
    with pikepdf.open(path) as pdf:
        assert len(pdf.pages) >= 1


@pytest.mark.parametrize("name", [" ".join(name.split()) for name in NAMES[-2:]])
def test_the_file_as_data_keeps_the_name_as_it_is(folder: Path, name: str) -> None:
    data = json.loads(done(folder, "person", name, "--json"))
    assert data["name"] == name
    assert {module["id"] for module in data["modules"]} == set(MODULES)


def test_the_screen_shows_no_hidden_signs(folder: Path) -> None:
    done(folder, "crew", "add", "bell\x07\x1b[31mred")
    said = done(folder, "board")
    assert "\x1b" not in said
    assert "\x07" not in said
    assert "Rig 1: Nobody may mix today." in said
    assert "two lines: not begun: " in " ".join(said.split())


def test_who_may_not_mix_gets_no_card(folder: Path) -> None:
    result = rigprimer(folder, "card", "juno")
    assert result.exit_code == 1
    assert "Juno may not mix on any rig today" in result.output
    assert 'rigprimer person "Juno"' in result.output


def test_what_is_due_on_screen_on_paper_and_in_the_calendar(folder: Path) -> None:
    assert "Nothing is due until" in done(folder, "due")
    said = done(folder, "due", "--pdf", "--calendar")
    assert "due.pdf" in said
    calendar = icalendar.Calendar.from_ical((folder / "build" / "due.ics").read_bytes())
    assert calendar.walk("VEVENT") == []
    assert json.loads(done(folder, "due", "--json"))["lines"] == []


def test_the_audit_pack_is_made_and_says_when_the_record_is_not_whole(folder: Path) -> None:
    assert "audit-pack.pdf" in done(folder, "audit")
    with pikepdf.open(folder / "build" / "files" / "audit-pack.pdf") as pdf:
        assert len(pdf.pages) >= 3


def test_a_days_sheets_are_entered_all_or_none(folder: Path) -> None:
    table = folder / "sheets.csv"
    table.write_text("module,name,rig,by,not_yet\nmixing,Juno,rig-1,Mara,\nladder,Jun,,Mara,\n")
    result = rigprimer(folder, "signoff", "--from", str(table))
    assert result.exit_code == 1
    assert 'did you mean "Juno"' in result.output
    kinds = [event.kind for event in events(folder)]
    assert "signed-off" not in kinds
    table.write_text("module,name,rig,by,not_yet\nmixing,Juno,rig-1,Mara,\nladder,Juno,,Mara,\n")
    assert "2 sign-off sheets entered" in done(folder, "signoff", "--from", str(table))
    assert [event.kind for event in events(folder)].count("signed-off") == 2
    assert rigprimer(folder, "signoff").exit_code == 2


def events(folder: Path) -> tuple[object, ...]:
    with open_records(folder / "records.sqlite3") as records:
        return records.events()  # type: ignore[return-value]


def test_notes_are_entered_in_the_words_people_use(folder: Path) -> None:
    done(folder, "note", "taught", "gear", "Juno", "--minutes", "90", "--by", "Mara")
    about = ("--module", "gear", "--what", "hose whipped", "--by", "Mara", "--near-miss")
    assert "near miss" in done(folder, "note", "incident", "Juno", *about)
    work = ("mixing", "--cause", "equipment", "--what", "new pump", "--rig", "rig-1")
    assert "has changed: new pump" in done(folder, "note", "changed", *work, "--by", "Odile")
    done(folder, "note", "under-age", "Juno", "--until", "2099-01-01", "--by", "Odile")
    why = ("--why", "job on Friday", "--by", "Odile")
    done(folder, "note", "exception", "Juno", "--module", "gear", *why)
    assert "Exception E1 Juno, gear" in done(folder, "board")
    said = done(folder, "note", "briefed", "gear", "Juno", "--by", "Mara")
    assert "edition 1: Juno re-briefed" in said
    refused = rigprimer(folder, "note", "exception", "Juno", "--module", "mixing", *why)
    assert refused.exit_code == 1
    assert "Mixing allows no exception" in refused.output


def test_a_brief_wants_to_know_what_changed(folder: Path) -> None:
    result = rigprimer(folder, "brief", "ladders")
    assert result.exit_code == 1
    assert "write changed: in its module.yaml" in result.output
    module = folder / "curriculum" / "modules" / "ladders" / "module.yaml"
    text = module.read_text("utf-8").replace("edition: 1", "edition: 2")
    lesson = text.split("lessons: [")[1].split("]")[0].split(",")[0]
    said = f'changed: {{edition: 2, lessons: [{lesson}], what: ["New feet."]}}\n'
    module.write_text(text + said, "utf-8")
    assert "Re-brief: " in done(folder, "brief", "ladders", "--for", "Juno")
    with pikepdf.open(folder / "build" / "papers" / "ladders-brief-2.pdf") as pdf:
        assert len(pdf.pages) == 1
    nobody = rigprimer(folder, "brief", "ladders", "--everyone")
    assert "nobody must be re-briefed" in nobody.output
    module.write_text(text + said.replace(f"[{lesson}]", "[no-such-lesson]"), "utf-8")
    assert "which is no lesson of this module" in rigprimer(folder, "check").output


def test_tidy_asks_and_takes_old_keys_only(folder: Path) -> None:
    keys = folder / "build" / "keys"
    keys.mkdir(parents=True)
    old, young = keys / "old-key.pdf", keys / "young-key.pdf"
    for path in (old, young):
        path.write_bytes(b"x")
    os.utime(old, (0, 0))
    stopped = rigprimer(folder, "tidy", typed="n\n")
    assert stopped.exit_code == 1
    assert old.exists()
    assert "Deleted 1 key." in rigprimer(folder, "tidy", typed="y\n").output
    assert (old.exists(), young.exists()) == (False, True)
    assert "No key is older" in done(folder, "tidy")


def noted(folder: Path) -> list[tuple[str, int]]:
    """The editions above the first that the record has heard of."""
    with open_records(folder / "records.sqlite3") as records:
        events = records.events()
    editions = [e.data for e in events if e.kind == "edition"]
    return [(e["module"], e["edition"]) for e in editions if e["edition"] > 1]


def test_a_page_that_tells_a_day_of_grace_notes_the_edition_first(folder: Path) -> None:
    module = folder / "curriculum" / "modules" / "mixing" / "module.yaml"
    module.write_text(module.read_text("utf-8").replace("edition: 1", "edition: 2", 1), "utf-8")
    done(folder, "check")
    done(folder, "board", "--on", "2026-01-05")
    assert noted(folder) == []
    done(folder, "due")
    assert noted(folder) == [("mixing", 2)]
    done(folder, "board")
    assert noted(folder) == [("mixing", 2)]
