"""An event as a row of the file, and back."""

from __future__ import annotations

import json
from collections.abc import Iterable
from datetime import date
from typing import NamedTuple

from generator.errors import Refusal, nearest
from generator.model.event import KINDS, Event


class Row(NamedTuple):
    """An event as it lies in the file; `data` is JSON text, sealed letter by letter."""

    number: int
    kind: str
    person: str
    seen: str
    entered: str
    by: str
    data: str
    previous: str
    hash: str


class UnreadableError(Exception):
    """The data of event `number` is no JSON any more."""

    def __init__(self, number: int) -> None:
        super().__init__(number)
        self.number = number


def canonical(value: object) -> str:
    """JSON with one spelling only: keys sorted, no blanks, letters as they are."""
    return json.dumps(
        value, sort_keys=True, separators=(",", ":"), ensure_ascii=False, allow_nan=False
    )


def data_text(event: Event) -> str:
    """The data as canonical JSON. Raises Refusal for an event that can't be kept."""
    if event.kind not in KINDS:
        raise Refusal(f'"{event.kind}" is not a kind of event', nearest(event.kind, KINDS))
    for day in (event.seen, event.entered):
        _check_day(day)
    text = canonical(event.data)
    try:
        f"{event.person}{event.by}{text}".encode()
    except UnicodeEncodeError as error:
        raise Refusal(
            "a name or note holds letters that can't be kept", "type it again in plain letters"
        ) from error
    return text


def _check_day(text: str) -> None:
    try:
        sound = date.fromisoformat(text).isoformat() == text
    except ValueError:
        sound = False
    if not sound:
        raise Refusal(f'"{text}" is not a day', "write it like 2025-03-09")


def events_of(rows: Iterable[tuple[int, str, str, str, str, str, str]]) -> list[Event]:
    """The events of rows without their hashes, which are not looked at. Raises UnreadableError."""
    decode = json.JSONDecoder().raw_decode
    events = []
    number = 0
    try:
        for number, kind, person, seen, entered, by, text in rows:
            data, end = decode(text)
            if end != len(text) or type(data) is not dict:
                raise UnreadableError(number)
            events.append(Event(kind, person, seen, entered, by, data, number))
    except ValueError as error:
        raise UnreadableError(number) from error
    return events
