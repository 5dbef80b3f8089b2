"""Copies: tested when written, kept up with, and brought back without losing what was there."""

from __future__ import annotations

import os
import sqlite3
from pathlib import Path

import pytest

from generator.errors import Refusal
from generator.model.event import Event
from generator.records import schema
from generator.records.copies import bring_back, keep_up, write_copy
from generator.records.store import Records

DAY = "2025-03-01"


def joined(name: str) -> Event:
    return Event("joined", name, DAY, DAY)


def add(path: Path, *names: str) -> None:
    with Records(path) as records:
        records.append([joined(name) for name in names])


def names(path: Path) -> list[str]:
    with Records(path) as records:
        assert records.verify() == []
        return [event.person for event in records.events()]


def spoil(path: Path, number: int = 5) -> None:
    """Change a row behind the record's back."""
    raw = sqlite3.connect(path)
    raw.execute("DROP TRIGGER no_change")
    raw.execute("UPDATE events SET person = 'Mallory' WHERE number = ?", (number,))
    raw.commit()
    raw.close()


def of_the_future(path: Path) -> None:
    raw = sqlite3.connect(path)
    raw.execute(f"PRAGMA user_version = {len(schema.STEPS) + 1}")
    raw.close()


@pytest.fixture
def copy(tmp_path: Path) -> Path:
    """Where a copy may lie: a folder of its own."""
    (tmp_path / "stick").mkdir()
    return tmp_path / "stick" / "records.sqlite3"


def test_a_copy_is_whole_and_replaces_an_older_one(kept: Path, copy: Path) -> None:
    with Records(kept) as records:
        with pytest.raises(Refusal, match="no such file"):
            write_copy(records, copy.parent / "gone" / "r.sqlite3")
        write_copy(records, copy)
        records.append([joined("Ana")])
        done = write_copy(records, copy)
        assert (done.last, done.head) == (records.last(), records.head())
        with pytest.raises(Refusal, match="is the record itself"):
            write_copy(records, kept)
    assert names(copy) == names(kept)
    assert os.listdir(copy.parent) == [copy.name]
    if os.name == "posix":
        assert copy.stat().st_mode & 0o777 == 0o600


def test_a_record_that_is_not_whole_is_copied_on_request_only(kept: Path, copy: Path) -> None:
    with Records(kept) as records:
        write_copy(records, copy)
    good = copy.read_bytes()
    spoil(kept)
    with Records(kept) as records:
        with pytest.raises(Refusal, match=r"is not whole: the lock .*, and 1 more"):
            write_copy(records, copy)
        assert copy.read_bytes() == good
        assert os.listdir(copy.parent) == [copy.name]
        write_copy(records, copy, damaged=True)
        with Records(copy) as other:
            assert other.verify() == records.verify() != []


def test_only_what_is_new_is_written_to_the_second_copy(kept: Path, copy: Path) -> None:
    with Records(kept) as records:
        keep_up(records, copy, DAY)
        inode = copy.stat().st_ino
        for n in range(3):
            records.append([joined(f"New {n}"), joined(f"Newer {n}")])
            done = keep_up(records, copy, DAY)
            assert (done.last, done.aside) == (records.last(), None)
        assert copy.stat().st_ino == inode  # the same file, not a new one each time
    assert names(copy) == names(kept)


def test_a_second_copy_that_knows_more_is_set_aside(kept: Path, copy: Path) -> None:
    with Records(kept) as records:
        keep_up(records, copy, DAY)
    add(copy, "Only there")
    add(kept, "Only here")
    with Records(kept) as records:
        done = keep_up(records, copy, DAY)
    assert done.aside == copy.with_name(f"records-aside-{DAY}.sqlite3")
    assert names(done.aside)[-1] == "Only there"
    assert names(copy) == names(kept)


def test_a_damaged_second_copy_is_set_aside(kept: Path, copy: Path) -> None:
    with Records(kept) as records:
        keep_up(records, copy, DAY)
        copy.write_bytes(copy.read_bytes()[:-4096])
        done = keep_up(records, copy, DAY)
    assert done.aside
    assert names(copy) == names(kept)


def test_a_stranger_in_the_place_of_the_second_copy_is_left_alone(kept: Path, copy: Path) -> None:
    with Records(copy, create=True) as other:
        other.append([joined("Somebody else's")])
    before = copy.read_bytes()
    with Records(kept) as records, pytest.raises(Refusal, match="copy of another shop's record"):
        keep_up(records, copy, DAY)
    assert copy.read_bytes() == before
    copy.write_text("a letter\n" * 100, "utf-8")
    with Records(kept) as records, pytest.raises(Refusal, match="is not a Rigprimer record"):
        keep_up(records, copy, DAY)
    of_the_future(kept)  # the copy of a newer program, seen from an older one
    copy.write_bytes(kept.read_bytes())
    raw = sqlite3.connect(kept)
    raw.execute(f"PRAGMA user_version = {len(schema.STEPS)}")
    raw.close()
    before = copy.read_bytes()
    with Records(kept) as records, pytest.raises(Refusal, match="made by a newer Rigprimer"):
        keep_up(records, copy, DAY)
    assert copy.read_bytes() == before


