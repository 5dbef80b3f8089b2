"""Entering events: one door for all of them, so that the rules are asked every time."""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial
from pathlib import Path
from typing import Any

from generator.errors import Refusal, nearest
from generator.model.course import Curriculum
from generator.model.event import Event
from generator.model.standing import Standing
from generator.records import crew
from generator.records.about import About, about_events, about_people
from generator.records.facts import Book
from generator.records.gather import gather
from generator.records.rules import permit
from generator.records.standing import person_standings, unnoted_editions
from generator.records.store import Records, open_records
from generator.words import WRITTEN_IN
from generator.workflows.keeping import after_writing
from generator.workflows.place import Place
from generator.workflows.today import read_day, today


def event(kind: str, person: str, *, seen: str | None = None, by: str = "", **data: Any) -> Event:
    """An event entered today, seen on the day typed (today if none)."""
    return Event(kind, person, read_day(seen), today(), by, data)


def enter(place: Place, curriculum: Curriculum, events: Sequence[Event]) -> tuple[Event, ...]:
    """Append the events, all or none; a record is made for the first. Raises Refusal.

    Then the second copy is brought up to date, if the owner asked for one.
    """
    place.require_own()
    with open_records(place.records, create=True) as records:
        added = append(records, curriculum, events)
    after_writing(place, curriculum.shop)
    return added


def append(records: Records, curriculum: Curriculum, events: Sequence[Event]) -> tuple[Event, ...]:
    """Append to an open record, first noting editions it has not heard of."""
    book = gather(records.events(about_events(events)))
    named = _with_known_names(events, book)
    noted = unnoted_editions(book, curriculum.modules.values(), today())
    added = records.append([*noted, *named], partial(permit, curriculum=curriculum))
    return added[len(noted) :]


def history(path: Path, about: About | None = None) -> tuple[Event, ...]:
    """Every event so far, or those that bear on a few people; none when there is no record yet."""
    if not path.exists():
        return ()
    with open_records(path) as records:
        return records.events(about)


def standing_of(
    place: Place, curriculum: Curriculum, people: Sequence[str], language: str = WRITTEN_IN
) -> tuple[Standing, ...]:
    """Where these people stand today, in that language; only what bears on them is read."""
    book = gather(history(place.records, about_people(people)), today())
    found = [who for name in dict.fromkeys(people) if (who := book.person(name))]
    day = today()
    return tuple(
        each for who in found for each in person_standings(book, who, curriculum, day, language)
    )


def _with_known_names(events: Sequence[Event], book: Book) -> list[Event]:
    """The events with each person's name spelled as the crew list has it."""
    if not any(who.here for who in book.people.values()):
        return [*events]
    return [
        each._replace(person=crew.known(book, each.person).name)
        if each.person and each.kind not in ("joined", "returned")
        else each
        for each in events
    ]


def rig_id(curriculum: Curriculum, typed: str) -> str:
    """The id of the rig a person named, by id or by name. Raises Refusal."""
    wanted = typed.strip().lower().replace(" ", "-")
    for rig in curriculum.shop.rigs:
        if wanted in (rig.id.lower(), rig.name.lower().replace(" ", "-")):
            return rig.id
    names = ", ".join(rig.id for rig in curriculum.shop.rigs)
    raise Refusal(f'"{typed}" is not a rig of this shop', f"use one of: {names}")


def module_id(curriculum: Curriculum, typed: str) -> str:
    """The id of the module a person named, by id, title or short word. Raises Refusal."""
    wanted = typed.strip().lower()
    for module in curriculum.modules.values():
        if wanted in (module.id, module.title.lower(), module.short.lower()):
            return module.id
    raise Refusal(f'"{typed}" is not a module', nearest(wanted, curriculum.modules))
