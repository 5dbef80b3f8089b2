"""Drawing the numbers of a problem, and refusing those that could not be judged fairly.

A draw is allowed when its keep rules hold, the answer lies on a mark where it must be got, no two
slips give the same number, and the accepted range ends well before the nearest slip: its far end
is nearer to the exact answer than `NEAR` of the distance to any slip (a flat 5 % would mark the
1:20 misreading right).
"""

from __future__ import annotations

import gc
from collections.abc import Iterator
from dataclasses import dataclass, field
from fractions import Fraction
from functools import cached_property, lru_cache
from itertools import islice
from math import prod
from typing import NamedTuple

from generator.errors import Refusal
from generator.items.stream import Stream
from generator.maths import exact
from generator.maths.amounts import amount_text
from generator.maths.evaluate import Environment, Value, compiled
from generator.maths.trees import names
from generator.maths.units import NONE, Unit
from generator.model.problem import Problem, Slip
from generator.solving.answer import Outcome, Plan, plan
from generator.words import answer_word

NEAR = Fraction(45, 100)
NEAR_TURNED = 1 / NEAR
MOST_TRIES = 2000
MOST_LOOKED_AT = 20_000  # combinations, for an answer that is a word
Combination = tuple[int, ...]


class WrongWay(NamedTuple):
    """A slip with these numbers: its value (None for a word), and how many marks it rounds to."""

    slip: Slip
    value: Fraction | None
    marks: int


@dataclass(slots=True)
class Drawn:
    """Allowed numbers, the answer that follows from them, and what each slip makes of them."""

    given: Environment
    outcome: Outcome
    wrong: tuple[WrongWay, ...]
    kept: dict[str, object] = field(default_factory=dict, compare=False)  # what was made from it


