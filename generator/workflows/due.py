"""What is due: renewals, re-briefs and what has lapsed, as a list for the wall and the calendar."""

from __future__ import annotations

from collections.abc import Sequence

from generator.model.course import Curriculum
from generator.model.event import Event
from generator.model.file import Due, DueList
from generator.model.standing import Standing
from generator.records import collecting
from generator.records.clock import later
from generator.records.gather import gather
from generator.records.standing import standings_in

DAYS = 60
"""How far ahead the list looks."""


def due_list(
    curriculum: Curriculum, events: Sequence[Event], day: str, head: str, days: int = DAYS
) -> DueList:
    """What is due from that day (ISO) on, for so many days, and what is over already."""
    until = later(day, days)
    with collecting.put_off():
        book = gather(events, day)
    groups: dict[tuple[str, str, str, str, bool], list[str]] = {}
    for each in standings_in(book, curriculum, day):
        if each.cleared and each.due and each.due <= until:
            _add(curriculum, groups, each, each.due, each.renew, over=False)
        elif each.state == "lapsed":
            _add(curriculum, groups, each, each.since, "; ".join(each.missing), over=True)
    lines = (
        Due(when, person, module, tuple(rigs), what, over)
        for (when, person, module, what, over), rigs in groups.items()
    )
    ordered = sorted(lines, key=lambda line: (not line.over, line.day, line.person, line.module))
    return DueList(day, until, tuple(ordered), head)


def _add(
    curriculum: Curriculum,
    groups: dict[tuple[str, str, str, str, bool], list[str]],
    each: Standing,
    when: str,
    what: str,
    over: bool,
) -> None:
    """Rigs on which the same is due stand in one line."""
    rig = curriculum.shop.rig(each.rig)
    words = what.replace(f" on {rig.name}", "") if rig else what
    key = (when, each.person, curriculum.modules[each.module].short, words, over)
    groups.setdefault(key, []).extend([rig.name] if rig else [])
