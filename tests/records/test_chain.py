"""Every edited, removed, reordered or inserted row is found and named."""

from __future__ import annotations

import sqlite3
from collections.abc import Callable
from pathlib import Path

import pytest

from generator.model.event import Event
from generator.records.chain import seal
from generator.records.rows import Row
from generator.records.store import Records

GUARDS = ("no_change", "no_removal", "no_replacement")
Tamper = Callable[..., list[str]]
ALL_BUT_NUMBER = ", ".join(Row._fields[1:])


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


def rows(kept: Path) -> list[Row]:
    with Records(kept) as records:
        return list(records.rows())


def forged(row: Row, **changes: str) -> str:
    """The seal a forger would put on a row with those changes."""
    return seal(Row(**{**row._asdict(), **changes}))


def test_nothing_done_nothing_found(tamper: Tamper) -> None:
    assert tamper() == []


COLUMNS = ("kind", "person", "seen", "entered", "by", "paper", "data", "long")


@pytest.mark.parametrize("column", COLUMNS)
@pytest.mark.parametrize("number", [1, 5, 12])
def test_every_column_of_a_row_is_sealed(tamper: Tamper, column: str, number: int) -> None:
    (found,) = tamper(f"UPDATE events SET {column} = {column} || ' ' WHERE number = {number}")
    assert found.startswith(f"event {number} (joined")
    assert "was changed" in found


def test_what_was_changed_is_said_where_the_seal_proves_it(tamper: Tamper) -> None:
    found = tamper(
        "UPDATE events SET kind = 'left' WHERE number = 5",
        "UPDATE events SET seen = '2025-03-02' WHERE number = 7",
    )
    assert found == [
        (
            'event 5 (left, Crew 4, 2025-03-01) was changed: the kind of event was "joined" and is '
            'now "left"'
        ),
        (
            "event 7 (joined, Crew 6, 2025-03-02) was changed: the day it happened was "
            '"2025-03-01" and is now "2025-03-02"'
        ),
    ]


def test_a_result_turned_round(tamper: Tamper, kept: Path) -> None:
    passed = Event("marked", "Crew 1", "2025-03-02", "2025-03-02", "Crew 2", {"passed": False})
    with Records(kept) as records:
        records.append([passed])
    found = tamper("UPDATE events SET data = replace(data, 'false', 'true') WHERE number = 13")
    assert found == ["event 13 (marked, Crew 1, 2025-03-02) was changed after it was entered"]


def test_the_seals_are_sealed_too(tamper: Tamper) -> None:
    found = tamper("UPDATE events SET previous = hash WHERE number = 4")
    assert found == [
        (
            "event 4 (joined, Crew 3, 2025-03-01) was changed: its link to the event before it, "
            "and nothing else"
        )
    ]


def test_a_changed_seal_of_an_untouched_event(tamper: Tamper) -> None:
    found = tamper("UPDATE events SET hash = previous WHERE number = 4")
    assert found == [
        (
            "the seal of event 4 (joined, Crew 3, 2025-03-01) was changed; what it says is as it "
            "was entered"
        )
    ]


def test_text_pushed_from_one_column_into_the_next(tamper: Tamper, kept: Path) -> None:
    items = [{"id": "a", "must": True}]
    paper = {"paper": {"code": "K7", "items": items}}
    with Records(kept) as records:
        records.append([Event("issued", "", "2025-03-02", "2025-03-02", "", paper)])
    order = "UPDATE events SET data = data || char(10) || long, long = '' WHERE number = 13"
    (found,) = tamper(order)
    assert found.startswith("event 13 (issued, 2025-03-02) was changed")


def test_bytes_that_are_no_letters(tamper: Tamper) -> None:
    (found,) = tamper("UPDATE events SET person = CAST(x'ff41' AS TEXT) WHERE number = 4")
    assert found.startswith("event 4 (joined, \ufffdA, 2025-03-01) was changed")


def test_each_removed_row_is_named(tamper: Tamper) -> None:
    found = tamper("DELETE FROM events WHERE number IN (1, 6, 7)")
    assert found == ["event 1 was removed", "events 6 to 7 were removed"]


def test_a_cut_off_tail_is_noticed_then_and_later(tamper: Tamper, kept: Path) -> None:
    gone = ["events 11 to 12 were removed"]
    assert tamper("DELETE FROM events WHERE number > 10") == gone
    with Records(kept) as records:
        (new,) = records.append([Event("joined", "Ana", "2025-03-01", "2025-03-01")])
        assert new.number == 13
        assert records.verify() == gone


def test_all_removed(tamper: Tamper) -> None:
    assert tamper("DELETE FROM events") == ["events 1 to 12 were removed"]


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
    assert found == [
        "event 10 was removed",
        "events 10 to 11 stand out of order: they were entered as events 11 to 12",
    ]


def test_the_missing_beginning_moved_down(tamper: Tamper) -> None:
    found = tamper(
        "DELETE FROM events WHERE number < 4",
        "UPDATE events SET number = number - 3",
        "UPDATE sqlite_sequence SET seq = 9",
    )
    assert found == [
        "events 1 to 3 were removed",
        "events 1 to 9 stand out of order: they were entered as events 4 to 12",
    ]


