"""The record kept safe in a shop: second copies, warnings, backups, and what a test of it says."""

from __future__ import annotations

import logging
import os
import sqlite3
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pytest

from generator.errors import Refusal
from generator.model.course import Curriculum
from generator.records.store import Records
from generator.workflows import keeping
from generator.workflows.place import Place
from generator.workflows.record import enter, event

Entered = Callable[[str], list[str]]


@pytest.fixture
def place(tmp_path: Path) -> Place:
    """A shop folder; nothing in it is read."""
    folder = tmp_path / "shop"
    folder.mkdir()
    return Place(folder / "curriculum", folder / "records.sqlite3", folder / "build", True)


@pytest.fixture
def add(
    place: Place, curriculum: Curriculum, tmp_path: Path, caplog: pytest.LogCaptureFixture
) -> Entered:
    """Enter a person, with copies into a folder `stick` beside; the warnings that were given."""
    copying = replace(curriculum, shop=replace(curriculum.shop, copy_to=str(tmp_path / "stick")))

    def add_(name: str) -> list[str]:
        caplog.clear()
        with caplog.at_level(logging.WARNING):
            assert enter(place, copying, [event("joined", name)])
        return [record.getMessage() for record in caplog.records]

    return add_


def names(path: Path) -> list[str]:
    with Records(path) as records:
        assert records.verify() == []
        return [each.person for each in records.events() if each.kind == "joined"]


def test_an_event_entered_under_a_day_to_come_is_told_with_the_next(
    place: Place, add: Entered, curriculum: Curriculum, tmp_path: Path
) -> None:
    (tmp_path / "stick").mkdir()
    (late,) = enter(place, curriculum, [event("joined", "Juno")._replace(entered="9999-01-01")])
    (said,) = add("Teo")
    assert f"event {late.number} was entered under a day still to come" in said


def test_each_entry_goes_to_the_second_copy(place: Place, add: Entered, tmp_path: Path) -> None:
    (tmp_path / "stick").mkdir()
    for count, name in enumerate(("Mara", "Juno", "Teo"), 1):
        assert add(name) == []
        assert len(names(tmp_path / "stick" / "records.sqlite3")) == count
    assert names(tmp_path / "stick" / "records.sqlite3") == names(place.records)


def test_a_copy_that_fails_warns_and_the_entry_stays(
    place: Place, add: Entered, tmp_path: Path
) -> None:
    (warning,) = add("Mara")
    assert "WARNING: entered, but the second copy was not made: there is no folder" in warning
    assert names(place.records) == ["Mara"]
    (tmp_path / "stick").mkdir()
    (tmp_path / "stick" / "records.sqlite3").write_text("a letter\n" * 99, "utf-8")
    (warning,) = add("Juno")
    assert "the second copy was not made" in warning
    assert names(place.records) == ["Mara", "Juno"]
    (tmp_path / "stick" / "records.sqlite3").unlink()
    assert add("Teo") == []  # caught up as soon as it can be
    assert names(tmp_path / "stick" / "records.sqlite3") == ["Mara", "Juno", "Teo"]


def test_the_folder_of_the_record_itself_is_no_second_place(
    place: Place, curriculum: Curriculum, caplog: pytest.LogCaptureFixture
) -> None:
    copying = replace(curriculum, shop=replace(curriculum.shop, copy_to="."))
    enter(place, copying, [event("joined", "Mara")])
    assert "is the record itself" in caplog.text


def test_after_going_back_the_newer_copy_is_not_lost(
    place: Place, add: Entered, tmp_path: Path
) -> None:
    (tmp_path / "stick").mkdir()
    add("Mara")
    done = keeping.backup(place, None)
    add("Juno")
    keeping.restore(place, done.path, yes=True)
    (warning,) = add("Teo")
    assert "has events the record does not have" in warning
    (aside,) = (tmp_path / "stick").glob("records-aside-*")
    assert names(aside) == ["Mara", "Juno"]
    assert names(tmp_path / "stick" / "records.sqlite3") == ["Mara", "Teo"]


def test_a_synchronised_folder_is_warned_of_in_general_words(
    place: Place, add: Entered, tmp_path: Path
) -> None:
    (tmp_path / "stick").mkdir()
    (place.records.parent / ".stfolder").mkdir()
    (warning,) = add("Mara")
    assert "a folder that is kept the same on several computers" in warning
    assert "Move the shop folder to a plain folder" in warning
    assert any("WARNING" in note for note in keeping.examine(place).notes)


def test_backups_get_names_of_their_own(place: Place, add: Entered, tmp_path: Path) -> None:
    add("Mara")
    first = keeping.backup(place, None)
    add("Juno")
    second = keeping.backup(place, None)
    assert first.path.parent == second.path.parent == place.records.parent / "backups"
    assert first.path != second.path
    assert keeping.backup(place, None).path == second.path  # nothing new: the same again
    third = keeping.backup(place, tmp_path)
    assert third.path.parent == tmp_path
    assert third.path.name == second.path.name


