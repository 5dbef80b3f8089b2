"""The whole record as open text and back: JSON Lines, one event a line, nothing lost.

The first line says what it is:
`{"format":"rigprimer-records","version":1,"count":2,"head":"9c41…"}`. Each line after it is an
event with the keys number, kind, person, seen, entered, by, paper, data, long and hash, in this
order; inside data and long the keys are sorted. Each hash seals the event over the hash before it
(`chain.py` says how), and the last is the head. UTF-8, lines end in "\\n".
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator
from typing import IO, Any

from generator.errors import Refusal
from generator.model.event import Event
from generator.records.chain import START, sealed
from generator.records.rows import Row, canonical, heads, whole_data
from generator.records.store import Head

FORMAT = "rigprimer-records"
VERSION = 1
LONGEST = 16 * 1024 * 1024
"""Bytes of a line; no event is nearly as long."""


def lines_of(rows: Iterable[Row], last: Head) -> Iterator[bytes]:
    """The lines of an export of the rows up to `last`, each with its line end."""
    header = {"format": FORMAT, "version": VERSION, "count": last.number, "head": last.hash}
    yield f"{_spelled(header)}\n".encode()
    for row in rows:
        if row.number <= last.number:
            yield f"{_line(row)}\n".encode()


def _spelled(value: object) -> str:
    return json.dumps(value, separators=(",", ":"), ensure_ascii=False)


def _line(row: Row) -> str:
    named = [f'"{name}":{_spelled(getattr(row, name))}' for name in Row._fields[:7]]
    rest = f'"data":{row.data},"long":{row.long or "null"},"hash":"{row.hash}"'
    return f"{{{','.join(named)},{rest}}}"


def rows_of(stream: IO[bytes], name: str) -> Iterator[Row]:
    """The rows of an export, each tested before it is handed on.

    Raises Refusal, with the number of the line, for anything an export does not write.
    """
    lines = _lines(stream, name)
    head = _header(next(lines, (1, "")), name)
    row = Row(0, "", "", "", "", "", "", "", "", START, "")
    for place, text in lines:
        if row.number == head.number:
            raise _wrong(name, place, f"is one more than the {head.number} events announced")
        row = _row(text, row, name, place)
        yield row
    if row.number < head.number:
        missing = head.number - row.number
        raise _wrong(name, row.number + 1, f"is the last, and {missing} more events should follow")
    if row.hash != head.hash:
        raise _wrong(name, 1, "names another head than the events have")


def _lines(stream: IO[bytes], name: str) -> Iterator[tuple[int, str]]:
    place = 0
    while raw := stream.readline(LONGEST + 1):
        place += 1
        if len(raw) > LONGEST:
            raise _wrong(name, place, "is far too long for an event")
        if not raw.endswith(b"\n"):
            raise _wrong(name, place, "is cut short")
        try:
            yield place, raw.decode().rstrip("\r\n")
        except UnicodeDecodeError as error:
            raise _wrong(name, place, "holds bytes that are no text") from error


def _header(line: tuple[int, str], name: str) -> Head:
    said = _object(line[1], name, 1)
    if said.get("format") != FORMAT:
        raise Refusal(
            f"{name} is not an export of a Rigprimer record",
            "make one with: rigprimer export FILE",
        )
    version = said.get("version")
    if type(version) is int and version > VERSION:
        raise Refusal(
            f"{name} was made by a newer Rigprimer", "install the newer version on this computer"
        )
    count, head = said.get("count"), said.get("head")
    fits = type(count) is int and count >= 0 and isinstance(head, str)
    plain = {"format": FORMAT, "version": VERSION, "count": count, "head": head}
    if not fits or _spelled(plain) != line[1]:
        raise _wrong(name, 1, "is not as an export writes it")
    assert isinstance(count, int)
    assert isinstance(head, str)
    return Head(count, head)


def _row(text: str, before: Row, name: str, place: int) -> Row:
    """The row of a line, if the line is letter by letter what an export would write of it."""
    said = _object(text, name, place)
    try:
        row = sealed(before.number + 1, _columns(said), before.hash)
    except Refusal as refusal:
        raise _wrong(name, place, f"can't be an event: {refusal.what}") from refusal
    except (LookupError, TypeError, ValueError, RecursionError) as error:
        raise _wrong(name, place, "is not as an export writes it") from error
    if _line(row) != text:
        number = said.get("number")
        if type(number) is int and number != row.number:
            raise _wrong(name, place, f"holds event {number}, and event {row.number} was due")
        raise _wrong(name, place, "was changed: it does not fit its hash and the line before")
    return row


def _columns(said: dict[str, Any]) -> tuple[str, ...]:
    texts = [said[field] for field in ("kind", "person", "seen", "entered", "by")]
    if not all(isinstance(text, str) for text in texts) or type(said["data"]) is not dict:
        raise TypeError
    kind, person, seen, entered, by = texts
    long = "" if said["long"] is None else canonical(said["long"])
    return heads(Event(kind, person, seen, entered, by, whole_data(kind, said["data"], long)))


def _object(text: str, name: str, place: int) -> dict[str, Any]:
    try:
        said = json.loads(text, parse_constant=_no_constant)
    except (ValueError, RecursionError) as error:
        raise _wrong(name, place, "can't be read") from error
    if type(said) is not dict:
        raise _wrong(name, place, "is not as an export writes it")
    return said


def _no_constant(word: str) -> None:
    raise ValueError(word)


def _wrong(name: str, place: int, what: str) -> Refusal:
    return Refusal(
        f"{name}: line {place} {what}; nothing was imported",
        "export it again from the record, or take another copy of the file",
    )
