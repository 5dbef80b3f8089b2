"""Entering events: one door for all of them, so that the rules are asked every time."""

from __future__ import annotations

import logging
from collections.abc import Sequence
from contextlib import suppress
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

_log = logging.getLogger(__name__)


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
    told = records.events(about_events(events))
    book = gather(told)
    named = _with_known_names(events, book)
    noted = unnoted_editions(book, curriculum.modules.values(), today())
    if not (noted or named):
        return ()
    warn_of_later(told)
    added = records.append([*noted, *named], partial(permit, curriculum=curriculum))
    return added[len(noted) :]


def warn_of_later(events: Sequence[Event]) -> None:
    """Say which events were entered under a day still to come: the clock was wrong once, or is."""
    now = today()
    later = [event.number for event in events if event.entered > now]
    if later:
        _log.warning(
            "WARNING: event %s was entered under a day still to come, so it may not count yet. Is "
            "this computer's clock right? If it was wrong then: void the event and enter it anew.",
            ", ".join(map(str, later[:6])) + (" and more" if len(later) > 6 else ""),
        )


def note_editions(place: Place, curriculum: Curriculum) -> None:
    """Note editions that the record has not heard of, before a page shows them to the crew.

    A day of grace that was printed must hold, and it would move on with each page until something
    is entered. A record that can't be written to is shown all the same.
    """
    noted = False
    with suppress(Refusal), open_records(place.records) as records:
        before = records.last()
        append(records, curriculum, ())
        noted = records.last() != before
    if noted:
        after_writing(place, curriculum.shop)


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
