"""The trainer's guide of a module: the round, what to show, what to ask, slips to listen for."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import accumulate

from generator.model.course import Lesson, Module, Question
from generator.model.problem import Problem
from generator.model.shop import Shop
from generator.printing.environment import render

MOST_ASKED = 4
"""Questions a stop asks aloud: more and the crew stops listening."""


@dataclass(frozen=True)
class Heard:
    """A wrong way to listen for, and what to say to it."""

    said: str
    tell: str


@dataclass(frozen=True)
class Stop:
    """A lesson as a stop of the round; `starts` in minutes from the beginning."""

    number: int
    lesson: Lesson
    starts: int
    asked: tuple[Question, ...]
    heard: tuple[Heard, ...]


def guide_html(shop: Shop, module: Module) -> str:
    """The guide as HTML."""
    return render(
        "guide.html",
        shop,
        module=module,
        stops=stops(module),
        minutes=sum(lesson.minutes for lesson in module.lessons),
        cautions=[caution for lesson in module.lessons for caution in lesson.cautions],
        right=right_answer,
        reason=reason,
    )


def stops(module: Module) -> list[Stop]:
    """The lessons as stops, each with what to ask and what to listen for."""
    starts = accumulate((lesson.minutes for lesson in module.lessons), initial=0)
    return [
        Stop(n, lesson, start, _asked(lesson), _heard(lesson, module.problems))
        for n, (lesson, start) in enumerate(zip(module.lessons, starts, strict=False), 1)
    ]


def _asked(lesson: Lesson) -> tuple[Question, ...]:
    """Must-gets first, then the others in their order."""
    return tuple(sorted(lesson.questions, key=lambda question: not question.must))[:MOST_ASKED]


def _heard(lesson: Lesson, problems: tuple[Problem, ...]) -> tuple[Heard, ...]:
    """The slips of the lesson's problems, each once."""
    here = [problem for problem in problems if problem.lesson == lesson.id]
    found = {slip.name: slip.tell for problem in here for slip in problem.slips}
    return tuple(Heard(name, tell) for name, tell in found.items())


def right_answer(question: Question) -> str:
    """What the person should say."""
    if question.order:
        return " → ".join(question.order)
    return next(option.text for option in question.options if option.right)


def reason(question: Question) -> str:
    """Why it is right."""
    if question.order:
        return question.reason
    return next(option.reason for option in question.options if option.right)
