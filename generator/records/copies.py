"""Copies of the record: whole ones, kept up with, and brought back."""

from __future__ import annotations

import os
import sqlite3
from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

from generator.errors import Refusal
from generator.records import files, troubles
from generator.records.chain import short
from generator.records.rows import Row
from generator.records.store import WAIT, Head, Records, connect

_NAME_A_BACKUP = "name a backup; those made without a name lie in the folder backups"


@dataclass(frozen=True)
class Copied:
    """A finished copy: where it is, where its chain ends, and what it had to push aside."""

    path: Path
    last: Head
    aside: Path | None = None

    @property
    def head(self) -> str:
        """The short head of its chain."""
        return short(self.last.hash)


def write_copy(records: Records, target: Path, damaged: bool = False) -> Copied:
    """Write the whole record to `target`, which only a complete, tested copy replaces.

    The copy is opened again, its chain is gone through, and its count and head are compared with
    the record. Unless `damaged` copies are asked for, one with a broken chain is refused.
    """
    _not_itself(records, target)
    with _replacing(target) as part:
        records.write_into(part)
        last = _tested(records, part, damaged)
    return Copied(target, last)


@contextmanager
def _replacing(target: Path) -> Iterator[Path]:
    """As `files.replacing`; what goes wrong with the part is said of the target."""
    with troubles.in_plain_words(target), files.replacing(target) as part:
        try:
            yield part
        except Refusal as refusal:
            told = refusal.what.replace(str(part), str(target))
            raise type(refusal)(told, refusal.next) from refusal


def _not_itself(records: Records, target: Path) -> None:
    with troubles.in_plain_words(target):
        if target.exists() and target.samefile(records.path):
            raise Refusal(f"{target} is the record itself", "name another file or folder")


def _tested(records: Records, part: Path, damaged: bool) -> Head:
    with Records(part) as copy:
        faults = [] if damaged else copy.verify()
        last = copy.last()
    if faults:
        raise troubles.not_whole(records.path, faults)
    if records.hash_at(last.number) != last.hash:
        raise Refusal(
            "what was written is not what was to be copied; the copy was thrown away",
            "check the disk, or copy to another one",
        )
    return last


def beyond(first: Path, second: Path) -> int:
    """How many events of the record `first` are not in the record `second`. Raises Refusal."""
    with Records(first, upgrade=False) as ours, Records(second, upgrade=False) as theirs:
        last, other = ours.last(), theirs.last()
        return last.number - _shared(ours, theirs, min(last.number, other.number))


def _shared(ours: Records, theirs: Records, most: int) -> int:
    """The number of events at the beginning that both records have: halve until it is found."""
    low, high = 0, most
    while low < high:
        middle = (low + high + 1) // 2
        if ours.hash_at(middle) == theirs.hash_at(middle):
            low = middle
        else:
            high = middle - 1
    return low


def keep_up(records: Records, target: Path, day: str) -> Copied:
    """Bring the copy at `target` up to the record: only what is new is written.

    A copy that holds events this record does not have, or that is damaged, is set aside and a
    new one is made. Raises Refusal when `target` is no copy of this record.
    """
    _not_itself(records, target)
    if not target.exists() or not target.stat().st_size:
        return write_copy(records, target, damaged=True)
    if _follows(records, target):
        with Records(target) as copy:
            copy.append_rows(records.rows(after=copy.last().number))
            last = copy.last()
        if records.hash_at(last.number) == last.hash:
            return Copied(target, last)
    with troubles.in_plain_words(target):
        aside = files.set_aside(target, day)
    done = write_copy(records, target, damaged=True)
    return Copied(done.path, done.last, aside)


