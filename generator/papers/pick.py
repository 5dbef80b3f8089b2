"""Which items stand on a paper: drawn from the blueprint, the same for the same seed.

Numbers first fall to every problem of the module once, then to some of them again; questions are
spread over the lessons. The must-gets stand on every paper, once. Nothing is balanced by place: a
pattern in the places of right answers could be learned.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from hashlib import blake2b
from itertools import chain, cycle, islice
from typing import TypeVar

from generator.errors import Refusal
from generator.model.course import Module, Question
from generator.model.problem import Problem

T = TypeVar("T")

RETURN = 12
"""Items of a return paper beside its must-gets."""


@dataclass(frozen=True)
class Pick:
    """One place of a paper: what stands there, and the seed of its numbers or its order."""

    thing: Problem | Question
    seed: int


def picks(module: Module, seed: str) -> tuple[Pick, ...]:
    """The items of a paper: those to choose or put in order first, then those to work out.

    Raises Refusal when the module has too few of either.
    """
    must = set(module.blueprint.must)
    problems = [problem for problem in module.problems if problem.level == "crew"]
    questions = _chosen_questions(module, must, seed)
    numbers = _chosen_problems(problems, must, module.blueprint.write_in, seed)
    if len(questions) < module.blueprint.choice or len(numbers) < module.blueprint.write_in:
        raise Refusal(
            f"{module.title} has too few questions or problems for its paper",
            "write more, or make the paper in module.yaml shorter",
        )
    things: list[Problem | Question] = [*questions, *numbers]
    return tuple(Pick(thing, _number(seed, "item", place)) for place, thing in enumerate(things))


def returning(module: Module) -> Module:
    """The module with the short paper of someone who passed before and was away.

    It has every must-get and `RETURN` more, chosen and worked out in the shares of the full paper,
    and never more than that; the share that passes is the same, rounded up. As practice it is too
    short to stand for what the full paper asks for.
    """
    full = module.blueprint
    spare = full.items - len(full.must)
    if spare <= RETURN:
        return module
    questions = {question.id for question in module.questions}
    chosen = sum(name in questions for name in full.must)
    more = (2 * RETURN * (full.choice - chosen) + spare) // (2 * spare)  # the nearest whole number
    short = replace(
        full,
        choice=chosen + more,
        write_in=len(full.must) - chosen + RETURN - more,
        cut=-(-full.cut * (RETURN + len(full.must)) // full.items),
        practice_cut=0,
    )
    return replace(module, blueprint=short)


def _chosen_questions(module: Module, must: set[str], seed: str) -> list[Question]:
    first = [question for question in module.questions if question.id in must]
    rest = _shuffled([q for q in module.questions if q.id not in must], seed, "questions")
    spread = sorted(rest, key=lambda q: _before(rest, q))  # one a lesson before a second of any
    chosen = [*first, *spread][: module.blueprint.choice]
    return _shuffled(chosen, seed, "order of questions")


def _before(questions: Sequence[Question], question: Question) -> int:
    """How many questions of the same lesson stand before it."""
    same = [q.id for q in questions if q.lesson == question.lesson]
    return same.index(question.id)


def _chosen_problems(
    problems: Sequence[Problem], must: set[str], wanted: int, seed: str
) -> list[Problem]:
    first = [problem for problem in problems if problem.id in must]
    rest = _shuffled([p for p in problems if p.id not in must], seed, "problems")
    again = cycle(rest or first)  # a must-get asked twice would be missed the more easily
    chosen = [*islice(chain(first, again), wanted)]
    return _shuffled(chosen, seed, "order of problems")


def _shuffled(things: Sequence[T], seed: str, use: str) -> list[T]:
    """The things in an order that hangs on the seed alone."""
    keyed = [(_number(seed, use, place), place) for place in range(len(things))]
    return [things[place] for _, place in sorted(keyed)]


def _number(seed: str, use: str, place: int) -> int:
    digest = blake2b(f"{seed}\0{use}\0{place}".encode(), digest_size=8).digest()
    return int.from_bytes(digest, "big") >> 1  # 63 bits
