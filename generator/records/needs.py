"""What a person still lacks in a module, whatever the age of what he has.

Each function here returns the things missing, in words for his file and short for the board; the
whole is their sum.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import cached_property
from typing import NamedTuple

from generator.model.course import Curriculum, Module
from generator.model.event import Event
from generator.records.clock import Absence
from generator.records.facts import Book, Mark, Pass, Person

MIXING = "mix"
"""Duties that begin with this word need the data sheets of the rig shown."""
SHEETS = "data sheets"
BY_CARD = "mix-card"
"""Mixing the card's own recipes in an empty tank, and nothing else."""


MANY = 3
"""Lessons that are named one by one when none of them was taught; more are only counted."""


class Need(NamedTuple):
    """Something missing: in `words` of its own, and `short` for a list under a heading."""

    words: str
    short: str


@dataclass(frozen=True)
class Case:
    """One person, one module and one rig ("" where none matters), on one day (ISO)."""

    book: Book
    who: Person
    module: Module
    rig: str
    curriculum: Curriculum
    on: str
    absence: Absence | None = None  # the last one that was too long

    @cached_property
    def mark(self) -> Mark | None:
        """The last counted paper of the module: a later failure takes an earlier pass away."""
        return next(reversed(self.who.counted(self.module.id)), None)

    @cached_property
    def held(self) -> Pass | None:
        """The pass that stands."""
        return self.who.holds(self.module.id)

    @property
    def signed(self) -> Event | None:
        """The last sign-off that counts for this rig."""
        rig = self.rig if self.module.sign_off.per_rig else ""
        return self.who.signed.get((self.module.id, rig))

    @property
    def on_rig(self) -> str:
        """` on Rig 1`, or nothing where the rig does not matter."""
        return f" on {self.rig_name}" if self.module.sign_off.per_rig else ""

    @property
    def rig_name(self) -> str:
        """The rig's name as the crew says it."""
        rig = self.curriculum.shop.rig(self.rig)
        return rig.name if rig else self.rig


def by_rig(module: Module) -> bool:
    """Whether standing in the module is told rig by rig."""
    return module.sign_off.per_rig or module.grants.startswith(MIXING)


def lacks(case: Case, edition: int) -> list[Need]:
    """All that is missing for that edition of the module; empty when everything is there."""
    return [need for lack in LACKS for need in lack(case, edition)]


def _age(case: Case, edition: int) -> list[Need]:
    """The owner's rule on age; no date of birth is kept, only the day from which it is met."""
    if not case.module.grants or case.on >= case.who.of_age:
        return []
    return [Need(f"be of age for it, on {case.who.of_age}", f"of age on {case.who.of_age}")]


def _required(case: Case, edition: int) -> list[Need]:
    modules = case.curriculum.modules
    return [
        Need(f"pass {modules[needed].title} first", f"after {modules[needed].short}")
        if needed in modules
        else Need(f"pass {needed} first", f"after {needed}")
        for needed in case.module.requires
        if not case.who.holds(needed)
    ]


def _lessons(case: Case, edition: int) -> list[Need]:
    taught = case.who.taught.get(case.module.id, {})
    titles = {lesson.id: lesson.title for lesson in case.module.lessons}
    wanted = _asked(case, edition, "lessons", tuple(titles))
    untaught = [titles.get(lesson, lesson) for lesson in wanted if lesson not in taught]
    if not untaught:
        return []
    if len(untaught) > MANY and len(untaught) == len(wanted):
        return [Need(f"be taught all {len(untaught)} lessons", "lessons")]
    count = len(untaught)
    short = "lessons" if count == len(wanted) else f"{count} lesson{'s' if count > 1 else ''}"
    return [Need(f"be taught: {', '.join(untaught)}", short)]


def _paper(case: Case, edition: int) -> list[Need]:
    mark = case.mark
    if mark is None:
        return [Need("pass the written paper", "paper")]
    if not mark.enough:
        data = mark.event.data
        score = f"{data['right']} of {data['items']}, {data['cut']} needed"
        return [Need(f"pass a new written paper (last: {score})", "new paper")]
    if unmended := case.who.unmended(mark):
        return [_must_get(case, mark, item) for item in unmended]
    if case.held is None:
        return [Need("pass a full written paper: a return paper does not do", "paper")]
    return []


def _must_get(case: Case, mark: Mark, item: str) -> Need:
    named = item.replace("-", " ")
    if case.who.heard(mark, item):
        words = f"pass a new written paper: must-get {named} was missed again when asked aloud"
        return Need(words, "new paper")
    words = f"put right a missed must-get ({named}): asked aloud, or a new paper"
    return Need(words, f"must-get “{named}”")


def _sheets(case: Case, edition: int) -> list[Need]:
    if not case.module.grants.startswith(MIXING) or case.rig in case.who.sheets:
        return []
    return [Need(f"be shown the data sheets of {case.rig_name}", SHEETS)]


def _skills(case: Case, edition: int) -> list[Need]:
    lines = {line.id: line.do for line in case.module.sign_off.lines}
    if not lines:
        return []
    if case.signed is None:
        return [Need(f"be signed off{case.on_rig}", "sign-off")]
    must = tuple(line.id for line in case.module.sign_off.lines if line.must)
    answers = case.signed.data["lines"]
    open_ones = [
        line
        for line in _asked(case, edition, "must", must)
        if str(answers.get(line, "")).casefold() != "yes"
    ]
    return [
        Need(f"show the trainer{case.on_rig}: {lines.get(line, line)}", f"show: {line}")
        for line in open_ones
    ]


def _briefing(case: Case, edition: int) -> list[Need]:
    brief = case.who.briefed.get(case.module.id)
    briefed = brief.data["edition"] if brief else 0
    if case.held is None or max(case.held.full.edition, briefed) >= edition:
        return []
    return [Need(f"be re-briefed on edition {edition}", "re-brief")]


def _asked(case: Case, edition: int, what: str, now: tuple[str, ...]) -> tuple[str, ...]:
    """What that edition asked; of an old edition nobody noted, what is asked `now`."""
    noted = case.book.asked.get((case.module.id, edition))
    if noted is None or edition >= case.module.edition:
        return now
    return tuple(noted.data[what])


LACKS: tuple[Callable[[Case, int], list[Need]], ...] = (
    _age,
    _required,
    _lessons,
    _paper,
    _sheets,
    _skills,
    _briefing,
)
