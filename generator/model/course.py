"""The lessons: modules, lessons, points, cautions, hands-on checks, questions."""

from __future__ import annotations

from dataclasses import dataclass, field
from fractions import Fraction
from typing import TYPE_CHECKING

from generator.model.handout import Handouts
from generator.model.problem import Problem
from generator.model.reaction import Reaction
from generator.model.relation import Relation
from generator.model.shop import Shop
from generator.model.stated import Stated
from generator.words import WRITTEN_IN

if TYPE_CHECKING:  # a sheet may hold a caution
    from generator.model.sheet import Sheet


@dataclass(frozen=True)
class Source:
    """A published source and how it was read: seen, copy, practice or worked.

    `checked` is the ISO date on which the entry was last gone over; "" for practice and worked.
    """

    id: str
    title: str
    read: str
    checked: str = ""

    @property
    def is_published(self) -> bool:
        """Whether there is something to open again: the source itself or a copy of it."""
        return self.read in ("seen", "copy")


@dataclass(frozen=True)
class Point:
    """One idea of a lesson, in Markdown."""

    id: str
    title: str
    text: str


@dataclass(frozen=True)
class Caution:
    """A danger: what happens, what to do, whom to call."""

    id: str
    signal: str  # "danger", "warning", "caution" or "notice"
    title: str
    happens: str
    do: str
    call: str = ""
    sources: tuple[str, ...] = ()


@dataclass(frozen=True)
class Check:
    """A hands-on check: what the person does, and what the trainer must see."""

    id: str
    do: str
    passes: str


@dataclass(frozen=True)
class PutRight:
    """A loose idea and the truth."""

    idea: str
    right: str


@dataclass(frozen=True)
class FigureRequest:
    """A figure by name, with the numbers it is drawn from."""

    figure: str
    caption: str
    alt: str
    numbers: dict[str, Fraction | str]


@dataclass(frozen=True)
class Choice:
    """One option of a question, with the reason it is right or wrong."""

    text: str
    right: bool
    reason: str


@dataclass(frozen=True)
class Question:
    """A fixed item: one of three, or put in order (then `order` is in the right order)."""

    id: str
    module: str
    lesson: str
    ask: str
    options: tuple[Choice, ...] = ()
    order: tuple[str, ...] = ()
    reason: str = ""
    must: bool = False
    language: str = WRITTEN_IN


@dataclass(frozen=True)
class Lesson:
    """One lesson; texts are Markdown with every look-up already filled in."""

    id: str
    title: str
    aim: str
    minutes: int
    points: tuple[Point, ...]
    why: str = ""
    steps: tuple[str, ...] = ()
    cautions: tuple[Caution, ...] = ()
    checks: tuple[Check, ...] = ()
    put_right: tuple[PutRight, ...] = ()
    figures: tuple[FigureRequest, ...] = ()
    examples: tuple[str, ...] = ()  # problem ids
    practice: tuple[str, ...] = ()  # problem ids
    questions: tuple[Question, ...] = ()
    sources: tuple[str, ...] = ()


@dataclass(frozen=True)
class Blueprint:
    """What a paper of the module holds and what passing takes."""

    write_in: int
    choice: int
    cut: int
    tries: int
    days_between: int
    practice: int  # practice papers before the counted one
    must: tuple[str, ...] = ()  # problem or question ids; each stands on every paper
    strip: tuple[str, ...] = ()  # relations on the formula strip; none named: all that are asked
    exception: bool = True  # whether the owner may open a try early; never for a duty
    practice_cut: int = 0  # right answers from which on a practice paper counts as done

    @property
    def items(self) -> int:
        """Items on one paper."""
        return self.write_in + self.choice


@dataclass(frozen=True)
class SkillLine:
    """A line of the sign-off sheet: what the person does, what the trainer looks for."""

    id: str
    do: str
    look: str
    must: bool = False


@dataclass(frozen=True)
class SignOff:
    """The skills a trainer must see."""

    lines: tuple[SkillLine, ...]
    per_rig: bool = False


@dataclass(frozen=True)
class Change:
    """What an edition changed: for the re-brief, in the owner's words, and in which lessons."""

    edition: int
    what: tuple[str, ...]
    lessons: tuple[str, ...]


@dataclass(frozen=True)
class Module:
    """Lessons that are taught, tested and signed off together."""

    id: str
    title: str
    short: str
    aim: str
    edition: int
    wording: str  # digest of the text when the edition was last looked at
    digest: str  # digest of the text as it is now
    lessons: tuple[Lesson, ...]
    problems: tuple[Problem, ...]
    blueprint: Blueprint
    sign_off: SignOff
    requires: tuple[str, ...] = ()
    grants: str = ""
    may_passed: str = ""
    may_not_yet: str = ""
    covers: str = ""  # the family of products a duty is for, such as bleach and soap
    changed: Change | None = None

    @property
    def questions(self) -> tuple[Question, ...]:
        """Every question of every lesson, in order."""
        return tuple(question for lesson in self.lessons for question in lesson.questions)


@dataclass(frozen=True)
class Curriculum:
    """All that a shop folder's `curriculum/` says."""

    shop: Shop
    sources: dict[str, Source]
    relations: dict[str, Relation]
    modules: dict[str, Module]
    digest: str  # of every file read
    sums: tuple[Problem, ...] = ()  # the owner's own, in no module
    sheets: dict[str, Sheet] = field(default_factory=dict)
    handouts: Handouts = field(default_factory=Handouts)
    reactions: dict[str, Reaction] = field(default_factory=dict)
    stated: tuple[Stated, ...] = ()  # sentences of lessons that state numbers

    def before(self, module: Module) -> list[Module]:
        """Every module that must be passed before this one, each after what it requires itself."""
        found: list[Module] = []
        for name in module.requires:
            for needed in (*self.before(self.modules[name]), self.modules[name]):
                if needed not in found:
                    found.append(needed)
        return found

    def skills(self, module: Module) -> list[str]:
        """The ids of the module and, where it clears for a duty, of the duties it builds on.

        What speaks against one of those speaks against it.
        """
        before = self.before(module) if module.grants else []
        return [module.id, *(needed.id for needed in before if needed.grants)]

    @property
    def problems(self) -> tuple[Problem, ...]:
        """Every problem: those of the modules, in their order, and the owner's own."""
        return tuple(p for m in self.modules.values() for p in m.problems) + self.sums

    def problem(self, problem_id: str) -> Problem | None:
        """The problem of that id, wherever it stands."""
        return next((p for p in self.problems if p.id == problem_id), None)
