"""The tables of the record, and the ordered steps from one version to the next."""

from __future__ import annotations

import sqlite3
from collections.abc import Callable, Iterator
from contextlib import contextmanager

APPLICATION = 0x52675032
"""Marks the file as a Rigprimer record ("RgP2")."""

_GUARDS = {
    "no_change": "BEFORE UPDATE ON events BEGIN SELECT RAISE(ABORT, 'append only'); END",
    "no_removal": "BEFORE DELETE ON events BEGIN SELECT RAISE(ABORT, 'append only'); END",
    # INSERT OR REPLACE would remove a row without asking the trigger above
    "no_replacement": """BEFORE INSERT ON events
        WHEN NEW.number <= (SELECT coalesce(max(number), 0) FROM events)
        BEGIN SELECT RAISE(ABORT, 'append only'); END""",
}


def _events(connection: sqlite3.Connection) -> None:
    # AUTOINCREMENT remembers the highest number ever given, so a cut-off tail is noticed.
    # `long` stands last, so that SQLite need not turn its pages when nobody asks for it.
    connection.execute(
        """CREATE TABLE events (
            number INTEGER PRIMARY KEY AUTOINCREMENT,
            kind TEXT NOT NULL,
            person TEXT NOT NULL,
            seen TEXT NOT NULL,
            entered TEXT NOT NULL,
            by TEXT NOT NULL,
            paper TEXT NOT NULL,
            data TEXT NOT NULL,
            previous TEXT NOT NULL,
            hash TEXT NOT NULL,
            long TEXT NOT NULL
        ) STRICT"""
    )
    for column in ("kind", "person", "by"):
        connection.execute(f"CREATE INDEX events_{column} ON events ({column})")
    connection.execute("CREATE INDEX events_paper ON events (paper) WHERE paper <> ''")
    for name, body in _GUARDS.items():
        connection.execute(f"CREATE TRIGGER {name} {body}")
    connection.execute(f"PRAGMA application_id = {APPLICATION}")


STEPS: tuple[Callable[[sqlite3.Connection], None], ...] = (_events,)
"""Step N brings a record from version N to N + 1."""


@contextmanager
def writing(connection: sqlite3.Connection) -> Iterator[None]:
    """One transaction, the write lock taken at once; whatever goes wrong leaves no trace."""
    connection.execute("BEGIN IMMEDIATE")
    try:
        yield
        connection.execute("COMMIT")
    finally:
        if connection.in_transaction:
            connection.execute("ROLLBACK")


@contextmanager
def reading(connection: sqlite3.Connection) -> Iterator[None]:
    """Several questions answered from one state of the file, whoever writes meanwhile."""
    if connection.in_transaction:
        yield
        return
    connection.execute("BEGIN")
    try:
        yield
    finally:
        if connection.in_transaction:
            connection.execute("ROLLBACK")


def pragma(connection: sqlite3.Connection, name: str) -> int:
    """The number SQLite keeps under that name, such as user_version."""
    return int(connection.execute(f"PRAGMA {name}").fetchone()[0])


def durable(connection: sqlite3.Connection) -> None:
    """Nothing is acknowledged before the disk has it.

    EXTRA also syncs the folder after the journal is removed: without that a power cut right after
    the commit could bring the journal back, and with it the state before.
    """
    connection.execute("PRAGMA journal_mode = DELETE")
    connection.execute("PRAGMA synchronous = EXTRA")
    connection.execute("PRAGMA fullfsync = ON")  # matters on macOS only


def upgrade(connection: sqlite3.Connection) -> None:
    """Take every step not yet taken, each in one transaction together with its version."""
    for version, step in enumerate(STEPS, start=1):
        if pragma(connection, "user_version") >= version:
            continue
        with writing(connection):
            if pragma(connection, "user_version") < version:  # another program was quicker
                step(connection)
                connection.execute(f"PRAGMA user_version = {version}")


def missing_guards(connection: sqlite3.Connection) -> list[str]:
    """The triggers against edits that somebody took away or rewrote, in words."""
    kept = dict(connection.execute("SELECT name, sql FROM sqlite_master WHERE type = 'trigger'"))
    found = [
        f"the lock against edits named {name} was taken away"
        for name, body in _GUARDS.items()
        if kept.get(name) != f"CREATE TRIGGER {name} {body}"
    ]
    return found + [f"a trigger named {name} was put in" for name in kept if name not in _GUARDS]
