"""The owner's exceptions that still stand behind something: they show on the board."""

from __future__ import annotations

from dataclasses import dataclass

from generator.model.event import Event
from generator.records.facts import Book, Person


@dataclass(frozen=True)
class Used:
    """An exception: for whom, in which module, by whom, on which day (ISO) and why."""

    person: str
    module: str
    by: str
    day: str
    why: str


def exceptions_used(book: Book) -> list[Used]:
    """The exceptions not yet sat, and those behind the last counted paper of the module."""
    return [
        Used(who.name, event.data["module"], event.by, event.seen, str(event.data.get("why", "")))
        for who in book.people.values()
        for event in who.exceptions
        if event.data.get("module") and _stands(who, event)
    ]


def _stands(who: Person, event: Event) -> bool:
    after = [mark for mark in who.counted(event.data["module"]) if mark.event.number > event.number]
    return len(after) <= 1
