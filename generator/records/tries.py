"""When a person may sit a counted paper: practice first, then so many tries, days apart."""

from __future__ import annotations

from collections.abc import Sequence

from generator.errors import Refusal
from generator.model.course import Module
from generator.model.event import Event
from generator.records.clock import later
from generator.records.facts import Mark, Person, folded
from generator.records.gather import live

WEEK = 7
"""Days to wait when every try is used up, before a new round."""


def check_try(who: Person, module: Module, day: str, history: Sequence[Event]) -> None:
    """Raises Refusal, with the day of the next try, unless one is open on `day` (ISO)."""
    _check_practice(who, module)
    failed = failed_tries(who, module.id)
    if not failed or _excepted(who, module, failed[-1], history):
        return
    used_up = len(failed) % max(module.blueprint.tries, 1) == 0
    wait = max(WEEK, module.blueprint.days_between) if used_up else module.blueprint.days_between
    earliest = later(failed[-1].event.seen, wait)
    again = "all tries are used" if used_up else "the last try was not passed"
    if day < earliest:
        raise Refusal(
            f"{who.name} may not sit {module.title} again yet: {again}",
            f"the next try may be on {earliest}, on a new paper, after more teaching",
        )
    if not _taught_since(who, module, failed[-1], history):
        raise Refusal(
            f"{who.name} has not been taught {module.title} again since the last try",
            f'teach what was missed, note it: rigprimer note taught {module.id} "{who.name}" --by'
            " TRAINER, then print a new paper",
        )


def failed_tries(who: Person, module: str) -> list[Mark]:
    """The counted papers not passed since the last pass, in order."""
    failed: list[Mark] = []
    for mark in who.counted(module):
        failed = [] if who.passes(mark) else [*failed, mark]
    return failed


def rounds_lost(who: Person, module: Module) -> list[Mark]:
    """The counted papers with which a whole round of tries was used up, in order."""
    lost, failed = [], 0
    for mark in who.counted(module.id):
        failed = 0 if who.passes(mark) else failed + 1
        if failed and failed % max(module.blueprint.tries, 1) == 0:
            lost.append(mark)
    return lost


def _check_practice(who: Person, module: Module) -> None:
    wanted, cut = module.blueprint.practice, module.blueprint.practice_cut
    sat = [mark for mark in who.marks.values() if mark.practice and mark.module == module.id]
    done = sum(mark.event.data["right"] >= cut for mark in sat)
    if done < wanted:
        with_right = f" with {cut} right or more" if cut else ""
        raise Refusal(
            f"{who.name} has done {done} of {wanted} practice papers in {module.title}{with_right}",
            "print, do and mark a practice paper first: "
            f'rigprimer paper {module.id} --practice --for "{who.name}"',
        )


def _excepted(who: Person, module: Module, last: Mark, history: Sequence[Event]) -> bool:
    """Whether the owner opened a try; never where the module clears for a duty."""
    return allows_exceptions(module) and any(
        event.kind == "exception"
        and event.data.get("allow") == "try"
        and event.data.get("module") == module.id
        for event in _since(who, last, history)
    )


def allows_exceptions(module: Module) -> bool:
    """Whether the owner may open a try early: as the module says, and never for a duty."""
    return module.blueprint.exception and not module.grants


def _taught_since(who: Person, module: Module, last: Mark, history: Sequence[Event]) -> bool:
    return any(
        event.kind == "taught" and event.data["module"] == module.id and event.data["lessons"]
        for event in _since(who, last, history)
    )


def _since(who: Person, last: Mark, history: Sequence[Event]) -> list[Event]:
    name = folded(who.name)
    return [
        event
        for event in live(history)
        if event.number > last.event.number and folded(event.person) == name
    ]
