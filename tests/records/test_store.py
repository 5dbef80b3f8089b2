"""The record's file: what is kept, and every trouble in plain words with the file left alone."""

from __future__ import annotations

import os
import sqlite3
import subprocess
import sys
import tempfile
from collections.abc import Iterator, Sequence
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.errors import Refusal
from generator.model.event import KINDS, Event
from generator.records.store import Records, open_records

DAY = "2025-03-01"
HOSTILE = 'Ña "Q", O\'Dell\r\n\t\x00<b>{x}</b> \\ %s 😀 مرحبا'


def joined(name: str) -> Event:
    return Event("joined", name, DAY, DAY)


def state(path: Path) -> tuple[bytes, int, list[str]]:
    """The file's bytes and time, and what lies beside it."""
    return path.read_bytes(), path.stat().st_mtime_ns, sorted(os.listdir(path.parent))


def refused(path: Path, **how: bool | float) -> Refusal:
    """How opening is refused; the file must be left as it was."""
    before = state(path) if path.is_file() else None
    with pytest.raises(Refusal) as caught:
        Records(path, **how)  # type: ignore[arg-type]
    assert before is None or state(path) == before
    assert str(path) in caught.value.what
    assert caught.value.next
    return caught.value


def test_events_come_back_as_they_were_with_their_numbers(path: Path) -> None:
    first = Event("taught", "Ana", DAY, "2025-03-09", "Boss", {"module": "m", "lessons": ["a"]})
    with open_records(path, create=True) as records:
        assert records.events() == ()
        (one, two) = records.append([first, joined(HOSTILE)])
        (three,) = records.append([joined("Ben")])
        assert [one.number, two.number, three.number] == [1, 2, 3]
        assert records.events() == (one, two, three)
    assert one == first._replace(number=1)
    with open_records(path) as records:
        assert records.events()[1].person == HOSTILE
        assert records.verify() == []


plain_text = st.text(st.characters(exclude_categories=["Cs"]), max_size=20)
plain_data = st.dictionaries(
    plain_text,
    st.recursive(
        st.none() | st.booleans() | st.integers() | plain_text,
        lambda inside: (
            st.lists(inside, max_size=3) | st.dictionaries(plain_text, inside, max_size=3)
        ),
        max_leaves=6,
    ),
    max_size=4,
)


@settings(max_examples=40, deadline=None)
@given(
    st.lists(
        st.builds(
            Event,
            st.sampled_from(KINDS),
            plain_text,
            st.dates().map(str),
            st.dates().map(str),
            plain_text,
            plain_data,
            st.just(0),
        ),
        min_size=1,
        max_size=5,
    )
)
def test_any_event_is_kept_exactly(events: list[Event]) -> None:
    with (
        tempfile.TemporaryDirectory() as folder,
        Records(Path(folder) / "r.sqlite3", create=True) as records,
    ):
        kept = records.append(events)
        assert records.events() == kept
        assert records.verify() == []
    stripped = [event._replace(number=0) for event in kept]
    assert stripped == events


def test_the_file_is_for_its_owner_only_and_cannot_be_edited(path: Path, kept: Path) -> None:
    if os.name == "posix":
        assert path.stat().st_mode & 0o777 == 0o600
    raw = sqlite3.connect(kept)
    for order in (
        "UPDATE events SET person = 'x' WHERE number = 3",
        "DELETE FROM events WHERE number = 3",
        "INSERT OR REPLACE INTO events SELECT * FROM events WHERE number = 3",
        "REPLACE INTO events VALUES (3, 'joined', 'x', '', '', '', '', '{}', '', '', '')",
    ):
        with pytest.raises(sqlite3.IntegrityError, match="append only"):
            raw.execute(order)
        raw.rollback()
    with pytest.raises(sqlite3.IntegrityError):  # STRICT: no number where a text belongs
        raw.execute(
            "INSERT INTO events VALUES (99, 'joined', x'00', '', '', '', '', '', '', '', '')"
        )
    settings = {name: raw.execute(f"PRAGMA {name}").fetchone()[0] for name in ("journal_mode",)}
    assert settings == {"journal_mode": "delete"}
    raw.close()
    with Records(kept) as records:
        assert records._connection.execute("PRAGMA synchronous").fetchone() == (3,)  # EXTRA
        assert len(records.events()) == 12


