"""Steps from one version of the tables to the next: in order, each whole or not at all."""

from __future__ import annotations

import sqlite3
from pathlib import Path

import pytest

from generator.errors import Refusal
from generator.model.event import Event
from generator.records import schema
from generator.records.store import Records


def notes(connection: sqlite3.Connection) -> None:
    connection.execute("CREATE TABLE notes (text TEXT NOT NULL) STRICT")
    connection.execute("INSERT INTO notes VALUES ('made by step 2')")


def stumbling(connection: sqlite3.Connection) -> None:
    connection.execute("INSERT INTO notes VALUES ('made by step 3')")
    connection.execute("INSERT INTO notes VALUES (NULL)")


def sound(connection: sqlite3.Connection) -> None:
    connection.execute("INSERT INTO notes VALUES ('made by step 3')")


def state(path: Path) -> tuple[int, list[str]]:
    raw = sqlite3.connect(path)
    try:
        version = raw.execute("PRAGMA user_version").fetchone()[0]
        return version, [text for (text,) in raw.execute("SELECT text FROM notes")]
    finally:
        raw.close()


def test_steps_are_taken_in_order_each_in_one_transaction(
    kept: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    first = schema.STEPS
    monkeypatch.setattr(schema, "STEPS", (*first, notes, stumbling))
    with pytest.raises(Refusal):
        Records(kept)
    assert state(kept) == (len(first) + 1, ["made by step 2"])  # step 3 left nothing
    monkeypatch.setattr(schema, "STEPS", (*first, notes, sound))
    with Records(kept) as records:
        assert len(records.events()) == 12
        assert records.verify() == []
        records.append([Event("joined", "Ana", "2025-03-01", "2025-03-01")])
    assert state(kept) == (len(first) + 2, ["made by step 2", "made by step 3"])


def test_a_program_that_knows_fewer_steps_leaves_the_file_as_it_is(
    kept: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    with monkeypatch.context() as newer:
        newer.setattr(schema, "STEPS", (*schema.STEPS, notes))
        Records(kept).close()
    before = kept.read_bytes()
    with pytest.raises(Refusal, match="made by a newer Rigprimer"):
        Records(kept)
    assert kept.read_bytes() == before


def test_a_backup_of_an_older_version_is_read_as_it_is(
    kept: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    before = kept.read_bytes()
    monkeypatch.setattr(schema, "STEPS", (*schema.STEPS, notes))
    with Records(kept, upgrade=False) as records:
        assert len(records.events()) == 12
    assert kept.read_bytes() == before
