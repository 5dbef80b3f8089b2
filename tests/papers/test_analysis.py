"""Item analysis and intervals: laws, and what is said where nothing can be said."""

from __future__ import annotations

from statistics import correlation, pvariance

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.stats import binomtest

from generator.papers.analysis import kr20, kr21, mean, point_biserial, variance, wilson

COUNTS = st.integers(1, 300).flatmap(lambda of: st.tuples(st.integers(0, of), st.just(of)))
SCORES = st.lists(st.integers(0, 24), min_size=2, max_size=30)


@given(COUNTS)
def test_the_interval_is_that_of_scipy(count: tuple[int, int]) -> None:
    right, of = count
    expected = binomtest(right, of).proportion_ci(method="wilson")
    assert wilson(right, of) == pytest.approx((expected.low, expected.high), abs=1e-9)


@given(COUNTS)
def test_the_interval_holds_the_share_and_mirrors(count: tuple[int, int]) -> None:
    right, of = count
    low, high = wilson(right, of)
    assert low - 1e-12 <= right / of <= high + 1e-12
    assert wilson(of - right, of) == pytest.approx((1 - high, 1 - low))


def test_of_nobody_everything_is_possible() -> None:
    assert wilson(0, 0) == (0.0, 1.0)


@given(SCORES)
def test_variance_is_over_all(scores: list[int]) -> None:
    assert variance(scores) == pytest.approx(pvariance(scores))
    assert mean([]) == variance([]) == 0


@given(st.lists(st.tuples(st.booleans(), st.integers(0, 24)), min_size=3, max_size=30))
def test_point_biserial_is_the_usual_correlation(pairs: list[tuple[bool, int]]) -> None:
    right, scores = [int(one) for one, _ in pairs], [score for _, score in pairs]
    found = point_biserial(right, scores)
    if len(set(right)) == 1 or len(set(scores)) == 1:
        assert found is None
    else:
        assert found == pytest.approx(correlation(right, scores))


def test_items_that_always_agree_are_wholly_reliable() -> None:
    assert kr20([[1, 1, 1], [0, 0, 0], [1, 1, 1]]) == pytest.approx(1)
    assert kr20([[1, 0], [0, 1]]) is None  # every score is 1: nothing varies
    assert kr20([]) is kr20([[1], [0]]) is kr21(1, 0.5, 0.25) is kr21(24, 20, 0) is None


@given(st.lists(st.lists(st.integers(0, 1), min_size=6, max_size=6), min_size=3, max_size=12))
def test_formula_21_never_says_more_than_formula_20(rows: list[list[int]]) -> None:
    scores = [sum(row) for row in rows]
    full, short = kr20(rows), kr21(6, mean(scores), variance(scores))
    assert (full is None) == (short is None)
    if full is not None and short is not None:
        assert short <= full + 1e-9