def test_all_or_nothing(kept: Path) -> None:
    with Records(kept) as records:
        head = records.head()
        for bad in (
            Event("jioned", "Ana", DAY, DAY),
            Event("joined", "Ana", "1 March", DAY),
            Event("joined", "Ana", DAY, "20250301"),
            Event("joined", "Ana\udcff", DAY, DAY),
            Event("incident", "Ana", DAY, DAY, "", {"what": "\ud800"}),
        ):
            with pytest.raises(Refusal):
                records.append([joined("Ben"), bad])
        assert (len(records.events()), records.head()) == (12, head)


def test_a_wrong_kind_names_the_nearest(kept: Path) -> None:
    with Records(kept) as records, pytest.raises(Refusal, match='did you mean "joined"'):
        records.append([Event("jioned", "Ana", DAY, DAY)])


def test_each_event_is_allowed_after_those_before_it_or_none_is(kept: Path) -> None:
    asked: list[tuple[str, int]] = []

    def allow(event: Event, history: Sequence[Event]) -> None:
        asked.append((event.person, len(history)))
        if event.person == "Cal":
            raise Refusal("not Cal", "take Ana")

    with Records(kept) as records:
        records.append([joined("Ana"), joined("Ben")], allow)
        assert asked == [("Ana", 12), ("Ben", 13)]
        with pytest.raises(Refusal, match="not Cal — take Ana"):
            records.append([joined("Dee"), joined("Cal")], allow)
        assert len(records.events()) == 14
        assert [e.number for e in records.append([joined("Dee")], allow)] == [15]


def test_missing_file_names_the_command_that_makes_one(path: Path) -> None:
    refusal = refused(path)
    assert "there is no record" in refusal.what
    assert "rigprimer crew add" in refusal.next
    assert not path.exists()


def test_missing_folder(tmp_path: Path) -> None:
    assert "no such file" in refused(tmp_path / "gone" / "r.sqlite3", create=True).what


@pytest.mark.parametrize("create", [True, False])
def test_a_folder_a_text_and_another_database_are_no_records(tmp_path: Path, create: bool) -> None:
    text = tmp_path / "notes.txt"
    text.write_text("Ana may mix.\n" * 200, "utf-8")
    other = tmp_path / "other.sqlite3"
    raw = sqlite3.connect(other)
    raw.execute("CREATE TABLE t (x)")
    raw.close()
    for wrong in (tmp_path, text, other):
        assert "is not a Rigprimer record" in refused(wrong, create=create).what


def test_an_empty_file_is_finished_by_start_only(path: Path) -> None:
    path.touch()
    assert "is an empty file" in refused(path).what
    with Records(path, create=True) as records:
        assert records.events() == ()


@pytest.mark.parametrize("left", [100, 600, 4096, 8192, -4096, -1])
def test_a_file_cut_short(kept: Path, left: int) -> None:
    with Records(kept) as records:
        records.append([joined("x" * 500) for _ in range(60)])
    kept.write_bytes(kept.read_bytes()[:left])
    refusal = refused(kept)
    assert "cut short" in refusal.what or "not a Rigprimer record" in refusal.what


def test_a_newer_record_is_left_alone(kept: Path) -> None:
    raw = sqlite3.connect(kept)
    raw.execute("PRAGMA user_version = 2")
    raw.close()
    refusal = refused(kept, create=True)
    assert "made by a newer Rigprimer" in refusal.what
    assert "install" in refusal.next


def test_locked_by_another_program(kept: Path) -> None:
    other = sqlite3.connect(kept, isolation_level=None)
    with Records(kept, wait=0.05) as records:
        other.execute("BEGIN IMMEDIATE")
        assert len(records.events()) == 12  # reading goes on
        with pytest.raises(Refusal, match="in use by another program"):
            records.append([joined("Ana")])
        other.execute("ROLLBACK")
        other.execute("BEGIN EXCLUSIVE")
        with pytest.raises(Refusal, match="close the other Rigprimer window"):
            records.events()
        assert "in use" in refused(kept, wait=0.05).what
        other.execute("ROLLBACK")
        assert records.append([joined("Ana")])[0].number == 13
    other.close()


