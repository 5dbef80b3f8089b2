"""What is due: renewals, re-briefs and what has lapsed, as a list for the wall and the calendar."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from generator.memory import collecting_later
from generator.model.course import Curriculum
from generator.model.event import Event
from generator.model.file import Due, DueList
from generator.model.standing import Standing
from generator.records.ages import end_of_presence
from generator.records.clock import later
from generator.records.facts import Book, folded
from generator.records.gather import gather
from generator.records.standing import standings_in

DAYS = 60
"""How far ahead the list looks."""

EVERY_MODULE = "all"
"""In the place of a module's short word: absence lapses whatever the person is cleared for."""


def due_list(
    curriculum: Curriculum, events: Sequence[Event], day: str, head: str, days: int = DAYS
) -> DueList:
    """What is due from that day (ISO) on, for so many days, and what is over already."""
    until = later(day, days)
    with collecting_later():
        book = gather(events, day)
    groups: dict[tuple[str, str, str, str, bool], list[str]] = {}
    standing = standings_in(book, curriculum, day)
    for each in standing:
        if each.cleared and each.due and each.due <= until:
            _add(curriculum, groups, each, each.due, each.renew, over=False)
        elif each.state == "lapsed":
            _add(curriculum, groups, each, each.since, "; ".join(each.missing), over=True)
    lines = [
        Due(when, person, module, tuple(rigs), what, over)
        for (when, person, module, what, over), rigs in groups.items()
    ]
    lines += _unseen(curriculum, book, standing, until)
    ordered = sorted(lines, key=lambda line: (not line.over, line.day, line.person, line.module))
    return DueList(day, until, tuple(ordered), head)


def _unseen(
    curriculum: Curriculum, book: Book, standing: Iterable[Standing], until: str
) -> Iterator[Due]:
    """Those who may work now and lapse for absence by then, unless something more is entered."""
    for name in dict.fromkeys(each.person for each in standing if each.cleared):
        who = book.people[folded(name)]
        end = end_of_presence(who, curriculum.shop.rules)
        if end and end <= until:
            last = max(who.active)
            what = f"nothing on record since {last}: enter what was taught, seen or sat since"
            yield Due(end, name, EVERY_MODULE, (), what)


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
