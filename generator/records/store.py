"""The record: one SQLite file of events, to which events can only be added.

Order is the number of an event, never a clock. Each row is sealed over the one before it
(`chain.py`). Every method raises Refusal, and leaves the file as it was, when the file is
missing, locked, closed, read-only, damaged, full or newer than this program.
"""

from __future__ import annotations

import sqlite3
from collections.abc import Callable, Iterable, Iterator, Sequence
from contextlib import ExitStack
from operator import attrgetter
from pathlib import Path
from types import TracebackType
from typing import NamedTuple

from generator.memory import collecting_later
from generator.model.event import Event
from generator.records import files, schema, tampering, troubles
from generator.records.about import MANY, About, about_events, first_heard, query
from generator.records.chain import START, sealed, short, typed_head
from generator.records.rows import Row, events_of, heads

Allow = Callable[[Event, Sequence[Event]], None]
"""Raises Refusal unless the event may follow those before it."""

_COLUMNS = ", ".join(Row._fields)
_OF_EVENTS = "number, kind, person, seen, entered, by, data, long"
_OUTLINE = """number, kind, person, seen, entered, by, data, iif(kind = 'issued' AND paper IN
    (SELECT paper FROM events WHERE kind = 'marked' AND NOT instr(data, '"must_missed":[]')),
    long, '')"""

WAIT = 10.0
"""Seconds another program may hold the file before we give up."""


class Head(NamedTuple):
    """The end of the chain: the number of the last event and its hash."""

    number: int
    hash: str


