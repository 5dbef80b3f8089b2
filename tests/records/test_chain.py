"""Every edited, removed or reordered row is named."""

from __future__ import annotations

import sqlite3
from collections.abc import Callable
from pathlib import Path

import pytest

from generator.model.event import Event
from generator.records.chain import seal
from generator.records.store import Records

GUARDS = ("no_change", "no_removal", "no_replacement")
Tamper = Callable[..., list[str]]


@pytest.fixture
def tamper(kept: Path) -> Tamper:
    """Run orders on the file behind the record's back, and say what `verify` finds then."""

    def run(*orders: str) -> list[str]:
        raw = sqlite3.connect(kept, isolation_level=None)
        guards = [
            sql for (sql,) in raw.execute("SELECT sql FROM sqlite_master WHERE type = 'trigger'")
        ]
        for name in GUARDS:
            raw.execute(f"DROP TRIGGER {name}")
        for order in orders:
            raw.execute(order)
        for guard in guards:
            raw.execute(guard)
        raw.close()
        with Records(kept) as records:
            return records.verify()

    return run


def test_nothing_done_nothing_found(tamper: Tamper) -> None:
    assert tamper() == []


@pytest.mark.parametrize("column", ["kind", "person", "seen", "entered", "by", "data"])
@pytest.mark.parametrize("number", [1, 5, 12])
def test_every_column_of_a_row_is_sealed(tamper: Tamper, column: str, number: int) -> None:
    order = f"UPDATE events SET {column} = {column} || ' ' WHERE number = {number}"
    assert tamper(order) == [f"event {number} was changed after it was entered"]


def test_the_hashes_are_sealed_too(tamper: Tamper) -> None:
    found = tamper("UPDATE events SET previous = hash WHERE number = 4")
    assert found == ["event 4 was changed after it was entered"]


def test_bytes_that_are_no_letters(tamper: Tamper) -> None:
    found = tamper("UPDATE events SET person = CAST(x'ff41' AS TEXT) WHERE number = 4")
    assert found == ["event 4 was changed after it was entered"]


def test_each_removed_row_is_named(tamper: Tamper) -> None:
    found = tamper("DELETE FROM events WHERE number IN (1, 6, 7)")
    assert found == [f"event {number} was removed" for number in (1, 6, 7)]


def test_a_cut_off_tail_is_noticed_then_and_later(tamper: Tamper, kept: Path) -> None:
    gone = [f"event {number} was removed" for number in (11, 12)]
    assert tamper("DELETE FROM events WHERE number > 10") == gone
    with Records(kept) as records:
        (new,) = records.append([Event("joined", "Ana", "2025-03-01", "2025-03-01")])
        assert new.number == 13
        assert records.verify() == gone


def test_all_removed(tamper: Tamper) -> None:
    assert len(tamper("DELETE FROM events")) == 12


def test_rows_that_changed_places(tamper: Tamper) -> None:
    found = tamper(
        "UPDATE events SET number = 99 WHERE number = 3",
        "UPDATE events SET number = 3 WHERE number = 8",
        "UPDATE events SET number = 8 WHERE number = 99",
        "UPDATE sqlite_sequence SET seq = 12",
    )
    assert found == [
        "event 3 stands out of order: it was entered as event 8",
        "event 8 stands out of order: it was entered as event 3",
    ]


def test_a_row_removed_and_the_rest_moved_up(tamper: Tamper) -> None:
    found = tamper(
        "DELETE FROM events WHERE number = 10",
        "UPDATE events SET number = 10 WHERE number = 11",
        "UPDATE events SET number = 11 WHERE number = 12",
        "UPDATE sqlite_sequence SET seq = 11",
    )
    assert [word.split()[1] for word in found] == ["10", "11"]


def test_a_row_put_in(tamper: Tamper) -> None:
    found = tamper(
        "INSERT INTO events SELECT 13, kind, person, seen, entered, by, data, previous, hash"
        " FROM events WHERE number = 12"
    )
    assert found == ["event 13 was changed after it was entered"]


def test_a_forged_row_with_a_right_seal_breaks_the_link(tamper: Tamper, kept: Path) -> None:
    with Records(kept) as records:
        row = records._rows()[4]
    forged = seal(row.previous, 5, row.kind, "Forged", *row[3:7])
    found = tamper(f"UPDATE events SET person = 'Forged', hash = '{forged}' WHERE number = 5")
    assert found == ["event 5 was replaced: event 6 was entered after another one"]


def test_a_forged_last_row_is_told_by_a_printed_head_only(tamper: Tamper, kept: Path) -> None:
    with Records(kept) as records:
        row, printed = records._rows()[-1], records.head()
    forged = seal(row.previous, 12, row.kind, "Forged", *row[3:7])
    order = f"UPDATE events SET person = 'Forged', hash = '{forged}' WHERE number = 12"
    assert tamper(order) == []
    with Records(kept) as records:
        assert not records.knows(printed)


def test_the_missing_beginning_moved_down(tamper: Tamper) -> None:
    found = tamper(
        "DELETE FROM events WHERE number = 1",
        "UPDATE events SET number = number - 1",
        "UPDATE sqlite_sequence SET seq = 11",
    )
    assert len(found) == 11


def test_guards_taken_away_are_missed(kept: Path) -> None:
    raw = sqlite3.connect(kept)
    raw.execute("DROP TRIGGER no_removal")
    raw.close()
    with Records(kept) as records:
        assert records.verify() == ["the lock against edits named no_removal was taken away"]


def test_every_flipped_byte_of_a_row_is_noticed(kept: Path) -> None:
    with Records(kept) as records:
        row = records._rows()[6]
    whole = kept.read_bytes()
    text = "".join(row[1:]).encode()
    start = whole.index(text)
    assert whole.count(text) == 1
    for at in range(start, start + len(text)):
        kept.write_bytes(whole[:at] + bytes([whole[at] ^ 1]) + whole[at + 1 :])
        with Records(kept) as records:
            assert "event 7" in " ".join(records.verify())
