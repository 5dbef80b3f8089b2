"""The record: one SQLite file of events, to which events can only be added.

Order is the number of an event, never a clock. Each row is sealed over the one before it
(`chain.py`). Every method raises Refusal, and leaves the file as it was, when the file is
missing, locked, closed, read-only, damaged, full or newer than this program.
"""

from __future__ import annotations

import os
import re
import sqlite3
from collections.abc import Callable, Sequence
from contextlib import ExitStack
from pathlib import Path
from types import TracebackType

from generator.errors import Refusal
from generator.model.event import Event
from generator.records import collecting, schema, troubles
from generator.records.chain import START, breaks, seal, short
from generator.records.rows import Row, data_text, events_of

Allow = Callable[[Event, Sequence[Event]], None]
"""Raises Refusal unless the event may follow those before it."""

_COLUMNS = ", ".join(Row._fields)
_WITHOUT_HASHES = ", ".join(Row._fields[:7])


class Records:
    """An open record; use it in a `with` block.

    `create` makes the file if it is missing, for the owner's eyes only where the system can.
    `wait` is how many seconds another program may hold the file before we give up.
    """

    def __init__(self, path: Path | str, create: bool = False, wait: float = 4.0) -> None:
        self.path = Path(path)
        with troubles.in_plain_words(self.path), ExitStack() as undo:
            _find(self.path, create)
            self._connection = _connect(self.path, wait)
            undo.callback(self.close)
            self._recognise(create)
            undo.pop_all()

    def __enter__(self) -> Records:
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        trace: TracebackType | None,
    ) -> None:
        self.close()

    def close(self) -> None:
        """Let go of the file."""
        self._connection.close()

    def append(self, events: Sequence[Event], allow: Allow | None = None) -> tuple[Event, ...]:
        """Add the events in one transaction, all or none, and return them with their numbers.

        `allow` is asked about each, with all before it, while no other program can write.
        """
        texts = [data_text(event) for event in events]
        with troubles.in_plain_words(self.path), schema.writing(self._connection):
            history = list(self._read()) if allow else []
            for event, text in zip(events, texts, strict=True):
                row = self._sealed(event, text)
                (kept,) = events_of([row[:7]])
                if allow:
                    allow(kept, history)
                self._insert(row)
                history.append(kept)
        return tuple(history[len(history) - len(texts) :])

    def events(self) -> tuple[Event, ...]:
        """Every event in order."""
        with troubles.in_plain_words(self.path):
            return tuple(self._read())

    def head(self) -> str:
        """The short head of the chain, printed on board, person file and backup."""
        with troubles.in_plain_words(self.path):
            return short(self._last()[1])

    def knows(self, head: str) -> bool:
        """Whether a printed head was once the head of this record."""
        digits = re.sub(r"[^0-9a-f]", "", head.lower())
        if len(digits) != 16:
            return False
        with troubles.in_plain_words(self.path):
            hashes = self._connection.execute("SELECT hash FROM events")
            return START.startswith(digits) or any(h.startswith(digits) for (h,) in hashes)

    def verify(self) -> list[str]:
        """Every edited, removed or reordered event and every other damage, in words."""
        with troubles.in_plain_words(self.path):
            words = self._connection.execute("PRAGMA integrity_check(20)").fetchall()
            damage = [f"the file is damaged: {word}" for (word,) in words if word != "ok"]
            guards = schema.missing_guards(self._connection)
            return [*damage, *guards, *breaks(self._rows(), self._highest())]

    def copy_to(self, target: Path | str) -> None:
        """Write the whole record to another file, which is replaced only by a complete copy."""
        target = Path(target)
        half = target.with_name(f".{target.name}.part")
        with troubles.in_plain_words(target), ExitStack() as after:
            if target.exists() and target.samefile(self.path):
                raise Refusal(f"{target} is the record itself", "name another file or folder")
            half.unlink(missing_ok=True)
            after.callback(half.unlink, missing_ok=True)
            _make(half)
            copy = _connect(half, 0)
            after.callback(copy.close)
            self._connection.backup(copy)
            copy.close()
            os.replace(half, target)

    def _recognise(self, create: bool) -> None:
        fresh = create and self.path.stat().st_size == 0
        if not fresh and schema.pragma(self._connection, "application_id") != schema.APPLICATION:
            raise troubles.foreign(self.path)
        if schema.pragma(self._connection, "user_version") > schema.VERSION:
            raise troubles.newer(self.path)
        pages = schema.pragma(self._connection, "page_count")
        if self.path.stat().st_size < pages * schema.pragma(self._connection, "page_size"):
            raise troubles.cut_short(self.path)
        self._connection.execute("PRAGMA journal_mode = DELETE")
        self._connection.execute("PRAGMA synchronous = FULL")
        schema.upgrade(self._connection)

    def _read(self) -> list[Event]:
        everything = f"SELECT {_WITHOUT_HASHES} FROM events ORDER BY number"
        with collecting.put_off():
            return events_of(self._connection.execute(everything))

    def _rows(self) -> list[Row]:
        # bytes that are no letters any more must be reported, not stumbled over
        self._connection.text_factory = lambda raw: raw.decode("utf-8", "replace")
        try:
            found = self._connection.execute(f"SELECT {_COLUMNS} FROM events ORDER BY number")
            return list(map(Row._make, found))
        finally:
            self._connection.text_factory = str

    def _last(self) -> tuple[int, str]:
        last = "SELECT hash FROM events ORDER BY number DESC LIMIT 1"
        row = self._connection.execute(last).fetchone()
        return self._highest(), row[0] if row else START

    def _highest(self) -> int:
        """The highest number ever given, even if its row is gone."""
        row = self._connection.execute(
            "SELECT max((SELECT coalesce(max(seq), 0) FROM sqlite_sequence),"
            " (SELECT coalesce(max(number), 0) FROM events))"
        ).fetchone()
        return int(row[0])

    def _sealed(self, event: Event, text: str) -> Row:
        highest, previous = self._last()
        fields = (event.kind, event.person, event.seen, event.entered, event.by, text)
        return Row(highest + 1, *fields, previous, seal(previous, highest + 1, *fields))

    def _insert(self, row: Row) -> None:
        marks = ", ".join("?" * len(row))
        self._connection.execute(f"INSERT INTO events ({_COLUMNS}) VALUES ({marks})", row)


def open_records(path: Path | str, create: bool = False) -> Records:
    """The record at `path`; with `create` it is made if it is missing."""
    return Records(path, create)


def _find(path: Path, create: bool) -> None:
    if not path.exists():
        if not create:
            raise troubles.missing(path)
        _make(path)
    elif path.is_dir():
        raise troubles.foreign(path)
    elif path.stat().st_size == 0 and not create:
        raise troubles.empty(path)


def _make(path: Path) -> None:
    try:
        os.close(os.open(path, os.O_CREAT | os.O_EXCL | os.O_RDWR, 0o600))
    except FileExistsError:
        return  # another program was quicker; it is the same record


def _connect(path: Path, wait: float) -> sqlite3.Connection:
    # mode=rw never makes a file; transactions are begun by hand, in schema.writing
    address = f"{path.absolute().as_uri()}?mode=rw"
    return sqlite3.connect(address, uri=True, timeout=wait, isolation_level=None)
