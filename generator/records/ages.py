"""How old what a person has may become: renewal, absence, and grace after a new edition.

Every clock is over on the day after its last day.
"""

from __future__ import annotations

from dataclasses import dataclass

from generator.records.clock import later
from generator.records.needs import Case

PAPER = "written paper"
SIGN_OFF = "sign-off"


@dataclass(frozen=True, order=True)
class Stale:
    """Something that no longer counts: since which `day`, what it was, and what to do."""

    day: str
    what: str
    words: str


def stale(case: Case) -> list[Stale]:
    """The paper and the sign-off, where they are too old or from before a long absence."""
    found = []
    for what, seen in _proofs(case):
        due = later(seen, case.curriculum.shop.rules.renewal)
        name = what + (case.on_rig if what == SIGN_OFF else "")
        if case.absence and case.absence.covers(seen):
            words = f"a new {name} after {case.absence.days} days away"
            found.append(Stale(case.absence.lapse, what, words))
        elif case.on > due:
            found.append(Stale(later(due, 1), what, f"a new {name} (was due {due})"))
    return found


def renewal_due(case: Case) -> str:
    """The last day on which both the paper and the sign-off are young enough."""
    oldest = min(seen for _, seen in _proofs(case))
    return later(oldest, case.curriculum.shop.rules.renewal)


def raised_after(case: Case, held: int) -> str:
    """The day the first edition after the one held was heard of; today if nobody noted it."""
    raised = case.book.raised.get(case.module.id, {})
    newer = [day for edition, day in raised.items() if held < edition <= case.module.edition]
    return min(newer, default=case.on)


def end_of_grace(case: Case, held: int) -> str:
    """The last day on which the edition held still serves."""
    return later(raised_after(case, held), case.curriculum.shop.rules.grace)


def complete_since(case: Case) -> str:
    """The day on which the last thing needed was there."""
    who, module = case.who, case.module.id
    taught = who.taught.get(module, {})
    days = [seen for _, seen in _proofs(case)]
    days += [taught[lesson.id] for lesson in case.module.lessons if lesson.id in taught]
    days += [oral.seen for (code, _), oral in who.orals.items() if _is_last(case, code)]
    days += [who.sheets[case.rig]] if case.rig in who.sheets else []
    days += [who.briefed[module].seen] if module in who.briefed else []
    return max(days)


def days_in_module(case: Case) -> list[str]:
    """The days on which anything of the module was done."""
    who, module = case.who, case.module.id
    days = [mark.event.seen for mark in who.marks.values() if mark.module == module]
    days += [event.seen for (of, _), event in who.signed.items() if of == module]
    days += who.taught.get(module, {}).values()
    return days + ([who.briefed[module].seen] if module in who.briefed else [])


def _proofs(case: Case) -> list[tuple[str, str]]:
    """What ages, and the day it was proved."""
    found = [(PAPER, case.mark.event.seen)] if case.mark and case.passed else []
    if case.signed and case.module.sign_off.lines:
        found.append((SIGN_OFF, case.signed.seen))
    return found


def _is_last(case: Case, code: str) -> bool:
    return case.mark is not None and case.mark.code == code
