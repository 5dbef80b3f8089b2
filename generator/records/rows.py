"""An event as a row of the file, and back.

The long part of an event (the items of an issued paper, the verdicts of a marked one) lies in a
column of its own and is decoded only when somebody looks at it: a board needs none of them.
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Sequence
from typing import Any, NamedTuple, overload

from generator.errors import Refusal, nearest
from generator.model.event import KINDS, Event
from generator.records.clock import is_day

_LONG = {"issued": "items", "marked": "verdicts"}
"""Of each kind, the name of its long list: in data.paper of "issued", in data of "marked"."""


class Row(NamedTuple):
    """An event as it lies in the file; `data` and `long` are JSON texts, sealed letter by letter.

    `paper` is the code of the paper it is about, and `long` the long list taken out of the data;
    both are "" where there is none.
    """

    number: int
    kind: str
    person: str
    seen: str
    entered: str
    by: str
    paper: str
    data: str
    previous: str
    hash: str
    long: str


class UnreadableError(Exception):
    """The data of event `number` is no JSON any more."""

    def __init__(self, number: int) -> None:
        super().__init__(number)
        self.number = number


class LongList(Sequence[Any]):
    """A list of an event, kept as JSON text until it is first looked at."""

    __slots__ = ("_made", "_number", "text")

    def __init__(self, text: str, number: int) -> None:
        self.text = text
        self._number = number
        self._made: list[Any] | None = None

    def _all(self) -> list[Any]:
        if self._made is None:
            try:
                self._made = list(json.loads(self.text))
            except (ValueError, TypeError) as error:
                raise Refusal(
                    f"event {self._number} of the record can't be read: it was changed",
                    "run rigprimer check --records to see what else was",
                ) from error
        return self._made

    def __len__(self) -> int:
        return len(self._all())

    @overload
    def __getitem__(self, place: int) -> Any: ...
    @overload
    def __getitem__(self, place: slice) -> list[Any]: ...
    def __getitem__(self, place: int | slice) -> Any:
        return self._all()[place]

    def __eq__(self, other: object) -> bool:
        if isinstance(other, LongList):
            return self.text == other.text or self._all() == other._all()
        return self._all() == other

    def __hash__(self) -> int:
        return hash(self.text)

    def __repr__(self) -> str:
        return repr(self._all())

    def __reduce__(self) -> tuple[type[list[Any]], tuple[list[Any]]]:
        return list, (self._all(),)


def _as_list(value: object) -> list[Any]:
    if isinstance(value, LongList):
        return value[:]
    raise TypeError(f"{type(value).__name__} can't be kept in a record")


canonical = json.JSONEncoder(
    sort_keys=True, separators=(",", ":"), ensure_ascii=False, allow_nan=False, default=_as_list
).encode
"""JSON with one spelling only: keys sorted, no blanks, letters as they are."""


def heads(event: Event) -> tuple[str, str, str, str, str, str, str, str]:
    """The event's columns: kind, person, seen, entered, by, paper, data, and long.

    Raises Refusal for an event that can't be kept.
    """
    if event.kind not in KINDS:
        raise Refusal(f'"{event.kind}" is not a kind of event', nearest(event.kind, KINDS))
    for day in (event.seen, event.entered):
        if not is_day(day):
            raise Refusal(f'"{day}" is not a day', "write it like 2025-03-09")
    short, long = _parted(event)
    paper, text = _paper(short), canonical(short)
    try:
        f"{event.person}{event.by}{paper}{text}{long}".encode()
    except UnicodeEncodeError as error:
        raise Refusal(
            "a name or note holds letters that can't be kept", "type it again in plain letters"
        ) from error
    return event.kind, event.person, event.seen, event.entered, event.by, paper, text, long


def _parted(event: Event) -> tuple[dict[str, Any], str]:
    """The data without its long list, and that list as JSON."""
    data, name = event.data, _LONG.get(event.kind)
    holder = data.get("paper") if event.kind == "issued" else data
    if not name or not isinstance(holder, dict):
        return data, ""
    if not isinstance(holder.get(name), list | LongList):
        return data, ""
    listed = holder[name]
    long = listed.text if isinstance(listed, LongList) else canonical(listed)
    rest = {key: value for key, value in holder.items() if key != name}
    return ({**data, "paper": rest} if event.kind == "issued" else rest), long


def _paper(data: dict[str, Any]) -> str:
    """The code of the paper the data is about."""
    named = data.get("paper")
    code = named.get("code") if isinstance(named, dict) else named
    return code if isinstance(code, str) else ""


Heads = tuple[int, str, str, str, str, str, str, str]
"""What of a row makes the event: number, kind, person, seen, entered, by, data, long."""


def events_of(rows: Iterable[Heads]) -> list[Event]:
    """The events of rows, whose seals are not looked at. Raises UnreadableError.

    Events with the same data text share one dictionary: it is for reading only. Names and days
    that come again are one text, which is then compared and looked up the faster.
    """
    known: dict[str, dict[str, Any]] = {}
    one = dict[str, str]().setdefault
    events: list[Event] = []
    number = 0
    try:
        for number, kind, person, seen, entered, by, text, long in rows:
            if long:
                data = whole_data(kind, _decoded(text, number), long, number)
            elif text in known:
                data = known[text]
            else:
                data = known[text] = _decoded(text, number)
            who, day = one(person, person), one(seen, seen)
            events.append(Event(one(kind, kind), who, day, entered, one(by, by), data, number))
    except (ValueError, LookupError, TypeError) as error:
        raise UnreadableError(number) from error
    return events


_decode = json.JSONDecoder().raw_decode


def _decoded(text: str, number: int) -> dict[str, Any]:
    data, end = _decode(text)
    if end != len(text) or type(data) is not dict:
        raise UnreadableError(number)
    return data


def whole_data(kind: str, data: dict[str, Any], long: str, number: int = 0) -> dict[str, Any]:
    """The data with its long list, if it has one, put back where it belongs."""
    if long:
        holder = data["paper"] if kind == "issued" else data
        holder[_LONG[kind]] = LongList(long, number)
    return data