class Drawer:
    """Draws for one problem; what follows from a combination of numbers is worked out once."""

    def __init__(self, problem: Problem) -> None:
        self.problem = problem
        self.unit = unit_of_answer(problem)
        drawn = frozenset(choice.column or choice.name for choice in problem.choices)
        self.plan: Plan = plan(problem.relation, drawn, problem.find)
        rules = [(compiled(tree), names(tree)) for tree in problem.keep]
        given = drawn | {choice.name for choice in problem.choices}
        self.early = tuple(rule for rule, used in rules if used <= given)
        self.keep = tuple((rule, used) for rule, used in rules if not used <= given)
        widest = problem.mark if problem.rounding != "nearest" else problem.mark / 2
        self.reach = NEAR_TURNED * widest
        self.least = Fraction(0) if problem.rounding == "up" else widest
        self.slips = tuple((s, compiled(s.gives) if s.gives else None) for s in problem.slips)
        rigs = [len(choice.values) for choice in problem.choices if choice.rig]
        self.rigs = rigs[0] if rigs else 1
        self.sizes = tuple(1 if c.rig else len(c.values) for c in problem.choices)
        self.columns: dict[str, list[str]] = {}  # the cells of each, row by row
        for choice in problem.choices:
            if choice.column:
                self.columns.setdefault(choice.column, []).append(choice.name)
        self.known: dict[Combination, Drawn | None] = {}

    def drawn(self, seed: int) -> Drawn:
        """The allowed numbers of a seed. Raises Refusal when none are found."""
        stream = Stream(self.problem.id, seed)
        share = self.problem.word_share
        want_word = bool(share) and stream.below(share.denominator) < share.numerator
        want_word = want_word and self.has_words
        for _ in range(MOST_TRIES):
            found = self.at((stream.below(self.rigs), *map(stream.below, self.sizes)))
            if found and bool(found.outcome.word) == want_word:
                return found
        kind = "a word as the answer" if want_word else "a number as the answer"
        raise Refusal(f"no allowed numbers with {kind} were found", "widen draw: or relax keep:")

    @cached_property
    def has_words(self) -> bool:
        """Whether a word can be the answer with this shop's numbers."""
        found = map(self.at, islice(self.combinations(), MOST_LOOKED_AT))
        return any(drawn.outcome.word for drawn in found if drawn)

    def combinations(self) -> Iterator[Combination]:
        """Every combination once, in a scattered order, so that a few show what is typical."""
        sizes = (self.rigs, *self.sizes)
        total = prod(sizes)
        stride = next(p for p in (7919, 104729, 611953, 1) if total % p or p == 1)
        for count in range(total):
            place = count * stride % total
            digits: list[int] = []
            for size in sizes:
                place, digit = divmod(place, size)
                digits.append(digit)
            yield tuple(digits)

    def count(self, enough: int | None = None) -> int:
        """How many distinct allowed draws there are, or `enough` as soon as so many are found."""
        found = 0
        for combination in self.combinations():
            found += self.at(combination) is not None
            if found == enough:
                break
        return found

    def at(self, combination: Combination) -> Drawn | None:
        """What follows from a combination, or None when it is not allowed."""
        try:
            return self.known[combination]
        except KeyError:
            result = self.known[combination] = self.worked(combination)
            return result

    def worked(self, combination: Combination) -> Drawn | None:
        """`at`, worked out afresh."""
        rig, *places = combination
        given: dict[str, Value] = {
            choice.name: choice.values[rig if choice.rig else place]
            for choice, place in zip(self.problem.choices, places, strict=True)
        }
        for name, cells in self.columns.items():
            given[name] = tuple(given[cell] for cell in cells)  # type: ignore[misc]
        try:
            for rule in self.early:
                if not rule(given):
                    return None
            outcome = self.plan.run(given)
            for rule, used in self.keep:
                if used <= outcome.env.keys() and not rule(outcome.env):
                    return None
        except Refusal:
            return None
        if outcome.word and not self.problem.word_share:
            return None
        wrong = self.wrong_ways(outcome)
        if not _can_be_told(wrong) or not self.is_apart(outcome.value, wrong):
            return None
        return Drawn(given, outcome, tuple(wrong))

    def is_apart(self, value: Fraction | None, wrong: list[WrongWay]) -> bool:
        """Whether an answer, None for a word, can be judged fairly beside these slips."""
        if value is None:
            return True
        if value <= self.least:  # the accepted range would begin at nothing
            return False
        mark = self.problem.mark
        marks = exact.marks(value, mark, self.problem.rounding)
        if self.problem.must and marks * mark != value:
            return False
        numbers = [way.value for way in wrong if way.value is not None]
        if exact.any_near(numbers, value, self.reach):
            return False
        return all(way.marks != marks for way in wrong)  # or it would print like the answer

    def wrong_ways(self, outcome: Outcome) -> list[WrongWay]:
        """The slips that give something above 0 here, and something else than the answer."""
        mark = self.problem.mark
        right = outcome.value.as_integer_ratio() if outcome.value else None
        ways: list[WrongWay] = []
        for slip, closure in self.slips:
            if closure is None:
                if slip.word != outcome.word:
                    ways.append(WrongWay(slip, None, 0))
                continue
            try:
                value: Fraction = closure(outcome.env)
            except (Refusal, KeyError):  # with these numbers there is no such wrong way
                continue
            if value.numerator > 0 and value.as_integer_ratio() != right:
                ways.append(WrongWay(slip, value, exact.marks(value, mark)))
        return ways

    def option(self, way: WrongWay) -> str:
        """What a slip looks like among the options; "" when it can't be offered."""
        if way.value is None:
            return answer_word(way.slip.word, self.problem.language)
        # One that rounds to nothing is a slip to look for, but no option to offer.
        return self.text(way.marks * self.problem.mark) if way.marks else ""

    def text(self, rounded: Fraction) -> str:
        """A rounded number as the answer and the options print it."""
        return amount_text(rounded, self.unit, self.problem.mark, self.problem.language)


def _can_be_told(wrong: list[WrongWay]) -> bool:
    """Whether no two slips give the same number, and two or more look different as options."""
    numbers = [way.value.as_integer_ratio() for way in wrong if way.value is not None]
    if len(set(numbers)) < len(numbers):
        return False
    return len({way.marks or way.slip.word for way in wrong} - {""}) >= 2


def accepted(value: Fraction, mark: Fraction, rounding: str) -> tuple[Fraction, Fraction, Fraction]:
    """The answer as printed, and the lowest and highest that are right, all included.

    "nearest": exact ± half a mark. "down": [exact − one mark, exact], towards the safe side.
    "up": [exact, exact + one mark].
    """
    answer = exact.rounded(value, mark, rounding)
    if rounding == "down":
        return answer, value - mark, value
    if rounding == "up":
        return answer, value, value + mark
    return answer, value - mark / 2, value + mark / 2


def unit_of_answer(problem: Problem) -> Unit:
    """The unit the answer is asked in; none for a verdict."""
    quantity = problem.relation.quantities.get(problem.find)
    return quantity.unit if quantity else NONE


@lru_cache(maxsize=512)
def drawer(problem: Problem) -> Drawer:
    """The drawer of a problem, made once. Raises Refusal when its relation can't be arranged."""
    made = Drawer(problem)
    # Drawers and what solved them stay to the end: the collector need not walk them each time.
    gc.freeze()
    return made
