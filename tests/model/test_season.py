"""Review days: between the gaps that studies found best, longer and longer, within the season."""

from __future__ import annotations

from datetime import date
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.model.season import Season, first_gap, review_days

LENGTHS = st.integers(7, 366)


@pytest.mark.parametrize(
    ("days", "expected"),
    [
        (7, (1, 3)),
        (30, (2, 5, 15)),
        (60, (2, 9, 27)),
        (180, (2, 7, 22, 66)),
        (365, (2, 7, 27, 81, 243)),
    ],
)
def test_review_days_of_a_season(days: int, expected: tuple[int, ...]) -> None:
    assert review_days(days) == expected


@given(LENGTHS)
def test_the_days_are_in_order_and_within_the_season(days: int) -> None:
    found = review_days(days)

    assert list(found) == sorted(set(found))
    assert found[0] >= 1
    assert found[-1] <= days


@given(LENGTHS)
def test_the_first_gap_is_what_studies_found_best(days: int) -> None:
    gap = first_gap(days)

    if days <= 60:
        assert Fraction(10, 100) <= gap <= Fraction(20, 100)
    if days >= 365:
        assert Fraction(5, 100) <= gap <= Fraction(10, 100)


@given(LENGTHS)
def test_no_review_is_left_out_at_the_end(days: int) -> None:
    assert review_days(days)[-1] * 3 > days


def test_dates_follow_from_the_first_day_over_the_end_of_a_month() -> None:
    season = Season(180, date(2026, 4, 20))

    assert season.reviews()[:2] == ((2, "2026-04-22"), (7, "2026-04-27"))
    assert season.reviews()[2] == (22, "2026-05-12")


def test_without_a_first_day_the_dates_are_left_blank() -> None:
    assert {when for _, when in Season(90).reviews()} == {""}