def test_a_backup_that_knows_more_is_not_overwritten(place: Place, add: Entered) -> None:
    add("Mara")
    target = place.records.parent / "b.sqlite3"
    keeping.backup(place, target)
    with Records(target) as other:
        other.append([event("joined", "Only there")])
    with pytest.raises(Refusal, match="has 1 event that the record does not have"):
        keeping.backup(place, target)
    assert names(target) == ["Mara", "Only there"]
    keeping.backup(place, target, yes=True)
    assert names(target) == ["Mara"]
    target.write_text("a letter\n" * 99, "utf-8")
    with pytest.raises(Refusal, match="is not a Rigprimer record"):
        keeping.backup(place, target)


def test_text_out_and_in(place: Place, add: Entered, tmp_path: Path) -> None:
    for name in ("Mara", 'Ju "no",\n=cmd', "مرحبا 😀"):
        add(name)
    target = tmp_path / "crew.jsonl"
    done = keeping.write_text(place, target)
    other = replace(place, records=tmp_path / "other.sqlite3")
    assert keeping.read_text(other, target).last == done.last
    assert names(other.records) == names(place.records)
    again = tmp_path / "again.jsonl"
    keeping.write_text(other, again)
    assert again.read_bytes() == target.read_bytes()
    keeping.write_text(place, target)  # an export may be written over
    with pytest.raises(Refusal, match="events already"):
        keeping.read_text(place, target)
    if os.name == "posix":
        assert {path.stat().st_mode & 0o777 for path in (target, other.records)} == {0o600}


def test_an_export_goes_over_no_other_file(place: Place, add: Entered, tmp_path: Path) -> None:
    add("Mara")
    letter = tmp_path / "shop.yaml"
    letter.write_text("name: Larkspur Bend\n", "utf-8")
    with pytest.raises(Refusal, match="is another file, not an export"):
        keeping.write_text(place, letter)
    with pytest.raises(Refusal, match="is a folder"):
        keeping.write_text(place, tmp_path)
    with pytest.raises(Refusal, match="no such file"):
        keeping.write_text(place, tmp_path / "gone" / "x.jsonl")
    with pytest.raises(Refusal, match="no such file"):
        keeping.read_text(replace(place, records=tmp_path / "n.sqlite3"), tmp_path / "gone.jsonl")
    assert letter.read_text("utf-8") == "name: Larkspur Bend\n"


def change(path: Path, order: str) -> None:
    """Change the file behind the record's back, and put the locks back in place."""
    raw = sqlite3.connect(path, isolation_level=None)
    guards = [sql for (sql,) in raw.execute("SELECT sql FROM sqlite_master WHERE type='trigger'")]
    for name in ("no_change", "no_removal", "no_replacement"):
        raw.execute(f"DROP TRIGGER {name}")
    raw.execute(order)
    for guard in guards:
        raw.execute(guard)
    raw.close()


def test_a_test_of_the_record(place: Place, add: Entered) -> None:
    add("Mara")
    backup = keeping.backup(place, None)
    add("Juno")
    with Records(place.records) as records:
        now, last = records.head(), records.last().number
    found = keeping.examine(place, backup.head, backup.path)
    assert found.faults == ()
    assert found.notes == (
        f"The record ends at event {last}, head {now}.",
        (
            f"The head {backup.head} is in the chain: printed after event {backup.last.number}; "
            "entered since: 1."
        ),
        f"The copy {backup.path} ends at event {backup.last.number}, head {backup.head}.",
    )


def test_a_test_names_what_was_changed_beside_a_backup(place: Place, add: Entered) -> None:
    add("Mara")
    add("Juno")
    backup = keeping.backup(place, None)
    number = backup.last.number
    change(place.records, f"UPDATE events SET person = 'Pia' WHERE number = {number}")
    faults = keeping.examine(place, None, backup.path).faults
    assert faults[0].startswith(f"event {number} (joined, Pia, ")
    assert faults[1] == (
        f'event {number} differs from the copy: person is "Pia" here and "Juno" there'
    )
    with pytest.raises(Refusal, match=f"is not whole: event {number}"):
        keeping.backup(place, None)
    with pytest.raises(Refusal, match=f"is not whole: event {number}"):
        keeping.write_text(place, place.records.parent / "x.jsonl")
    assert keeping.backup(place, place.records.parent / "as-is.sqlite3", damaged=True)
    keeping.restore(place, backup.path)
    assert names(place.records) == ["Mara", "Juno"]


def test_a_printed_head_tells_that_the_newest_are_missing(place: Place, add: Entered) -> None:
    add("Mara")
    add("Juno")
    backup = keeping.backup(place, None)
    change(place.records, f"DELETE FROM events WHERE number = {backup.last.number}")
    raw = sqlite3.connect(place.records)
    raw.execute("UPDATE sqlite_sequence SET seq = seq - 1")
    raw.commit()
    raw.close()
    assert keeping.examine(place).faults == ()
    (fault,) = keeping.examine(place, backup.head).faults
    assert "is not in the chain: events that were there when it was printed are missing" in fault
    faults = keeping.examine(place, None, backup.path).faults
    assert faults == (f"the copy {backup.path} has 1 newer events that are missing here",)


@pytest.mark.posix("modes of files")
def test_a_record_that_others_may_read_is_worth_a_look(place: Place, add: Entered) -> None:
    add("Mara")
    assert not any("may read" in note for note in keeping.examine(place).notes)
    place.records.chmod(0o644)
    assert any("Others on this computer may read" in note for note in keeping.examine(place).notes)
