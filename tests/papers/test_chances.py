"""Chances of passing: against every outcome counted one by one, against scipy, and their laws."""

from __future__ import annotations

from fractions import Fraction
from itertools import product
from math import prod

import pytest
from hypothesis import given
from hypothesis import strategies as st
from numpy import convolve
from scipy.stats import binom

from generator.papers.chances import (
    GUESS,
    Limits,
    Must,
    Rule,
    all_tries,
    asked_aloud,
    either,
    keeps,
    needs_asking,
    one_try,
    shortest,
)

F = Fraction
SHARES = st.fractions(F(0), F(1), max_denominator=40)
MUSTS = st.lists(st.builds(Must, st.integers(1, 3), st.booleans()), max_size=3).map(tuple)


def hit(chosen: bool, knows: Fraction) -> Fraction:
    return knows + (1 - knows) / 3 if chosen else knows


def one_by_one(rule: Rule, knows: Fraction, mended: Fraction) -> Fraction:
    """Every way a paper can turn out, each with its chance; nothing clever."""
    forms = [(chosen, None) for chosen in (True, False) for _ in range(rule.plain(chosen))]
    forms += [(must.chosen, n) for n, must in enumerate(rule.must) for _ in range(must.copies)]
    total = F(0)
    for outcome in product((True, False), repeat=len(forms)):
        pairs = list(zip(forms, outcome, strict=True))
        chance = prod(
            (hit(form[0], knows) if right else 1 - hit(form[0], knows) for form, right in pairs),
            start=F(1),
        )
        missed = {form[1] for form, right in pairs if not right and form[1] is not None}
        if sum(outcome) >= rule.cut:
            total += chance * mended ** len(missed)
    return total


@st.composite
def rules(draw: st.DrawFn) -> Rule:
    must = draw(MUSTS)
    asked = {c: sum(m.copies for m in must if m.chosen is c) for c in (True, False)}
    write_in, choice = (asked[c] + draw(st.integers(0, 2)) for c in (False, True))
    cut = draw(st.integers(0, write_in + choice))
    return Rule(write_in, choice, cut, draw(st.integers(1, 3)), must)


@given(rules(), SHARES, SHARES)
def test_it_is_what_counting_every_outcome_gives(
    rule: Rule, knows: Fraction, mended: Fraction
) -> None:
    assert one_try(rule, knows, mended) == one_by_one(rule, knows, mended)


def test_a_missed_must_get_needs_two_right_in_a_row() -> None:
    rule = Rule(1, 0, 0, must=(Must(1, chosen=False),))
    assert asked_aloud(F(1, 2)) == F(1, 4)
    assert one_try(rule, F(1, 2)) == F(1, 2) + F(1, 2) * F(1, 4)
    assert needs_asking(rule, F(1, 2)) == F(1, 2)


def test_a_must_get_that_stands_twice_is_asked_aloud_once() -> None:
    rule = Rule(2, 0, 0, must=(Must(2, chosen=False),))
    assert one_try(rule, F(1, 2), F(1, 4)) == F(1, 4) + F(3, 4) * F(1, 4)


@pytest.mark.parametrize("items", range(5, 31))
@pytest.mark.parametrize("knows", [0.6, 0.7, 0.95])
def test_it_agrees_with_scipy(items: int, knows: float) -> None:
    exact = F(str(knows))
    for choice in {0, items // 4, items // 2, items}:
        asked = (choice, float(hit(True, exact))), (items - choice, knows)
        chosen, written = (binom.pmf(range(n + 1), n, chance) for n, chance in asked)
        passes = convolve(chosen, written)[::-1].cumsum()[::-1]
        for cut in range(items // 2, items + 1):
            found = one_try(Rule(items - choice, choice, cut), exact)
            assert abs(float(found) - passes[cut]) < 1e-6, (choice, cut)


@given(rules(), SHARES, SHARES)
def test_who_knows_more_passes_as_often_or_oftener(
    rule: Rule, one: Fraction, other: Fraction
) -> None:
    less, more = sorted((one, other))
    assert all_tries(rule, less) <= all_tries(rule, more)


@given(rules(), SHARES)
def test_more_tries_let_more_pass(rule: Rule, knows: Fraction) -> None:
    once = one_try(rule, knows)
    assert all_tries(rule, knows) == 1 - (1 - once) ** rule.tries >= once


def test_one_of_several_is_one_less_none_of_them() -> None:
    assert either([F(1, 2), F(1, 3)]) == F(2, 3)
    assert either([]) == 0


def test_guessing_alone_is_one_in_three() -> None:
    assert one_try(Rule(0, 1, 1), F(0)) == GUESS == F(1, 3)


def test_the_shortest_rule_keeps_the_limits_and_none_before_it_does() -> None:
    limits, tried = Limits(), [Rule(n - n // 4, n // 4, 0, 2) for n in range(1, 40)]
    found = shortest(tried, limits)
    assert found
    assert keeps(found, limits)
    shorter = [
        Rule(rule.write_in, rule.choice, cut, 2)
        for rule in tried[: found.items - 1]
        for cut in range(rule.items + 1)
    ]
    assert not any(keeps(rule, limits) for rule in shorter)
    lower = Rule(found.write_in, found.choice, found.cut - 1, 2)
    assert not keeps(lower, limits)


def test_where_no_rule_keeps_the_limits_there_is_none() -> None:
    assert shortest([Rule(n, 0, 0) for n in range(1, 9)], Limits()) is None
    assert shortest([], Limits()) is None


@pytest.mark.parametrize(("items", "cut"), [(24, 22), (20, 18), (15, 13), (10, 8)])
@pytest.mark.parametrize("points", [Fraction(6, 10), Fraction(7, 10), Fraction(8, 10)])
def test_half_points_make_a_false_pass_rarer(items: int, cut: int, points: Fraction) -> None:
    """Of two who earn the same share of all points, the one with halves reaches the cut less."""
    without = one_try(Rule(items, 0, cut), points)
    for half in (Fraction(1, 20), Fraction(2, 10), 2 * (1 - points)):
        weights = [1 - points - half / 2, half, points - half / 2]  # of 0, 1 and 2 halves
        earned = [Fraction(1)]
        for _ in range(items):
            earned = [
                sum(
                    (weights[n] * earned[at - n] for n in range(3) if 0 <= at - n < len(earned)),
                    Fraction(0),
                )
                for at in range(len(earned) + 2)
            ]
        assert sum(earned) == 1
        assert sum(earned[2 * cut :]) < without
