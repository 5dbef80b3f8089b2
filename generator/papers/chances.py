"""The chance that a paper is passed, worked exactly.

The model is plain: a person who knows a share of a module knows each item of a paper with that
chance, one item apart from the others. What is known is answered rightly; what is not known is
wrong when it is written in, and guessed right one time in three when it is chosen from three.

Half points are left out: where an item may also give half, and what is known is the share of all
points, the sum spreads less round its mean, so that fewer of those pass who are well below the cut.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from itertools import accumulate
from math import comb, lcm, prod

from generator.model.paper import IN_A_ROW

GUESS = Fraction(1, 3)
"""The chance to choose the right one of three without knowing."""


@dataclass(frozen=True)
class Must:
    """A must-get of a paper: how often it stands there, and whether it is chosen or written in."""

    copies: int
    chosen: bool


@dataclass(frozen=True)
class Rule:
    """What a paper asks, its must-gets among the rest, and what passing takes."""

    write_in: int
    choice: int
    cut: int
    tries: int = 1
    must: tuple[Must, ...] = ()

    @property
    def items(self) -> int:
        """Items on one paper."""
        return self.write_in + self.choice

    def plain(self, chosen: bool) -> int:
        """The items of one form that are no must-gets."""
        asked = self.choice if chosen else self.write_in
        return asked - sum(must.copies for must in self.must if must.chosen is chosen)


@dataclass(frozen=True)
class Limits:
    """What an owner can live with over all tries: shares known, and chances, from 0 to 1.

    Of people who know `low`, at most `false_pass` may pass; of those who know `high`, at most
    `false_fail` may be turned away.
    """

    low: Fraction = Fraction(70, 100)
    false_pass: Fraction = Fraction(5, 100)
    high: Fraction = Fraction(95, 100)
    false_fail: Fraction = Fraction(2, 100)


def either(chances: Iterable[Fraction]) -> Fraction:
    """The chance that at least one of several things happens, none of them bound to another."""
    return 1 - prod((1 - chance for chance in chances), start=Fraction(1))


def asked_aloud(knows: Fraction) -> Fraction:
    """The chance to put a missed must-get right aloud: fresh items, all right, nothing to guess."""
    return knows**IN_A_ROW


def one_try(rule: Rule, knows: Fraction, mended: Fraction | None = None) -> Fraction:
    """The chance to pass one paper.

    `mended` is the chance that a missed must-get is put right aloud; if none is given, that of a
    person who knows as much aloud as on paper.
    """
    mended = asked_aloud(knows) if mended is None else mended
    return _reaching(rule, knows, mended)[rule.cut]


def all_tries(rule: Rule, knows: Fraction) -> Fraction:
    """The chance to pass within the tries of the rule, each on a new paper, nothing learnt."""
    return either([one_try(rule, knows)] * rule.tries)


def needs_asking(rule: Rule, knows: Fraction) -> Fraction:
    """The chance that a paper has enough right but a must-get missed, to be asked aloud."""
    return one_try(rule, knows, Fraction(1)) - one_try(rule, knows, Fraction(0))


def keeps(rule: Rule, limits: Limits) -> bool:
    """Whether the rule keeps both limits."""
    return (
        all_tries(rule, limits.low) <= limits.false_pass
        and 1 - all_tries(rule, limits.high) <= limits.false_fail
    )


def shortest(rules: Iterable[Rule], limits: Limits) -> Rule | None:
    """The first of the rules that keeps the limits with some cut, at the lowest such cut."""
    return next((found for rule in rules if (found := _with_cut(rule, limits))), None)


def _with_cut(rule: Rule, limits: Limits) -> Rule | None:
    """The rule at the lowest cut few enough pass; None when there too many are turned away."""
    low = _reaching(rule, limits.low, asked_aloud(limits.low))
    high = _reaching(rule, limits.high, asked_aloud(limits.high))
    for cut, (passes, passes_high) in enumerate(zip(low, high, strict=True)):
        if either([passes] * rule.tries) <= limits.false_pass:
            turned_away = 1 - either([passes_high] * rule.tries)
            return replace(rule, cut=cut) if turned_away <= limits.false_fail else None
    return None


def _reaching(rule: Rule, knows: Fraction, mended: Fraction) -> list[Fraction]:
    """For each cut from 0 to all: the chance of so many right, each missed must-get mended."""
    right = {True: knows + (1 - knows) * GUESS, False: knows}
    whole = lcm(*(chance.denominator for chance in (*right.values(), mended)))
    hit = {form: int(chance * whole) for form, chance in right.items()}
    counts = [1]
    for form in (True, False):
        counts = _joined(counts, _spread(rule.plain(form), whole - hit[form], hit[form]))
    for must in rule.must:
        spread = _spread(must.copies, whole - hit[must.chosen], hit[must.chosen])
        missed = [int(mended * whole) * count for count in spread[:-1]]
        counts = _joined(counts, [*missed, whole * spread[-1]])
    parts = whole ** (rule.items + len(rule.must))
    return [Fraction(count, parts) for count in _from_above(counts)]


def _spread(items: int, miss: int, hit: int) -> list[int]:
    """The weight of 0, 1, … `items` right, where each is missed or hit with these weights."""
    return [comb(items, right) * miss ** (items - right) * hit**right for right in range(items + 1)]


def _joined(first: Sequence[int], second: Sequence[int]) -> list[int]:
    """The weights of the sum of two counts."""
    joined = [0] * (len(first) + len(second) - 1)
    for place, weight in enumerate(first):
        for further, other in enumerate(second, start=place):
            joined[further] += weight * other
    return joined


def _from_above(counts: Sequence[int]) -> list[int]:
    """For each place the sum from there to the end."""
    return list(accumulate(reversed(counts)))[::-1]