class Records:
    """An open record; use it in a `with` block.

    `create` makes the file if it is missing, for the owner's eyes only where the system can.
    `wait` is how many seconds another program may hold the file before we give up, else `WAIT`.
    With `upgrade` an older record is brought to today's tables; without, it is left as it is.
    """

    def __init__(
        self,
        path: Path | str,
        create: bool = False,
        wait: float | None = None,
        upgrade: bool = True,
    ) -> None:
        self.path = Path(path)
        self._asked: tuple[About, Head] | None = None
        self._told: list[Event] = []
        with troubles.in_plain_words(self.path), ExitStack() as undo:
            _find(self.path, create)
            self._file = files.identity(self.path)
            self._connection = connect(self.path, WAIT if wait is None else wait)
            undo.callback(self.close)
            self._recognise(create, upgrade)
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

        `allow` is asked about each while no other program can write. It gets the events before
        it that bear on the people in question (`about.py`): those of other people are left out.
        """
        columns = [heads(event) for event in events]
        added: list[Event] = []
        with troubles.in_plain_words(self.path), schema.writing(self._connection):
            self._require_same_file()
            history = self._about(about_events(events)) if allow else []
            highest, last = self._highest(), self._last().hash
            for number, each in enumerate(columns, start=highest + 1):
                row = sealed(number, each, last)
                last = row.hash
                (kept,) = events_of([(*row[:6], row.data, row.long)])
                if allow:
                    allow(kept, history)
                self._insert([row])
                history.append(kept)
                added.append(kept)
        return tuple(added)

    def append_rows(self, rows: Iterable[Row]) -> None:
        """Add sealed rows of another copy of this record in one transaction, all or none."""
        with troubles.in_plain_words(self.path), schema.writing(self._connection):
            self._require_same_file()
            self._insert(rows)

    def events(self, about: About | None = None) -> tuple[Event, ...]:
        """Every event in order, or those that bear on the people in question."""
        with troubles.in_plain_words(self.path), schema.reading(self._connection):
            return tuple(self._about(about) if about else self._select("", ()))

    def outline(self) -> tuple[Event, ...]:
        """Every event in order, with all that standing asks and little of the rest.

        What was answered is left out, and so are the items of a paper, unless a must-get was
        missed on it: they are nearly all of a record, and no board looks at them.
        """
        asked = f"SELECT {_OUTLINE} FROM events ORDER BY number"
        with troubles.in_plain_words(self.path), collecting_later():
            return tuple(events_of(self._connection.execute(asked)))

    def rows(self, after: int = 0) -> Iterator[Row]:
        """The rows after that number as they lie in the file, in order."""
        found = f"SELECT {_COLUMNS} FROM events WHERE number > ? ORDER BY number"
        with troubles.in_plain_words(self.path):
            yield from map(Row._make, self._connection.execute(found, (after,)))

    def head(self) -> str:
        """The short head of the chain, printed on board, person file and backup."""
        return short(self.last().hash)

    def last(self) -> Head:
        """The number and hash of the last event; number 0 when there is none."""
        with troubles.in_plain_words(self.path):
            return self._last()

    def knows(self, head: str) -> bool:
        """Whether a printed head was once the head of this record."""
        return self.place_of(head) is not None

    def place_of(self, head: str) -> int | None:
        """The number of the event after which that head was printed; None when it never was."""
        digits = typed_head(head)
        if not digits:
            return None
        if START.startswith(digits):
            return 0
        found = "SELECT number FROM events WHERE substr(hash, 1, ?) = ? ORDER BY number"
        with troubles.in_plain_words(self.path):
            row = self._connection.execute(found, (len(digits), digits)).fetchone()
        return int(row[0]) if row else None

    def hash_at(self, number: int) -> str:
        """The hash of that event, of number 0 the start; "" when there is no such event."""
        if number == 0:
            return START
        found = "SELECT hash FROM events WHERE number = ?"
        with troubles.in_plain_words(self.path):
            row = self._connection.execute(found, (number,)).fetchone()
        return str(row[0]) if row else ""

    def verify(self) -> list[str]:
        """Every edited, removed, reordered or inserted event and every other damage, in words."""
        with troubles.in_plain_words(self.path), schema.reading(self._connection):
            words = self._connection.execute("PRAGMA integrity_check(20)").fetchall()
            damage = [f"the file is damaged: {word}" for (word,) in words if word != "ok"]
            guards = schema.missing_guards(self._connection)
            return [*damage, *guards, *tampering.breaks(self._raw_rows(), self._highest())]

    def write_into(self, part: Path) -> None:
        """Copy the whole record into an empty file, as it is at one moment."""
        with ExitStack() as after:
            copy = connect(part, 0)
            after.callback(copy.close)
            with troubles.in_plain_words(part):
                self._connection.backup(copy)

    def _recognise(self, create: bool, upgrade: bool) -> None:
        # asked first: a program killed while it made the file is then undone, which leaves no page
        application = schema.pragma(self._connection, "application_id")
        empty = schema.pragma(self._connection, "page_count") == 0
        if empty and not create:
            raise troubles.empty(self.path)
        if not empty and application != schema.APPLICATION:
            raise troubles.foreign(self.path)
        if schema.pragma(self._connection, "user_version") > len(schema.STEPS):
            raise troubles.newer(self.path)
        pages = schema.pragma(self._connection, "page_count")
        if self.path.stat().st_size < pages * schema.pragma(self._connection, "page_size"):
            raise troubles.cut_short(self.path)
        schema.durable(self._connection)
        if upgrade:
            schema.upgrade(self._connection)

    def _require_same_file(self) -> None:
        """What is written to a file that was replaced meanwhile would be lost."""
        if not self.path.exists() or files.identity(self.path) != self._file:
            raise troubles.replaced(self.path)

    def _about(self, about: About) -> list[Event]:
        """The events about those people; asked again before anything was added, as read before."""
        asked = about, self._last()
        if asked != self._asked:
            if len(about.people) > MANY:
                self._told = self._select("", ())
            else:
                self._told = self._part(about)
            self._asked = asked
        return list(self._told)

    def _part(self, about: About) -> list[Event]:
        condition, values = query(self._connection, about)
        part = self._select(f"WHERE {condition}", values)
        if about.people and (numbers := first_heard(self._connection, part)):
            part += self._select(f"WHERE number IN ({', '.join('?' * len(numbers))})", numbers)
            part.sort(key=attrgetter("number"))
        return part

    def _select(self, where: str, values: Sequence[str | int]) -> list[Event]:
        asked = f"SELECT {_OF_EVENTS} FROM events {where} ORDER BY number"
        with collecting_later():
            return events_of(self._connection.execute(asked, values))

    def _raw_rows(self) -> Iterator[Row]:
        # bytes that are no letters any more must be reported, not stumbled over
        self._connection.text_factory = lambda raw: raw.decode("utf-8", "replace")
        try:
            found = self._connection.execute(f"SELECT {_COLUMNS} FROM events ORDER BY number")
            yield from map(Row._make, found)
        finally:
            self._connection.text_factory = str

    def _last(self) -> Head:
        last = "SELECT number, hash FROM events ORDER BY number DESC LIMIT 1"
        row = self._connection.execute(last).fetchone()
        return Head(*row) if row else Head(0, START)

    def _highest(self) -> int:
        """The highest number ever given, even if its row is gone."""
        row = self._connection.execute(
            "SELECT max((SELECT coalesce(max(seq), 0) FROM sqlite_sequence),"
            " (SELECT coalesce(max(number), 0) FROM events))"
        ).fetchone()
        return int(row[0])

    def _insert(self, rows: Iterable[Row]) -> None:
        marks = ", ".join("?" * len(Row._fields))
        self._connection.executemany(f"INSERT INTO events ({_COLUMNS}) VALUES ({marks})", rows)


def open_records(path: Path | str, create: bool = False) -> Records:
    """The record at `path`; with `create` it is made if it is missing."""
    return Records(path, create)


def _find(path: Path, create: bool) -> None:
    if not path.exists():
        if not create:
            raise troubles.missing(path)
        files.make(path)
    elif path.is_dir():
        raise troubles.foreign(path)
    elif path.stat().st_size == 0 and not create:
        raise troubles.empty(path)


def connect(path: Path, wait: float) -> sqlite3.Connection:
    """A bare connection; it never makes a file, and begins no transaction by itself."""
    address = f"{path.absolute().as_uri()}?mode=rw"
    return sqlite3.connect(address, uri=True, timeout=wait, isolation_level=None)
