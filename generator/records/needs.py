"""What a person still lacks in a module, whatever the age of what he has.

Each function here returns the things missing, in words for his file and short for the board; the
whole is their sum.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import cached_property, lru_cache
from typing import Any, NamedTuple

from generator.model.course import Curriculum, Module
from generator.model.event import Event
from generator.records.clock import Absence
from generator.records.facts import Book, Mark, Pass, Person
from generator.words import WRITTEN_IN, words

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


@lru_cache(maxsize=4096)  # a crew lacks the same things
def _said(language: str, name: str, **values: object) -> str:
    return words(language)["needs"][name].format(**values)


@dataclass(frozen=True)
class Case:
    """One person, one module and one rig ("" where none matters), on one day (ISO)."""

    book: Book
    who: Person
    module: Module
    rig: str
    rig_name: str  # as the crew says it
    curriculum: Curriculum
    on: str
    absence: Absence | None = None  # the last one that was too long
    language: str = WRITTEN_IN  # of the words of what is missing

    def need(self, name: str, short: str, **values: object) -> Need:
        """Something missing, in the words of `name`, filled in."""
        return Need(self.said(name, **values), short)

    def said(self, name: str, **values: object) -> str:
        """Words about what is missing, in the language wanted."""
        return _said(self.language, name, **values)

    @cached_property
    def mark(self) -> Mark | None:
        """The last counted paper of the module: a later failure takes an earlier pass away."""
        return next(reversed(self.who.counted(self.module.id)), None)

    @cached_property
    def held(self) -> Pass | None:
        """The pass that stands."""
        return self.who.holds(self.module.id)

    @property
    def sheets(self) -> Sequence[Event]:
        """The sign-off sheets that stand for this rig; what was seen last comes first."""
        rig = self.rig if self.module.sign_off.per_rig else ""
        return self.who.signed.get((self.module.id, rig), ())

    @cached_property
    def skills(self) -> list[str]:
        """The ids of the modules of which what speaks against them speaks against this one."""
        return self.curriculum.skills(self.module)

    @property
    def suspension(self) -> Event | None:
        """What keeps the person from this work, if anything does."""
        found = (self.who.suspension(module) for module in self.skills)
        return next(filter(None, found), None)

    @property
    def on_rig(self) -> str:
        """` on Rig 1`, or nothing where the rig does not matter."""
        return self.said("on_rig", rig=self.rig_name) if self.module.sign_off.per_rig else ""


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
    return [case.need("age", f"of age on {case.who.of_age}", day=case.who.of_age)]


def _required(case: Case, edition: int) -> list[Need]:
    modules = case.curriculum.modules
    return [
        case.need("first", f"after {modules[needed].short}", module=modules[needed].title)
        if needed in modules
        else case.need("first", f"after {needed}", module=needed)
        for needed in case.module.requires
        if not case.who.holds(needed)
    ]


def _lessons(case: Case, edition: int) -> list[Need]:
    taught = case.who.taught.get(case.module.id, {})
    wanted = _asked(case, edition, "lessons", [lesson.id for lesson in case.module.lessons])
    untaught = [lesson for lesson in wanted if lesson not in taught]
    if not untaught:
        return []
    count = len(untaught)
    if count > MANY and count == len(wanted):
        return [case.need("all_lessons", "lessons", count=count)]
    short = "lessons" if count == len(wanted) else f"{count} lesson{'s' if count > 1 else ''}"
    titles = {lesson.id: lesson.title for lesson in case.module.lessons}
    named = ", ".join(titles.get(lesson, lesson) for lesson in untaught)
    return [case.need("lessons", short, lessons=named)]


def _paper(case: Case, edition: int) -> list[Need]:
    mark = case.mark
    if mark is None:
        return [case.need("paper", "paper")]
    if not mark.enough:
        data = mark.event.data
        score = {name: data[name] for name in ("right", "items", "cut")}
        return [case.need("new_paper", "new paper", **score)]
    if unmended := case.who.unmended(mark):
        return [_must_get(case, mark, item) for item in unmended]
    if case.held is None:
        return [case.need("full_paper", "paper")]
    return []


def _must_get(case: Case, mark: Mark, item: str) -> Need:
    short, named = item.replace("-", " "), _item_named(case, mark, item)
    if case.who.heard(mark, item):
        return case.need("must_again", "new paper", item=named)
    return case.need("must", f"must-get “{short}”", item=named)


def _item_named(case: Case, mark: Mark, item: str) -> str:
    """The id in words; they say nothing in another language, so there its place on the paper."""
    if case.language == WRITTEN_IN:
        return item.replace("-", " ")
    place = mark.event.data["must_missed"][mark.missed.index(item)]
    return case.said("item_of", place=place, paper=mark.code)


def _sheets(case: Case, edition: int) -> list[Need]:
    if not case.module.grants.startswith(MIXING) or case.rig in case.who.sheets:
        return []
    return [case.need("sheets", SHEETS, rig=case.rig_name)]


def _skills(case: Case, edition: int) -> list[Need]:
    sheet = case.module.sign_off.lines
    if not sheet:
        return []
    if not case.sheets:
        return [case.need("sign_off", "sign-off", rig=case.on_rig)]
    must = _asked(case, edition, "must", [line.id for line in sheet if line.must])
    told = [each.data["lines"] for each in case.sheets]
    open_ones = [line for line in must if not _shown(told, line)]
    if not open_ones:
        return []
    lines = {line.id: line.do for line in sheet}
    return [
        case.need("line", f"show: {line}", rig=case.on_rig, line=lines.get(line, line))
        for line in open_ones
    ]


def _shown(told: Sequence[dict[str, Any]], line: str) -> bool:
    """Whether a line was seen, and none of the sheets that stand says otherwise."""
    said = {str(answers[line]).casefold() for answers in told if line in answers}
    return said == {"yes"}


def _briefing(case: Case, edition: int) -> list[Need]:
    brief = case.who.briefed.get(case.module.id)
    briefed = brief.data["edition"] if brief else 0
    if case.held is None or max(case.held.full.edition, briefed) >= edition:
        return []
    return [case.need("brief", "re-brief", edition=edition)]


def _asked(case: Case, edition: int, what: str, now: Sequence[str]) -> Sequence[str]:
    """What that edition asked; of an old edition nobody noted, what is asked `now`."""
    if edition >= case.module.edition:
        return now
    noted = case.book.asked.get((case.module.id, edition))
    return tuple(noted.data[what]) if noted else now


LACKS: tuple[Callable[[Case, int], list[Need]], ...] = (
    _age,
    _required,
    _lessons,
    _paper,
    _sheets,
    _skills,
    _briefing,
)