def test_a_row_put_in_again_at_the_end(tamper: Tamper) -> None:
    found = tamper(f"INSERT INTO events SELECT 13, {ALL_BUT_NUMBER} FROM events WHERE number = 12")
    assert found == ["event 13 was put in: it is event 12 again"]


def put_in(person: str, hash: str) -> tuple[str, ...]:
    """Orders that put a row between events 5 and 6, and move the others down."""
    return (
        "UPDATE events SET number = -number - 1 WHERE number > 5",
        "UPDATE events SET number = -number WHERE number < 0",
        (
            f"INSERT INTO events SELECT 6, kind, '{person}', seen, entered, by, paper, data, hash, "
            f"'{hash}', long FROM events WHERE number = 5"
        ),
        "UPDATE sqlite_sequence SET seq = 13",
    )


def test_a_row_put_in_between(tamper: Tamper) -> None:
    assert tamper(*put_in("Mallory", "ff" * 32)) == [
        "event 6 (joined, Mallory, 2025-03-01) was put in: it was never entered here",
        "events 7 to 13 stand out of order: they were entered as events 6 to 12",
    ]


def test_a_row_put_in_with_a_right_seal(tamper: Tamper, kept: Path) -> None:
    fifth = rows(kept)[4]._replace(number=6, person="Mallory", previous=rows(kept)[4].hash)
    found = tamper(*put_in("Mallory", seal(fifth)))
    assert found[0] == "a row was put in for event 6: both event 6 and event 7 claim to be it"
    assert found[1] == "events 7 to 13 stand out of order: they were entered as events 6 to 12"


def test_a_forged_row_with_a_right_seal_breaks_the_link(tamper: Tamper, kept: Path) -> None:
    hash = forged(rows(kept)[4], person="Forged")
    found = tamper(f"UPDATE events SET person = 'Forged', hash = '{hash}' WHERE number = 5")
    assert found == ["event 5 was replaced: event 6 was entered after another one"]


def test_a_forged_end_is_told_by_a_printed_head_only(tamper: Tamper, kept: Path) -> None:
    with Records(kept) as records:
        printed = records.head()
    hash = forged(rows(kept)[-1], person="Forged")
    assert tamper(f"UPDATE events SET person = 'Forged', hash = '{hash}' WHERE number = 12") == []
    with Records(kept) as records:
        assert not records.knows(printed)


def test_a_printed_head_tells_that_the_newest_rows_are_missing(tamper: Tamper, kept: Path) -> None:
    with Records(kept) as records:
        printed = records.head()
        assert records.place_of(printed) == 12
    cut = ("DELETE FROM events WHERE number > 9", "UPDATE sqlite_sequence SET seq = 9")
    assert tamper(*cut) == []  # the file alone can't tell
    with Records(kept) as records:
        assert records.place_of(printed) is None
        assert records.place_of(records.head()) == 9


def test_thousands_of_spoiled_rows_are_told_in_seconds(tmp_path: Path) -> None:
    path = tmp_path / "many.sqlite3"
    with Records(path, create=True) as records:
        day = "2025-03-01"
        records.append([Event("joined", f"Crew {n}", day, day) for n in range(6000)])
    raw = sqlite3.connect(path, isolation_level=None)
    for name in GUARDS:
        raw.execute(f"DROP TRIGGER {name}")
    raw.execute("UPDATE events SET data = '{\"a\":1}' WHERE number % 2 = 0")
    raw.close()
    with Records(path) as records:
        found = records.verify()
    assert sum("was changed after it was entered" in each for each in found) == 3000
    assert len(found) == 3000 + len(GUARDS)


def test_guards_taken_away_or_put_in_are_noticed(kept: Path) -> None:
    raw = sqlite3.connect(kept)
    raw.execute("DROP TRIGGER no_removal")
    raw.execute("CREATE TRIGGER spy AFTER INSERT ON events BEGIN SELECT 1; END")
    raw.close()
    with Records(kept) as records:
        assert records.verify() == [
            "the lock against edits named no_removal was taken away",
            "a trigger named spy was put in",
        ]


def test_every_flipped_byte_of_a_row_is_noticed(kept: Path) -> None:
    row = rows(kept)[6]
    whole = kept.read_bytes()
    text = "".join(row[1:]).encode()
    start = whole.index(text)
    assert whole.count(text) == 1
    for at in range(start, start + len(text)):
        kept.write_bytes(whole[:at] + bytes([whole[at] ^ 1]) + whole[at + 1 :])
        with Records(kept) as records:
            assert "event 7" in " ".join(records.verify())


def test_a_flipped_byte_in_the_long_part_is_noticed(
    path: Path, history: Callable[[str], tuple[Event, ...]], starts: dict[str, str]
) -> None:
    issued = next(event for event in history(starts["papered"]) if event.kind == "issued")
    with Records(path, create=True) as records:
        records.append([issued._replace(number=0)])
        (row,) = records.rows()
    assert row.paper == "G1"
    whole = path.read_bytes()
    at = whole.index(row.long.encode()) + len(row.long) // 2
    path.write_bytes(whole[:at] + bytes([whole[at] ^ 1]) + whole[at + 1 :])
    with Records(path) as records:
        (found,) = records.verify()
    assert found.startswith("event 1 (issued, Ana, 2025-01-05) was changed")
