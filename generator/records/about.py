"""Which events bear on a few people: what must be read to judge them, and no more.

Everything about them; everything they did for others, where their own standing is asked; the
papers they had; from everybody else what says who is who (joining, training, suspensions); whatever
is about nobody (editions, voids); and the paper of another on which an edition was first heard of.
Gathered, it gives the same facts of those people as the whole record does.
"""

from __future__ import annotations

import sqlite3
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from generator.model.event import Event
from generator.records.facts import folded
from generator.records.gather import ABOUT_NO_ONE, gather, voidings

DAILY = ("taught", "sheets-shown", "issued", "marked", "oral", "signed-off", "incident")
"""Kinds of which there are many, and which matter to the people they name only."""

MANY = 100
"""People from whom on the whole record is read instead."""

_JUDGING = ("oral", "signed-off")
"""Kinds for which the trainer's own standing is asked, and so all he did."""


@dataclass(frozen=True)
class About:
    """The people in question, those of them whose own acts matter, codes of papers, and events.

    Names are folded: it does not matter how they are capitalised or spaced.
    """

    people: tuple[str, ...]
    doers: tuple[str, ...] = ()
    papers: tuple[str, ...] = ()
    numbers: tuple[int, ...] = ()
    trainers: bool = False  # and all that bears on every trainer: who may judge is asked


def about_people(names: Iterable[str]) -> About:
    """All that bears on these people."""
    people = _folded(names)
    return About(people, people)


def about_papers(codes: Iterable[str]) -> About:
    """The papers of those codes and what became of them, and who is who."""
    return About((), papers=tuple(codes))


def about_events(events: Iterable[Event]) -> About:
    """All that bears on whether these events may be entered."""
    entered = tuple(events)
    people = [name for event in entered for name in (event.person, event.by) if name]
    doers = [event.person for event in entered if event.person]
    doers += [event.by for event in entered if event.kind in _JUDGING]
    named = [event.data.get("paper") for event in entered]
    codes = [paper.get("code") if isinstance(paper, dict) else paper for paper in named]
    numbers = [event.data.get("number") for event in entered]
    return About(
        _folded(people),
        _folded(doers),
        tuple(code for code in codes if isinstance(code, str)),
        tuple(number for number in numbers if type(number) is int),
        any(event.kind in _JUDGING for event in entered),
    )


def _folded(names: Iterable[str]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(folded(name) for name in names))


def query(connection: sqlite3.Connection, about: About) -> tuple[str, list[str | int]]:
    """A condition on events, and the values of its question marks."""
    kinds = [kind for kind in _distinct(connection, "kind") if kind not in DAILY]
    named = _trainers(connection) if about.trainers else []
    people = _spellings(_distinct(connection, "person"), (*about.people, *named))
    doers = _spellings(_distinct(connection, "by"), (*about.doers, *named))
    theirs = f"SELECT paper FROM events WHERE person IN ({_marks(people)})"
    parts = (
        (f"SELECT number FROM events WHERE kind IN ({_marks(kinds)})", kinds),
        (f"SELECT number FROM events WHERE person IN ({_marks(people)})", people),
        (f"SELECT number FROM events WHERE by IN ({_marks(doers)})", doers),
        (f"SELECT number FROM events WHERE paper <> '' AND paper IN ({theirs})", people),
        (
            f"SELECT number FROM events WHERE paper <> '' AND paper IN ({_marks(about.papers)})",
            about.papers,
        ),
        (f"SELECT number FROM events WHERE number IN ({_marks(about.numbers)})", about.numbers),
    )
    values = [value for _, given in parts for value in given]
    return f"number IN ({' UNION '.join(text for text, _ in parts)})", values


_PRINTED = """SELECT number, seen, json_extract(short, '$.paper.module') AS module,
    json_extract(short, '$.paper.edition') FROM
    (SELECT number, seen, iif(json_valid(data), data, '{}') AS short FROM events
    WHERE kind = 'issued') ORDER BY seen, number"""


def first_heard(connection: sqlite3.Connection, told: Sequence[Event]) -> list[int]:
    """The papers of others, by number, that speak of an edition on an earlier day than all `told`.

    Grace runs from that day. There are any only where a note of an edition was voided, or was
    entered under a later day than a paper; no index knows, so every printed paper is asked.
    """
    gone = voidings(told)
    heard = gather([event for event in told if event.kind in (*ABOUT_NO_ONE, "voided")])
    first = []
    for number, seen, module, edition in connection.execute(_PRINTED):
        known = heard.raised.get(module, {}).get(edition)
        if number not in gone and (known is None or seen < known):
            heard.heard_of(module, edition, seen)
            first.append(number)
    return first


def _trainers(connection: sqlite3.Connection) -> list[str]:
    """Everybody who was ever named a trainer."""
    found = connection.execute("SELECT DISTINCT person FROM events WHERE kind = 'trainer-named'")
    return [name for (name,) in found]


def _marks(values: Sequence[object]) -> str:
    # values are bound one by one: SQLite's JSON functions would cut a text at its first NUL
    return ", ".join("?" * len(values))


def _spellings(written: Iterable[str], names: Iterable[str]) -> list[str]:
    """The ways in which these people's names are written in the record."""
    wanted = set(_folded(names))
    return [each for each in written if folded(each) in wanted]


def _distinct(connection: sqlite3.Connection, column: str) -> list[str]:
    """The values of an indexed column, from one to the next; SQLite would read them all."""
    found = connection.execute(
        f"""WITH RECURSIVE each(value) AS (
            SELECT min({column}) FROM events
            UNION ALL
            SELECT (SELECT min({column}) FROM events WHERE {column} > value) FROM each
            WHERE value IS NOT NULL)
        SELECT value FROM each WHERE value IS NOT NULL"""
    )
    return [value for (value,) in found]
