"""Who is on the crew, who is a trainer, and whom a typed name means."""

from __future__ import annotations

from collections.abc import Sequence

from generator.errors import Refusal, nearest
from generator.model.event import Event
from generator.records.facts import Book, Person, folded
from generator.records.gather import gather


def on_crew(events: Sequence[Event]) -> tuple[str, ...]:
    """The names of those who joined and have not left, in the order they joined."""
    return here(gather(events))


def here(book: Book) -> tuple[str, ...]:
    """The names of those on the crew, in the order they joined."""
    return tuple(who.name for who in book.people.values() if who.here)


def trainers(events: Sequence[Event]) -> tuple[str, ...]:
    """The names of current trainers: named by the owner, not ended, not left or suspended."""
    return training(gather(events))


def training(book: Book) -> tuple[str, ...]:
    """The names of current trainers, in the order they joined."""
    return tuple(who.name for who in book.people.values() if book.trainer(who.name, ""))


def find(events: Sequence[Event], name: str) -> str:
    """The name as it stands in the record, of someone who is or was on the crew.

    Case and blanks do not matter. Raises Refusal with the nearest name otherwise.
    """
    return known(gather(events), name).name


def known(book: Book, name: str) -> Person:
    """The person meant by `name`. Raises Refusal with the nearest name otherwise."""
    who = book.person(name)
    if who:
        return who
    if not book.people:
        raise Refusal("nobody is on the crew yet", "add the first one with: rigprimer crew add")
    names = [each.name for each in book.people.values()]
    near = nearest(name if name != folded(name) else name.title(), names)
    raise Refusal(f'"{name}" is not on the crew', f'{near} or: rigprimer crew add "{name}"')
