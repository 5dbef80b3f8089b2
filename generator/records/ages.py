"""How long what a person has still counts: renewal, absence, setbacks, grace after an edition.

Each trigger is switched in shop.yaml. Every clock is over on the day after its last day.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from generator.model.event import Event
from generator.model.shop import Rules
from generator.records.clock import later
from generator.records.facts import Person
from generator.records.needs import Case, Need
from generator.records.tries import rounds_lost

PAPER = "written paper"
SIGN_OFF = "sign-off"


@dataclass(frozen=True)
class Proof:
    """What ages: proved on the day of `event`, and borne out again by `last`.

    `shown` are all that prove it: one of them must follow whatever speaks against it.
    """

    what: str
    event: Event
    last: Event
    shown: Sequence[Event]


@dataclass(frozen=True)
class Stale:
    """Something that no longer counts: since which `day`, what it was, and what to do."""

    day: str
    what: str
    need: Need


def stale(case: Case) -> list[Stale]:
    """The paper and the sign-off, where something speaks against them.

    Of several reasons the earliest sets the day, and the last one named says what to do: what
    mends it mends the others too.
    """
    found = []
    for proof in _proofs(case):
        reasons = list(_reasons(case, proof))
        if reasons:
            first = min(day for day, _ in reasons)
            found.append(Stale(first, proof.what, reasons[-1][1]))
    return found


def _reasons(case: Case, proof: Proof) -> Iterator[tuple[str, Need]]:
    """Why a proof does not count any more, each with its day; the most demanding one last."""
    rules = case.curriculum.shop.rules
    written, rig = proof.what == PAPER, case.on_rig
    short, named = proof.what.removeprefix("written "), "paper" if written else "sign_off"
    if rules.lapse.away and case.absence and case.absence.covers(proof.last.seen):
        again = "return paper" if written else "new sign-off"
        days = case.absence.days
        yield case.absence.lapse, case.need(f"{named}_away", again, rig=rig, days=days)
    due = later(proof.event.seen, rules.renewal)
    if rules.lapse.renewal and case.on > due:
        why = case.said("was_due", day=due)
        yield later(due, 1), case.need(f"{named}_again", f"new {short}", rig=rig, why=why)
    if proof.what == (SIGN_OFF if case.module.sign_off.lines else PAPER):
        for event, why in _setbacks(case):
            if not any(_follows(shown, event) for shown in proof.shown):
                yield event.seen, case.need(f"{named}_again", f"new {short}", rig=rig, why=why)


def _setbacks(case: Case) -> Iterator[tuple[Event, str]]:
    """After what a skill must be shown again, by the switches of the shop, and why in words."""
    switches = case.curriculum.shop.rules.lapse
    for event in case.who.setbacks:
        if getattr(switches, event.kind) and event.data["module"] in case.skills:
            yield event, case.said(f"after_{event.kind}", day=event.seen)
    for change in case.book.changes:
        here = change.rig in ("", case.rig) and change.module in case.skills
        if here and getattr(switches, change.cause, True):  # a cause of later versions counts
            day = change.event.seen
            yield change.event, case.said("after_change", day=day, what=change.what)
    if case.module.sign_off.lines:
        for mark in rounds_lost(case.who, case.module):
            yield mark.event, case.said("tries_used", day=mark.event.seen)


def _follows(proof: Event, event: Event) -> bool:
    """Whether the proof was given after the event, by its day and by the order of the record."""
    return proof.seen >= event.seen and proof.number > event.number


def renewal_due(case: Case) -> str:
    """The last day on which both the paper and the sign-off are young enough; "" for no end."""
    rules = case.curriculum.shop.rules
    if not rules.lapse.renewal:
        return ""
    return later(min(proof.event.seen for proof in _proofs(case)), rules.renewal)


def renewing(case: Case, due: str) -> str:
    """What is to be proved anew by the day it is due (ISO), in words."""
    renewal = case.curriculum.shop.rules.renewal
    old = [each for each in _proofs(case) if later(each.event.seen, renewal) == due]
    rig = case.on_rig if any(each.what == SIGN_OFF for each in old) else ""
    return f"a new {' and a new '.join(each.what for each in old)}{rig}" if old else ""


def end_of_presence(who: Person, rules: Rules) -> str:
    """The last day before absence takes clearances away, if nothing more is entered of the person;
    "" where it takes none.
    """
    return later(max(who.active), rules.away) if rules.lapse.away else ""


def raised_after(case: Case, held: int) -> str:
    """The day the first edition after the one held was heard of; today if nobody noted it."""
    raised = case.book.raised.get(case.module.id, {})
    newer = [day for edition, day in raised.items() if held < edition <= case.module.edition]
    return min(newer, default=case.on)


def end_of_grace(case: Case, held: int) -> str:
    """The last day on which the edition held still serves; "" where a new one lapses nobody."""
    rules = case.curriculum.shop.rules
    return later(raised_after(case, held), rules.grace) if rules.lapse.new_edition else ""


def complete_since(case: Case) -> str:
    """The day on which the last thing needed was there."""
    who, module = case.who, case.module.id
    taught = who.taught.get(module, {})
    days = [proof.last.seen for proof in _proofs(case)]
    days += [taught[lesson.id] for lesson in case.module.lessons if lesson.id in taught]
    days += [heard.seen for heard in _heard(case)]
    days += [who.sheets[case.rig]] if case.rig in who.sheets else []
    days += [who.briefed[module].seen] if module in who.briefed else []
    return max(days)


def days_in_module(case: Case) -> list[str]:
    """The days on which anything of the module was done."""
    who, module = case.who, case.module.id
    days = [mark.event.seen for mark in who.marks.values() if mark.module == module]
    days += [sheets[0].seen for (of, _), sheets in who.signed.items() if of == module]
    days += who.taught.get(module, {}).values()
    return days + ([who.briefed[module].seen] if module in who.briefed else [])


def _proofs(case: Case) -> list[Proof]:
    """What ages in this case."""
    found = []
    if case.held:
        full = case.held.full.event
        found.append(Proof(PAPER, full, case.held.last.event, (full,)))
    if case.sheets and case.module.sign_off.lines:
        found.append(Proof(SIGN_OFF, case.sheets[0], case.sheets[0], case.sheets))
    return found


def _heard(case: Case) -> list[Event]:
    """The times a must-get of the last paper was put right aloud."""
    mark = case.mark
    asked = [case.who.heard(mark, item) for item in mark.missed] if mark else []
    return [event for event in asked if event]
