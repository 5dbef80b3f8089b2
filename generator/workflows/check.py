"""Check a curriculum: every fault in one run, what is worth a look, and the counts."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from pathlib import Path

from generator.errors import Fault, Refusal
from generator.items.draw import drawer
from generator.maths import exact
from generator.maths.evaluate import Value
from generator.model.course import Curriculum
from generator.model.problem import Problem
from generator.model.relation import Relation, WorkedValue
from generator.papers.chances import Limits, all_tries
from generator.reading.curriculum import Places, Reading, read_all
from generator.reading.nodes import Document
from generator.solving.answer import work
from generator.workflows.editions import edition_warnings
from generator.workflows.plan import rule_of
from generator.workflows.reading_level import reading_warnings
from generator.workflows.sheets import figure_faults
from generator.workflows.translation import translation_findings
from generator.workflows.typed_numbers import typed_warnings

ENOUGH = 24
"""Distinct items a problem must be able to make."""
PLENTY = 200
"""Distinct items worth counting: nobody learns so many by heart."""


@dataclass(frozen=True)
class Report:
    """What a check found. `warnings` do not stop anything."""

    faults: tuple[Fault, ...]
    warnings: tuple[Fault, ...]
    counts: dict[str, int]
    documents: Mapping[str, Document] = field(default_factory=dict)  # every file read
    distinct: dict[str, int] = field(default_factory=dict)  # items of each problem, up to PLENTY
    # by module whose paper does not keep the limit: the chance that who knows too little passes
    false_pass: dict[str, Fraction] = field(default_factory=dict)


def check(folder: Path, records: Path | None = None) -> Report:
    """Read and test everything in a curriculum folder. Raises Refusal when it is none.

    With the record of the shop it is told as well whom an edit lapses.
    """
    reading = read_all(folder)
    faults = list(reading.faults)
    if reading.curriculum is None:
        return Report(tuple(faults), (), dict.fromkeys(_COUNTS, 0))
    curriculum = reading.curriculum
    for faults_of in (_relation_faults, _problem_faults, figure_faults):
        faults += faults_of(curriculum, reading.places)
    broken, untranslated = translation_findings(folder, reading.documents)
    faults += broken
    return Report(
        tuple(sorted(set(faults))),
        (*_warnings(reading, curriculum, records), *untranslated),
        {name: count(curriculum) for name, count in _COUNTS.items()},
        reading.documents,
        {problem.id: distinct_items(problem) for problem in curriculum.problems},
        {} if faults else _false_passes(curriculum),  # a paper with a fault has no chances
    )


def _false_passes(curriculum: Curriculum) -> dict[str, Fraction]:
    limits = Limits()
    passes = {
        module.id: all_tries(rule_of(module), limits.low) for module in curriculum.modules.values()
    }
    return {name: chance for name, chance in passes.items() if chance > limits.false_pass}


def distinct_items(problem: Problem) -> int:
    """How many different items a problem makes, `PLENTY` standing for that and more."""
    try:
        return drawer(problem).count(PLENTY)
    except Refusal:
        return 0


def _warnings(reading: Reading, curriculum: Curriculum, records: Path | None) -> Iterator[Fault]:
    """What is worth a look: editions and words first, then the lessons by file and line."""
    yield from edition_warnings(curriculum, reading.places, records)
    yield from _word_warnings(curriculum, reading.places)
    wording = {*reading_warnings(reading.documents)}
    wording |= {*typed_warnings(curriculum.shop, reading.documents)}
    yield from sorted(wording)


_COUNTS: dict[str, Callable[[Curriculum], int]] = {
    "modules": lambda c: len(c.modules),
    "lessons": lambda c: sum(len(m.lessons) for m in c.modules.values()),
    "points": lambda c: sum(len(x.points) for m in c.modules.values() for x in m.lessons),
    "questions": lambda c: sum(len(m.questions) for m in c.modules.values()),
    "problems": lambda c: len(c.problems),
    "relations": lambda c: len(c.relations),
    "figures": lambda c: sum(len(x.figures) for m in c.modules.values() for x in m.lessons),
}


def _relation_faults(curriculum: Curriculum, places: Places) -> Iterator[Fault]:
    """A relation's own examples must come out, each way they can be asked."""
    for relation in curriculum.relations.values():
        for number, example in enumerate(relation.examples, 1):
            try:
                _check_example(relation, example)
            except Refusal as refusal:
                what = f"{relation.id}, example {number}: {refusal.what}"
                yield Fault(*places["relation", relation.id], what, refusal.next)


def _check_example(relation: Relation, example: WorkedValue) -> None:
    """The last number of an example, or its word, is the answer of the others."""
    find = example.word[0] if example.word else list(example.values)[-1]
    given: dict[str, Value] = {n: v for n, v in example.values.items() if n != find}
    outcome = work(relation, given | dict(example.rows), find)
    if example.word:
        if outcome.word != example.word[1]:
            got = outcome.word or exact.decimal_text(outcome.value or Fraction(0), 4)
            raise Refusal(
                f"{find} comes out as {got}, not {example.word[1]}", "correct one of them"
            )
        return
    stated = example.values[find]
    if outcome.value is None:
        raise Refusal(f"{find} comes out as {outcome.word}", "correct the example")
    if exact.half_up(outcome.value, _last_place(stated)) != stated:
        got = exact.decimal_text(outcome.value, 6)
        raise Refusal(f"{find} comes out at {got}", "correct the example or the equation")


def _last_place(stated: Fraction) -> Fraction:
    """The step of the last decimal a published number is given to."""
    step = Fraction(1)
    while (stated / step).denominator != 1 and step > Fraction(1, 10**12):
        step /= 10
    return step


def _problem_faults(curriculum: Curriculum, places: Places) -> Iterator[Fault]:
    for problem in curriculum.problems:
        try:
            _check_problem(problem)
        except Refusal as refusal:
            what = f"{problem.id}: {refusal.what}"
            yield Fault(*places["problem", problem.id], what, refusal.next)


def _check_problem(problem: Problem) -> None:
    source = drawer(problem)
    found = source.count(ENOUGH)
    if not found:
        raise Refusal(
            "no allowed numbers: the slips can't be kept apart from the answer, or keep: is too "
            "strict",
            "widen draw:, use a finer mark:, or change a slip",
        )
    if found < ENOUGH:
        raise Refusal(
            f"only {found} different items can be drawn", f"widen draw: to make {ENOUGH} or more"
        )
    source.drawn(0)


def _word_warnings(curriculum: Curriculum, places: Places) -> Iterator[Fault]:
    """Problems whose word answers never come up: often so with the numbers of one shop only."""
    for problem in curriculum.problems:
        place = places["problem", problem.id]
        if problem.word_share and drawer(problem).count(1) and not drawer(problem).has_words:
            what = f"{problem.id}: with this shop's numbers no answer is a word"
            yield Fault(*place, what, "let it be, or widen draw:")