def _follows(records: Records, target: Path) -> bool:
    """Whether the copy's events are the first of the record's. Raises Refusal for strangers."""
    try:
        with Records(target) as copy:
            last, first = copy.last(), copy.hash_at(1)
    except troubles.Damaged:
        return False
    if first and records.hash_at(1) not in ("", first):
        raise Refusal(
            f"{target} is the copy of another shop's record",
            "name another folder in shop.yaml, at copy_to",
        )
    return records.hash_at(last.number) == last.hash


def open_backup(source: Path) -> Records:
    """A copy of a record, opened as it is. Raises Refusal."""
    if not source.is_file():
        what = f"{source} is a folder" if source.is_dir() else f"there is no file {source}"
        raise Refusal(what, _NAME_A_BACKUP)
    try:
        return Records(source, upgrade=False)
    except (troubles.Foreign, troubles.Damaged) as refusal:
        told = refusal.what.removeprefix("the record ")
        raise type(refusal)(told, _NAME_A_BACKUP) from refusal


def bring_back(source: Path, target: Path, day: str, yes: bool = False) -> Copied:
    """Put a tested copy of the backup `source` in the place of the record at `target`.

    What stood there is kept beside it. Raises Refusal when the backup is not whole, or when the
    record has events which the backup does not, unless `yes` says to put them aside.
    """
    with open_backup(source) as backup:
        _not_itself(backup, target)
        with _in_place_of(target) as part:
            backup.write_into(part)
            last = _tested(backup, part, damaged=False)
            if not yes:
                _require_nothing_newer(target, part, last)
            aside = files.set_aside(target, day) if _holds_bytes(target) else None
    return Copied(target, last, aside)


@contextmanager
def _in_place_of(target: Path) -> Iterator[Path]:
    """As `files.replacing`, while nobody else can write to the record that stands there."""
    with troubles.in_plain_words(target), _held(target), _replacing(target) as part:
        yield part


def _holds_bytes(target: Path) -> bool:
    return target.exists() and target.stat().st_size > 0


def _require_nothing_newer(target: Path, part: Path, last: Head) -> None:
    """What can be read of the record at `target` is all in the copy."""
    if not _holds_bytes(target):
        return
    try:
        newer = beyond(target, part)
    except troubles.Damaged:
        return
    except troubles.Foreign as refusal:
        raise Refusal(refusal.what, "to put it aside all the same, add --yes") from refusal
    if newer:
        events = "event" if newer == 1 else "events"
        raise Refusal(
            f"the record {target} has {newer} {events} that the backup does not have; it ends "
            f"with event {last.number}",
            "look for a later backup; to go back all the same, add --yes: the record as it is "
            "now is then kept beside it",
        )


@contextmanager
def _held(path: Path) -> Iterator[None]:
    """Nobody else writes to the record at `path` in the block, if it can be read at all.

    Windows does not let an open file be replaced at all, so there it is not opened.
    """
    if os.name == "nt" or not _holds_bytes(path):
        yield
        return
    lock = connect(path, WAIT)
    try:
        _begin(lock)
        yield
    finally:
        lock.close()


def _begin(lock: sqlite3.Connection) -> None:
    try:
        lock.execute("BEGIN IMMEDIATE")
    except sqlite3.DatabaseError as error:
        if error.sqlite_errorcode & 0xFF not in (sqlite3.SQLITE_NOTADB, sqlite3.SQLITE_CORRUPT):
            raise


def bring_in(rows: Iterable[Row], target: Path) -> Copied:
    """Make a record of sealed rows at `target`, where there is none yet, or an empty one."""
    with _in_place_of(target) as part:
        require_empty(target)
        with Records(part, create=True) as made:
            made.append_rows(rows)
            last = made.last()
    return Copied(target, last)


def require_empty(target: Path) -> None:
    """Raises Refusal when there is anything at `target` but a record without events."""
    if not _holds_bytes(target):
        return
    with Records(target, upgrade=False) as there:
        events = there.last().number
    if events:
        raise Refusal(
            f"the record {target} has {events} events already, and imports fill new records only",
            "name a new file with --records, or move this one away first",
        )