def test_disk_full_enters_nothing(kept: Path) -> None:
    with Records(kept) as records:
        before = records.events()
        pages = records._connection.execute("PRAGMA page_count").fetchone()[0]
        records._connection.execute(f"PRAGMA max_page_count = {pages}")
        content = kept.read_bytes()
        with pytest.raises(Refusal, match="the disk is full; nothing was entered"):
            records.append([joined("Ana"), joined("x" * 50_000)])
        assert records.events() == before
        assert kept.read_bytes() == content
        assert records.append([joined("Ana")])[0].number == 13
        assert records.verify() == []


AS_PLAIN_USER = """
import os, resource, signal, sys, traceback
from generator.errors import Refusal
from generator.model.event import Event
from generator.records.store import Records
path, limit = sys.argv[1], int(sys.argv[2])
if limit:
    signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
    resource.setrlimit(resource.RLIMIT_FSIZE, (limit, limit))
if os.geteuid() == 0:  # the superuser may write anywhere
    os.setgid(65534)
    os.setuid(65534)
try:
    with Records(path) as records:
        print(len(records.events()), "read")
        records.append([Event("joined", "x" * 50000, "2025-03-01", "2025-03-01")])
        print("entered")
except Refusal as refusal:
    print(refusal)
"""


@pytest.fixture
def yard() -> Iterator[Path]:
    """A folder that a plain user may look into, even if the tests are run by the superuser."""
    with tempfile.TemporaryDirectory() as folder:
        yard = Path(folder)
        with Records(yard / "r.sqlite3", create=True) as records:
            records.append([joined("Ana")])
        yield yard
        yard.chmod(0o755)


def as_plain_user(path: Path, limit: int = 0) -> str:
    """What a plain user meets, whose files may not grow over `limit` bytes."""
    command = [sys.executable, "-c", AS_PLAIN_USER, str(path), str(limit)]
    return subprocess.run(command, capture_output=True, text=True, check=True).stdout


@pytest.mark.posix("modes of files")
@pytest.mark.parametrize(
    ("file", "folder", "said"),
    [
        (0o666, 0o777, "1 read\nentered\n"),
        (
            0o444,
            0o755,
            "1 read\nthe record {} can't be written: the file or its folder is read-only",
        ),
        (
            0o666,
            0o555,
            "1 read\nthe record {} can't be written: the file or its folder is read-only",
        ),
        (0o000, 0o755, "the record {} can't be opened: the file or its folder is closed to you"),
        (0o666, 0o000, "the record {} can't be opened: permission denied"),
    ],
)
def test_rights_of_file_and_folder(yard: Path, file: int, folder: int, said: str) -> None:
    path = yard / "r.sqlite3"
    path.chmod(file)
    yard.chmod(folder)
    found = as_plain_user(path)
    assert found.startswith(said.format(path))
    yard.chmod(0o755)
    assert os.listdir(yard) == ["r.sqlite3"]


@pytest.mark.posix("limits of a process")
def test_a_file_that_may_not_grow(yard: Path) -> None:
    path = yard / "r.sqlite3"
    path.chmod(0o666)
    yard.chmod(0o777)
    size = path.stat().st_size
    assert "nothing was entered" in as_plain_user(path, size)
    with Records(path) as records:
        assert [event.person for event in records.events()] == ["Ana"]
        assert records.verify() == []
    assert path.stat().st_size == size


def test_an_event_that_cannot_be_read_is_named(kept: Path) -> None:
    raw = sqlite3.connect(kept)
    raw.execute("DROP TRIGGER no_change")
    for text in ("{", "[]", "{} {}", ""):
        raw.execute("UPDATE events SET data = ? WHERE number = 7", (text,))
        raw.commit()
        with Records(kept) as records, pytest.raises(Refusal, match=r"event 7 .* can't be read"):
            records.events()
    raw.close()


def test_head_changes_with_every_event_and_is_known_afterwards(kept: Path) -> None:
    with Records(kept) as records:
        first = records.head()
        assert [len(part) for part in first.split("-")] == [4, 4, 4, 4]
        records.append([joined("Ana")])
        assert records.head() != first
        assert records.knows(first)
        assert records.knows(first.upper().replace("-", " "))
        assert not records.knows("0123-4567-89ab-cdef")
        assert not records.knows(first[:9])
