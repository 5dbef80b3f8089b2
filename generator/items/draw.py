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


@dataclass(frozen=True)
class WrongWay:
    """A slip with these numbers: its value (None for a word) and its text as an option."""

    slip: Slip
    value: Fraction | None
    text: str


@dataclass(frozen=True)
class Drawn:
    """Allowed numbers with everything that follows from them.

    `answer` is rounded as asked; `low` and `high` are the accepted range; None for a word answer.
    """

    given: Environment
    outcome: Outcome
    answer: Fraction | None
    low: Fraction | None
    high: Fraction | None
    text: str
    wrong: tuple[WrongWay, ...]
    kept: dict[str, object] = field(default_factory=dict, compare=False)  # texts made from it


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
        self.slips = tuple((s, compiled(s.gives) if s.gives else None) for s in problem.slips)
        rigs = [len(choice.values) for choice in problem.choices if choice.rig]
        self.rigs = rigs[0] if rigs else 1
        self.sizes = tuple(1 if c.rig else len(c.values) for c in problem.choices)
        self.columns: dict[str, list[str]] = {}  # the cells of each, row by row
        for choice in problem.choices:
            if choice.column:
                self.columns.setdefault(choice.column, []).append(choice.name)
        self.texts: dict[int, str] = {}  # of so many marks
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
        given |= {name: tuple(given[c] for c in cells) for name, cells in self.columns.items()}  # type: ignore[misc]
        try:
            if not all(rule(given) for rule in self.early):
                return None
            outcome = self.plan.run(given)
            if not all(rule(outcome.env) for rule, used in self.keep if used <= outcome.env.keys()):
                return None
        except Refusal:
            return None
        return self.word_drawn(given, outcome) if outcome.word else self.judged(given, outcome)

    def word_drawn(self, given: Environment, outcome: Outcome) -> Drawn | None:
        """A draw whose answer is a word, if it can be asked."""
        text = answer_word(outcome.word, self.problem.language)
        values = self.slip_values(outcome)
        wrong = self.wrong_ways(values, text)
        if not self.problem.word_share or _options_in(wrong) < 2:
            return None
        if not _apart([slip for _, slip in values if slip is not None]):
            return None
        return Drawn(given, outcome, None, None, None, text, wrong)

    def judged(self, given: Environment, outcome: Outcome) -> Drawn | None:
        """A draw whose answer is a number, if it can be judged fairly."""
        value, mark = outcome.value, self.problem.mark
        assert value is not None
        answer, low, high = accepted(value, mark, self.problem.rounding)
        if low.numerator <= 0 or (self.problem.must and answer != value):
            return None
        values = self.slip_values(outcome)
        numbers = [slip for _, slip in values if slip is not None]
        if any(exact.is_near(slip, value, self.reach) for slip in numbers) or not _apart(numbers):
            return None
        text = amount_text(answer, self.unit, mark, self.problem.language)
        wrong = self.wrong_ways(values, text)
        if _options_in(wrong) < 2:
            return None
        return Drawn(given, outcome, answer, low, high, text, wrong)

    def slip_values(self, outcome: Outcome) -> list[tuple[Slip, Fraction | None]]:
        """The slips that give something above 0 here, and something else than the answer."""
        values: list[tuple[Slip, Fraction | None]] = []
        for slip, closure in self.slips:
            if closure is None:
                if slip.word != outcome.word:
                    values.append((slip, None))
                continue
            try:
                value: Fraction = closure(outcome.env)
            except (Refusal, KeyError):  # with these numbers there is no such wrong way
                continue
            if value.numerator > 0 and value != outcome.value:
                values.append((slip, value))
        return values

    def wrong_ways(
        self, values: list[tuple[Slip, Fraction | None]], right: str
    ) -> tuple[WrongWay, ...]:
        """The slips with their texts as options; none when one prints like the answer."""
        ways = tuple(WrongWay(slip, value, self.option(slip, value)) for slip, value in values)
        return ways if all(way.text != right for way in ways) else ()

    def option(self, slip: Slip, value: Fraction | None) -> str:
        """What a slip looks like among the options; "" when it can't be offered."""
        if value is None:
            return answer_word(slip.word, self.problem.language)
        marks = exact.marks(value, self.problem.mark)
        if not marks:  # one that rounds to nothing is a slip to look for, but no option to offer
            return ""
        if marks not in self.texts:
            shown, mark = marks * self.problem.mark, self.problem.mark
            self.texts[marks] = amount_text(shown, self.unit, mark, self.problem.language)
        return self.texts[marks]


def _apart(numbers: list[Fraction]) -> bool:
    """Whether no two wrong ways give the same number, so that each can be told by it."""
    return len({(each.numerator, each.denominator) for each in numbers}) == len(numbers)


def _options_in(wrong: tuple[WrongWay, ...]) -> int:
    return len({way.text for way in wrong} - {""})


def accepted(value: Fraction, mark: Fraction, rounding: str) -> tuple[Fraction, Fraction, Fraction]:
    """The answer as printed, and the lowest and highest that are right, all included.

    "nearest": exact ± half a mark. "down": [exact − one mark, exact], towards the safe side.
    "up": [exact, exact + one mark].
    """
    if rounding == "down":
        return exact.down(value, mark), value - mark, value
    if rounding == "up":
        return exact.up(value, mark), value, value + mark
    half = mark / 2
    return exact.half_up(value, mark), value - half, value + half


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
