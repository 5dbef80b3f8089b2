"""What a person still lacks in a module, whatever the age of what he has.

Each function here returns the things missing, in words for the board; the whole is their sum.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import cached_property

from generator.model.course import Curriculum, Module
from generator.model.event import Event
from generator.records.clock import Absence
from generator.records.facts import Book, Mark, Person

MIXING = "mix"
"""Duties that begin with this word need the data sheets of the rig shown."""
BY_CARD = "mix-card"
"""Mixing the card's own recipes in an empty tank, and nothing else."""


MANY = 3
"""Lessons that are named one by one when none of them was taught; more are only counted."""


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

    @property
    def passed(self) -> bool:
        """Whether the last counted paper is a pass."""
        return self.mark is not None and self.who.passes(self.mark)

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


def lacks(case: Case, edition: int) -> list[str]:
    """All that is missing for that edition of the module; empty when everything is there."""
    return [word for lack in LACKS for word in lack(case, edition)]


def _required(case: Case, edition: int) -> list[str]:
    modules = case.curriculum.modules
    return [
        f"pass {modules[needed].title if needed in modules else needed} first"
        for needed in case.module.requires
        if not any(case.who.passes(mark) for mark in case.who.counted(needed)[-1:])
    ]


def _lessons(case: Case, edition: int) -> list[str]:
    taught = case.who.taught.get(case.module.id, {})
    titles = {lesson.id: lesson.title for lesson in case.module.lessons}
    wanted = _asked(case, edition, "lessons", tuple(titles))
    untaught = [titles.get(lesson, lesson) for lesson in wanted if lesson not in taught]
    if len(untaught) > MANY and len(untaught) == len(wanted):
        return [f"be taught all {len(untaught)} lessons"]
    return [f"be taught: {', '.join(untaught)}"] if untaught else []


def _paper(case: Case, edition: int) -> list[str]:
    mark = case.mark
    if mark is None:
        return ["pass the written paper"]
    if not mark.enough:
        data = mark.event.data
        score = f"{data['right']} of {data['items']}, {data['cut']} needed"
        return [f"pass a new written paper (last: {score})"]
    return [
        f"put right a missed must-get ({item.replace('-', ' ')}): asked aloud, or a new paper"
        for item in case.who.unmended(mark)
    ]


def _sheets(case: Case, edition: int) -> list[str]:
    if not case.module.grants.startswith(MIXING) or case.rig in case.who.sheets:
        return []
    return [f"be shown the data sheets of {case.rig_name}"]


def _skills(case: Case, edition: int) -> list[str]:
    lines = {line.id: line.do for line in case.module.sign_off.lines}
    if not lines:
        return []
    if case.signed is None:
        return [f"be signed off{case.on_rig}"]
    must = tuple(line.id for line in case.module.sign_off.lines if line.must)
    answers = case.signed.data["lines"]
    return [
        f"show the trainer{case.on_rig}: {lines.get(line, line)}"
        for line in _asked(case, edition, "must", must)
        if str(answers.get(line, "")).casefold() != "yes"
    ]


def _briefing(case: Case, edition: int) -> list[str]:
    brief = case.who.briefed.get(case.module.id)
    briefed = brief.data["edition"] if brief else 0
    if case.mark is None or max(case.mark.edition, briefed) >= edition:
        return []
    return [f"be re-briefed on edition {edition}"]


def _asked(case: Case, edition: int, what: str, now: tuple[str, ...]) -> tuple[str, ...]:
    """What that edition asked; of an old edition nobody noted, what is asked `now`."""
    noted = case.book.asked.get((case.module.id, edition))
    if noted is None or edition >= case.module.edition:
        return now
    return tuple(noted.data[what])


LACKS: tuple[Callable[[Case, int], list[str]], ...] = (
    _required,
    _lessons,
    _paper,
    _sheets,
    _skills,
    _briefing,
)
