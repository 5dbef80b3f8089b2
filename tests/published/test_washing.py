"""Washing against worked figures, geometry, and a wall washed patch by patch.

Coverage, reserve and dwell times are the owner's settings: common practice, no source.
"""

from __future__ import annotations

from fractions import Fraction
from math import floor, hypot

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.model.course import Curriculum
from generator.solving.answer import work

F = Fraction
PATCHES = 50
SPEEDS = st.integers(10, 120)
AREAS = st.integers(50, 2000)
WAITS = st.integers(0, 15)


def found(curriculum: Curriculum, relation: str, find: str, **numbers: int | Fraction) -> Fraction:
    value = work(curriculum.relations[relation], {n: F(v) for n, v in numbers.items()}, find).value
    assert value is not None
    return value


def wet_times(apply: int, rinse: int, wait: int, area: int, turned: bool) -> list[Fraction]:
    """How long each patch of a wall is wet, followed edge by edge with a clock."""
    edges = [F(area * n, PATCHES) for n in range(PATCHES + 1)]
    start = F(area, apply) + wait
    return [start + (area - e if turned else e) / F(rinse) - e / F(apply) for e in edges]


@given(apply=SPEEDS, rinse=SPEEDS, wait=WAITS, area=AREAS)
def test_no_patch_of_a_wall_is_wet_longer_in_the_same_order(
    curriculum: Curriculum, apply: int, rinse: int, wait: int, area: int
) -> None:
    longest = found(curriculum, "dwell", "longest", apply=apply, rinse=rinse, wait=wait, area=area)
    assert longest == max(wet_times(apply, rinse, wait, area, turned=False))


@given(apply=SPEEDS, rinse=SPEEDS, wait=WAITS, area=AREAS)
def test_no_patch_of_a_wall_is_wet_longer_in_the_reverse_order(
    curriculum: Curriculum, apply: int, rinse: int, wait: int, area: int
) -> None:
    times = wet_times(apply, rinse, wait, area, turned=True)
    longest = found(
        curriculum, "dwell-reverse", "longest", apply=apply, rinse=rinse, wait=wait, area=area
    )
    assert longest == max(times)
    assert min(times) == wait  # the newest patch gets the wait alone


@given(apply=SPEEDS, rinse=SPEEDS, wait=WAITS, spare=st.integers(1, 15))
def test_the_reverse_order_takes_a_smaller_section(
    curriculum: Curriculum, apply: int, rinse: int, wait: int, spare: int
) -> None:
    numbers = {"apply": apply, "rinse": rinse, "wait": wait, "longest": wait + spare}
    same = found(curriculum, "dwell", "area", **numbers)
    turned = found(curriculum, "dwell-reverse", "area", **numbers)
    assert same / 2 <= turned < same


@pytest.mark.parametrize("name", ["dwell", "dwell-reverse"])
def test_a_wait_that_is_too_long_leaves_no_section(curriculum: Curriculum, name: str) -> None:
    numbers = {"apply": F(60), "rinse": F(60), "wait": F(12), "longest": F(12)}
    assert work(curriculum.relations[name], numbers, "area").word == "cannot"


@pytest.mark.parametrize("rise", range(1, 19))
def test_a_roof_is_as_long_as_its_triangle(curriculum: Curriculum, rise: int) -> None:
    area = found(curriculum, "roof-area", "area", footprint=1200, rise=rise)
    assert float(area) == pytest.approx(1200 * hypot(rise, 12) / 12, abs=1e-9)
    factor = found(curriculum, "roof-area", "factor", footprint=1200, rise=rise)
    assert abs(area - 1200 * factor) < F(1, 10**30)


def test_walls_with_gables_by_the_surveyors_formula(curriculum: Curriculum) -> None:
    # Two gable ends and two plain sides, each a polygon of its corners.
    corners = [(0, 0), (30, 0), (30, 10), (15, 18), (0, 10)]
    turned = zip(corners, [*corners[1:], corners[0]], strict=True)
    end = abs(sum(x * v - u * y for (x, y), (u, v) in turned)) / 2
    sides = 2 * (160 / 2 - 30) * 10
    area = found(curriculum, "wall-area", "area", around=160, height=10, gables=2, base=30, rise=8)
    assert area == 2 * end + sides


def test_only_a_whole_job_is_a_job(curriculum: Curriculum) -> None:
    assert floor(found(curriculum, "jobs-left", "jobs", left=38, kept=0, each=9)) == 4


def test_water_of_wash_and_rinse_in_another_library(curriculum: Curriculum) -> None:
    pint = pytest.importorskip("pint")
    unit = pint.UnitRegistry()
    flows = 5 * unit.gal / unit.min * 12 * unit.min + 8 * unit.gal / unit.min * 40 * unit.min
    gallons = found(
        curriculum, "wash-water", "gal", wash_gpm=5, wash_min=12, rinse_gpm=8, rinse_min=40
    )
    assert flows.to("gal").magnitude == pytest.approx(float(gallons))
