"""What commands share of a shop's own: its curriculum, its record, the one door for entries."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

if TYPE_CHECKING:
    from generator.model.course import Curriculum
    from generator.model.event import Event
    from generator.workflows.place import Place

seen_on = click.option("--seen-on", "seen", metavar="DATE", help="The day, as 2026-04-30.")
by_trainer = click.option("--by", required=True, help="The trainer who states it.")
by_owner = click.option("--by", required=True, help="Who states it, such as the owner.")


def enter_events(place: Place, curriculum: Curriculum, events: list[Event], said: str) -> None:
    """Enter the events, all or none, and say which they are. Raises Refusal."""
    from generator.workflows.record import enter

    added = enter(place, curriculum, events)
    numbers = ", ".join(str(event.number) for event in added)
    click.echo(f"{said} (event {numbers})")


def read_record(
    place: Place, curriculum: Curriculum, day: str | None, name: str = ""
) -> tuple[str, tuple[Event, ...]]:
    """The head of the record and its events: those that bear on one person, or all in outline.

    What is shown of today, when no `day` was typed, notes editions first.
    """
    from generator.records import crew
    from generator.records.about import about_people
    from generator.records.store import open_records
    from generator.workflows.record import note_editions, warn_of_later

    if not day:
        note_editions(place, curriculum)
    with open_records(place.records) as records:
        if not name:
            head, events = records.head(), records.outline()
        else:
            known = crew.find(records.events(about_people([name])), name)
            head, events = records.head(), records.events(about_people([known]))
    warn_of_later(events)
    return head, events


def read_own(place: Place) -> Curriculum:
    """The curriculum of the shop's own folder. Raises Refusal where there is none."""
    from generator.reading.curriculum import read_curriculum

    place.require_own()
    return read_curriculum(place.curriculum)


def read_own_outline(place: Place) -> Curriculum:
    """Of the shop's own curriculum what says who is cleared: read in a moment, with no items."""
    from generator.reading.outline import read_outline

    place.require_own()
    return read_outline(place.curriculum)
