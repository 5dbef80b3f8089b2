"""Standing: a pure function of the events, the curriculum and a day.

Four clocks run: renewal after the paper and after the sign-off, grace after a new edition, and
absence. A clock is over on the day after its last day. An incident or a suspension in a skill, and
a round of tries used up, want the skill shown again.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from generator.memory import collecting_later
from generator.model.course import Curriculum, Module
from generator.model.event import Event
from generator.model.standing import Standing
from generator.records.ages import (
    PAPER,
    complete_since,
    days_in_module,
    end_of_grace,
    raised_after,
    renewal_due,
    renewing,
    stale,
)
from generator.records.clock import days_between, last_absence, later
from generator.records.facts import Book, Person
from generator.records.gather import gather
from generator.records.needs import MIXING, Case, Need, by_rig, lacks
from generator.words import WRITTEN_IN

SOON = 30
"""Days before its end in which a clearance is shown as due."""


def standings(events: Sequence[Event], curriculum: Curriculum, on: str) -> tuple[Standing, ...]:
    """Everybody's standing on that day (ISO): by person, module, and rig where it matters."""
    with collecting_later():
        book = gather(events, on)
    return standings_in(book, curriculum, on)


def standings_in(book: Book, curriculum: Curriculum, on: str) -> tuple[Standing, ...]:
    """Everybody's standing on that day (ISO), from facts gathered up to it."""
    return tuple(
        each for who in book.people.values() for each in person_standings(book, who, curriculum, on)
    )


def person_standings(
    book: Book, who: Person, curriculum: Curriculum, on: str, language: str = WRITTEN_IN
) -> tuple[Standing, ...]:
    """One person's standing: by module, and rig where it matters; words in that language."""
    return tuple(standing(case) for case in cases(book, who, curriculum, on, language))


def cases(
    book: Book, who: Person, curriculum: Curriculum, on: str, language: str = WRITTEN_IN
) -> list[Case]:
    """What there is to judge about one person."""
    absence = last_absence(who.active, on, curriculum.shop.rules.away)
    rigs = [(rig.id, rig.name) for rig in curriculum.shop.rigs]
    return [
        Case(book, who, module, rig, name, curriculum, on, absence, language)
        for module in curriculum.modules.values()
        for rig, name in (rigs if by_rig(module) else [("", "")])
    ]


def may_mix(
    standings: Iterable[Standing], rigs: Iterable[str], duty: str = MIXING
) -> dict[str, tuple[str, ...]]:
    """For each rig (id) the people cleared for the duty; an empty tuple says nobody."""
    cleared = [each for each in standings if each.cleared and each.grants == duty]
    return {
        rig: tuple(dict.fromkeys(each.person for each in cleared if each.rig == rig))
        for rig in rigs
    }


def unnoted_editions(book: Book, modules: Iterable[Module], on: str) -> tuple[Event, ...]:
    """The events that note the modules' editions, where the record does not know them yet.

    Grace runs from the day an edition is first heard of, so append these before anything else.
    """
    return tuple(
        Event("edition", "", on, on, data=_edition(module))
        for module in modules
        if (module.id, module.edition) not in book.asked
    )


def _edition(module: Module) -> dict[str, object]:
    return {
        "module": module.id,
        "edition": module.edition,
        "lessons": [lesson.id for lesson in module.lessons],
        "must": [line.id for line in module.sign_off.lines if line.must],
    }


def standing(case: Case) -> Standing:
    """The standing in one case."""
    suspension = case.suspension
    if not case.who.here:
        gone = case.need("gone", "not on the crew")
        return _told(case, "left", [gone], case.who.moved)
    if suspension:
        why = suspension.data.get("why") or case.said("no_reason")
        lift = case.need("suspended", "owner must lift it", why=why)
        return _told(case, "suspended", [lift], suspension.seen)
    missing = lacks(case, case.module.edition)
    held = _edition_held(case, bool(missing))
    if held is None:
        return _on_the_way(case, missing)
    return _with_everything(case, held, missing)


def _edition_held(case: Case, missing: bool) -> int | None:
    """The newest edition of which the person has everything, whatever its age.

    Older editions serve only those who once passed a paper as old.
    """
    if not case.held:
        return None
    id, newest = case.module.id, case.module.edition
    if not missing:
        return newest
    older = [edition for edition in case.book.raised.get(id, {}) if edition < newest]
    if not older:
        return None
    full = [mark for mark in case.who.counted(id) if not mark.back]
    first = min(mark.edition for mark in full if case.who.passes(mark))
    for edition in sorted(older, reverse=True):
        if first <= edition and not lacks(case, edition):
            return edition
    return None


def _on_the_way(case: Case, missing: list[Need]) -> Standing:
    old = stale(case)
    needs = missing + [each.need for each in old]
    if case.held and not any(each.what == PAPER for each in old):
        return _told(case, "passed paper", needs, case.held.last.event.seen)
    days = days_in_module(case)
    return _told(case, "learning" if days else "not started", needs, max(days, default=""))


def _with_everything(case: Case, held: int, missing: list[Need]) -> Standing:
    """`missing` is what the new edition asks beyond the one held."""
    old = stale(case)
    ends = [each.day for each in old]
    last = end_of_grace(case, held) if missing else ""
    if last and case.on > last:
        ends.append(later(last, 1))
    if ends:
        return _told(case, "lapsed", missing + [each.need for each in old], min(ends))
    due = min(filter(None, (renewal_due(case), last)), default="")
    if missing:
        first = "; ".join(need.words for need in missing) if due == last else renewing(case, due)
        return _told(case, "re-brief", missing, raised_after(case, held), due, first)
    soon = bool(due) and days_between(case.on, due) <= SOON
    state = "due soon" if soon else "cleared"
    return _told(case, state, [], complete_since(case), due, renewing(case, due))


def _told(
    case: Case, state: str, needs: list[Need], since: str, due: str = "", renew: str = ""
) -> Standing:
    return Standing(
        case.who.name,
        case.module.id,
        case.rig,
        state,
        tuple(need.words for need in needs),
        since,
        due,
        case.module.grants,
        tuple(need.short for need in needs),
        renew,
    )