def test_a_backup_is_brought_back_and_the_record_kept_beside_it(kept: Path, copy: Path) -> None:
    with Records(kept) as records:
        write_copy(records, copy)
    add(kept, "Newer", "Newest")
    before = kept.read_bytes()
    with pytest.raises(Refusal, match="has 2 events that the backup does not have") as caught:
        bring_back(copy, kept, DAY)
    assert "--yes" in caught.value.next
    assert kept.read_bytes() == before
    assert sorted(os.listdir(kept.parent)) == [kept.name, "stick"]
    done = bring_back(copy, kept, DAY, yes=True)
    assert done.aside == kept.with_name(f"records-aside-{DAY}.sqlite3")
    assert done.aside.read_bytes() == before
    assert names(kept) == names(copy)
    if os.name == "posix":
        assert kept.stat().st_mode & 0o777 == 0o600
    again = bring_back(copy, kept, DAY)  # nothing newer here: no need to insist
    assert again.aside == kept.with_name(f"records-aside-{DAY}-2.sqlite3")


def test_a_backup_that_goes_further_needs_no_yes(kept: Path, copy: Path) -> None:
    old = kept.read_bytes()
    add(kept, "Newer")
    with Records(kept) as records:
        write_copy(records, copy)
    kept.write_bytes(old)
    bring_back(copy, kept, DAY)
    assert names(kept)[-1] == "Newer"


def test_two_records_that_went_apart_are_told_from_each_other(kept: Path, copy: Path) -> None:
    with Records(kept) as records:
        write_copy(records, copy)
    add(copy, "There", "There too", "And there")
    add(kept, "Here")
    with pytest.raises(Refusal, match="has 1 event that the backup does not have"):
        bring_back(copy, kept, DAY)


def test_a_damaged_record_is_replaced_without_a_word_and_kept(kept: Path, copy: Path) -> None:
    with Records(kept) as records:
        write_copy(records, copy)
    kept.write_bytes(kept.read_bytes()[:5000])
    Path(f"{kept}-journal").write_bytes(b"left by a crash" * 100)
    done = bring_back(copy, kept, DAY)
    assert names(kept) == names(copy)  # the old journal was not played into the new file
    assert done.aside
    assert done.aside.stat().st_size == 5000


@pytest.mark.parametrize("missing", [True, False])
def test_into_an_empty_place(kept: Path, copy: Path, missing: bool) -> None:
    with Records(kept) as records:
        write_copy(records, copy)
    kept.unlink()
    if not missing:
        kept.touch()
    assert bring_back(copy, kept, DAY).aside is None
    assert names(kept) == names(copy)


def test_what_is_no_record_is_put_aside_only_with_yes(kept: Path, copy: Path) -> None:
    with Records(kept) as records:
        write_copy(records, copy)
    kept.write_text("what is this?\n" * 300, "utf-8")
    with pytest.raises(Refusal, match="is not a Rigprimer record"):
        bring_back(copy, kept, DAY)
    assert kept.read_text("utf-8").startswith("what")
    assert bring_back(copy, kept, DAY, yes=True).aside
    assert names(kept) == names(copy)


def test_what_is_no_backup_is_said_of_the_file_named(kept: Path, copy: Path) -> None:
    copy.write_text("what is this?\n" * 300, "utf-8")
    whats = {
        copy: f"{copy} is not a Rigprimer record",
        copy.parent: f"{copy.parent} is a folder",
        copy.with_name("none"): f"there is no file {copy.with_name('none')}",
    }
    for source, what in whats.items():
        with pytest.raises(Refusal) as raised:
            bring_back(source, kept, DAY)
        assert raised.value.what == what
        assert raised.value.next.startswith("name a backup")


def test_a_newer_record_is_not_replaced(kept: Path, copy: Path) -> None:
    with Records(kept) as records:
        write_copy(records, copy)
    of_the_future(kept)
    before = kept.read_bytes()
    with pytest.raises(Refusal, match="made by a newer Rigprimer"):
        bring_back(copy, kept, DAY)
    assert kept.read_bytes() == before


@pytest.mark.parametrize("harm", ["cut", "edit", "newer", "other", "missing", "empty"])
def test_a_backup_that_cannot_be_used_changes_nothing(kept: Path, copy: Path, harm: str) -> None:
    with Records(kept) as records:
        write_copy(records, copy)
    if harm == "cut":
        copy.write_bytes(copy.read_bytes()[:-5000])
    elif harm == "edit":
        spoil(copy)
    elif harm == "newer":
        of_the_future(copy)
    elif harm == "other":
        copy.write_bytes(b"no record at all" * 400)
    elif harm == "missing":
        copy.unlink()
    else:
        copy.write_bytes(b"")
    before, backup = kept.read_bytes(), copy.read_bytes() if copy.exists() else None
    with pytest.raises(Refusal) as caught:
        bring_back(copy, kept, DAY, yes=True)
    assert caught.value.next
    assert kept.read_bytes() == before
    assert (copy.read_bytes() if copy.exists() else None) == backup
    assert len(list(kept.parent.iterdir())) == 2


@pytest.mark.posix("replacing an open file")
def test_what_is_written_to_a_replaced_record_is_refused(kept: Path, copy: Path) -> None:
    with Records(kept) as records:
        write_copy(records, copy)
        bring_back(copy, kept, DAY)
        with pytest.raises(Refusal, match="was replaced while this was going on"):
            records.append([joined("Lost")])
        kept.unlink()
        with pytest.raises(Refusal, match="was replaced"):
            records.append([joined("Lost")])


@pytest.mark.posix("replacing an open file")
def test_a_record_somebody_writes_to_is_not_replaced(
    kept: Path, copy: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("generator.records.copies.WAIT", 0.05)
    with Records(kept) as records:
        write_copy(records, copy)
    other = sqlite3.connect(kept, isolation_level=None)
    other.execute("BEGIN IMMEDIATE")
    with pytest.raises(Refusal, match="in use by another program"):
        bring_back(copy, kept, DAY)
    other.close()
    assert len(list(kept.parent.iterdir())) == 2
