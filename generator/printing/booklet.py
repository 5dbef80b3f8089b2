"""The booklet of a module: cover, lessons, practice, answers, sign-off sheet, sources."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from hashlib import blake2b
from typing import TypeVar

from generator.errors import Refusal, nearest
from generator.model.course import Choice, Lesson, Module, Question, Source
from generator.model.item import LETTERS, Item
from generator.model.problem import Problem
from generator.model.shop import Shop
from generator.printing import figures, signs
from generator.printing.answers import key_text, right_letter
from generator.printing.environment import picture, render
from generator.words import words

Threes = Mapping[str, tuple[Item, Item, Item]]
Found = TypeVar("Found")


@dataclass(frozen=True)
class Picture:
    """A drawn figure: the address of its image and its words."""

    address: str
    caption: str
    alt: str


@dataclass(frozen=True)
class Worked:
    """One problem as examples that fade: all the working, all but the last step, none."""

    title: str
    convention: str
    items: tuple[Item, Item, Item]


@dataclass(frozen=True)
class Quiz:
    """A question as printed: its options, or the things to put in order, in drawn order."""

    question: Question
    options: tuple[Choice, ...]
    things: tuple[str, ...]

    @property
    def answer(self) -> str:
        """The letter that is right, or the letters in the right order."""
        if self.options:
            return right_letter(self.options)
        return "".join(LETTERS[self.things.index(thing)] for thing in self.question.order)


@dataclass(frozen=True)
class LessonPage:
    """A lesson with all that is printed for it."""

    number: int
    lesson: Lesson
    gauge: str
    pictures: tuple[Picture, ...]
    worked: tuple[Worked, ...]
    practice: tuple[Item, ...]
    quiz: tuple[Quiz, ...]

    @property
    def has_answers(self) -> bool:
        """Whether the back of the booklet has something to say of it."""
        return bool(self.worked or self.practice or self.quiz)


def booklet_html(
    shop: Shop,
    module: Module,
    sources: Mapping[str, Source],
    examples: Threes,
    practice: Mapping[str, tuple[Item, ...]],
    problems_by_id: Mapping[str, Problem],
    half: bool = False,
    pass_first: Sequence[str] = (),
) -> str:
    """The booklet as HTML; with `half` on pages of half the size, to be folded.

    `examples` and `practice` hold drawn items by problem id; `pass_first` are the titles of the
    modules that come before this one. Raises Refusal when a lesson names a source, problem or
    figure that is not there.
    """
    cited, said = _cited(module, sources), words(shop.language)["booklet"]
    place = {source.id: n for n, source in enumerate(cited, 1)}
    return render(
        "booklet.html",
        shop,
        half=half,
        module=module,
        pages=list(_pages(module, examples, practice, problems_by_id)),
        pass_first=[f"“{title}”" for title in pass_first],
        cited=[(source, said[source.read]) for source in cited],
        numbers=lambda ids: sorted(place[id_] for id_ in ids),
        cover=signs.lesson_gauge([lesson.title for lesson in module.lessons], said["shade"]),
        alert=signs.alert,
        key_text=key_text,
    )


def _pages(
    module: Module,
    examples: Threes,
    practice: Mapping[str, tuple[Item, ...]],
    problems: Mapping[str, Problem],
) -> Iterator[LessonPage]:
    for number, lesson in enumerate(module.lessons, 1):
        yield LessonPage(
            number=number,
            lesson=lesson,
            gauge=signs.gauge(number, len(module.lessons)),
            pictures=tuple(_pictures(lesson)),
            worked=tuple(_worked(lesson, examples, problems)),
            practice=tuple(i for id_ in lesson.practice for i in _get(id_, practice, "problem")),
            quiz=tuple(map(quiz, lesson.questions)),
        )


def quiz(question: Question) -> Quiz:
    """The question in an order of its own, the same in every print and in every language."""
    things = tuple(_shuffled(question.id, question.order))
    if things == question.order:  # the printed order must not be the answer
        things = things[1:] + things[:1]
    return Quiz(question, tuple(_shuffled(question.id, question.options)), things)


def _shuffled(salt: str, things: Sequence[Found]) -> list[Found]:
    """In an order that hangs on the salt and the number of things, not on their words."""
    keys = {place: blake2b(f"{salt}\0{place}".encode()).digest() for place in range(len(things))}
    return [things[place] for place in sorted(keys, key=lambda place: keys[place])]


def _pictures(lesson: Lesson) -> Iterator[Picture]:
    for asked in lesson.figures:
        drawn = picture(figures.draw(asked.figure, asked.numbers))
        yield Picture(drawn, asked.caption, asked.alt)


def _worked(lesson: Lesson, examples: Threes, problems: Mapping[str, Problem]) -> Iterator[Worked]:
    for id_ in lesson.examples:
        relation = _get(id_, problems, "problem").relation
        yield Worked(relation.title, relation.convention, _get(id_, examples, "problem"))


def _cited(module: Module, sources: Mapping[str, Source]) -> list[Source]:
    """Every source the module leans on, once, in order of appearance."""
    ids = [
        id_
        for lesson in module.lessons
        for group in (*(caution.sources for caution in lesson.cautions), lesson.sources)
        for id_ in group
    ]
    return [_get(id_, sources, "source") for id_ in dict.fromkeys(ids)]


def _get(id_: str, where: Mapping[str, Found], kind: str) -> Found:
    if id_ not in where:
        raise Refusal(f'the {kind} "{id_}" is not there', nearest(id_, where))
    return where[id_]
