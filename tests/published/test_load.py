"""Ladders, loads, the sums of the road and prices against published and worked figures."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from math import acos, cos, degrees, radians, sqrt

import pytest

from generator.items.draw import drawer
from generator.maths.evaluate import Value
from generator.maths.units import convert, parse_unit
from generator.model.course import Curriculum
from generator.solving.answer import Outcome, work

F = Fraction
Row = tuple[str, ...]


def of_rows(
    curriculum: Curriculum, name: str, rows: Sequence[Row], find: str, **given: str
) -> Outcome:
    relation = curriculum.relations[name]
    columns = zip(relation.columns, zip(*rows, strict=True), strict=True)
    numbers: dict[str, Value] = {name: F(value) for name, value in given.items()}
    numbers |= {column: tuple(map(F, cells)) for column, cells in columns}
    return work(relation, numbers, find)


# Trade arithmetic, re-computed. Each row: packages, gallons in each, pounds a gallon, empty weight.
SUMS: list[tuple[str, list[Row], str, str]] = [
    ("mot-load", [("6", "5", "9.75", "2")], "304.5", "may-go"),
    ("mot-load", [("2", "15", "9.75", "5")], "302.5", "package-too-big"),
    ("mot-load", [("1", "55", "9.75", "25")], "561.25", "package-too-big"),
    ("placard", [("1", "55", "9.75", "25"), ("1", "55", "9.75", "25")], "1122.5", "placard"),
    ("placard", [("1", "55", "9.75", "25")], "561.25", "no-placard"),
    ("placard", [("1", "120", "9.75", "0")], "1170", "bulk-tank"),
]


@pytest.mark.parametrize(("name", "rows", "gross", "verdict"), SUMS)
def test_a_sum_of_the_road(
    curriculum: Curriculum, name: str, rows: list[Row], gross: str, verdict: str
) -> None:
    assert of_rows(curriculum, name, rows, "gross").value == F(gross)
    assert of_rows(curriculum, name, rows, "verdict").word == verdict


def test_a_package_of_eight_gallons_of_stock_is_over_the_weight(curriculum: Curriculum) -> None:
    # 49 CFR 173.6(a)(1) (seen): 30 kg or 30 L. 8 gal of stock weigh 78 lb, so the stricter one
    # is the weight; six gallons and a light jug stay under it.
    big = of_rows(curriculum, "mot-load", [("1", "8", "9.75", "0")], "verdict")
    assert big.env["heaviest"] == 78
    assert big.word == "package-too-big"
    small = of_rows(curriculum, "mot-load", [("1", "6", "9.75", "2")], "verdict")
    assert small.word == "may-go"


def test_a_load_at_its_very_limit(curriculum: Curriculum) -> None:
    # "Not over 440 lb" lets 440 go; placards start at 1,001 lb itself, and bulk above 119 gal.
    assert of_rows(curriculum, "mot-load", [("44", "1", "9", "1")], "verdict").word == "may-go"
    assert of_rows(curriculum, "placard", [("7", "1", "142", "1")], "verdict").word == "placard"
    assert of_rows(curriculum, "placard", [("1", "119", "8", "0")], "verdict").word == "no-placard"


# The rules state metric figures; the pounds and gallons are theirs. 49 CFR 173.6 (seen), trade
# press on 173.6(d) and the CDL handbook of North Carolina (copies).
LIMITS = [
    ("mot-load", "package_lb", "30", "kg"),
    ("mot-load", "package_gal", "30", "L"),
    ("mot-load", "total_lb", "200", "kg"),
    ("placard", "limit_lb", "454", "kg"),
]


@pytest.mark.parametrize(("name", "constant", "metric", "unit"), LIMITS)
def test_limits_are_the_metric_ones(
    curriculum: Curriculum, name: str, constant: str, metric: str, unit: str
) -> None:
    limit = curriculum.relations[name].constants[constant]
    assert abs(convert(F(metric), parse_unit(unit), limit.unit) - limit.value) < 1


def test_limits_by_another_library(curriculum: Curriculum) -> None:
    pint = pytest.importorskip("pint")
    units = pint.UnitRegistry()
    for name, constant, metric, unit in LIMITS:
        limit = curriculum.relations[name].constants[constant]
        ours = units.Quantity(float(limit.value), {"lb": "lb", "gal": "gallon"}[limit.unit.text])
        assert ours.to(unit).magnitude == pytest.approx(float(metric), rel=0.01)


def test_pounds_of_hypochlorite_for_a_pound_of_chlorine(curriculum: Curriculum) -> None:
    # One NaOCl for one Cl2 of available chlorine.
    molmass = pytest.importorskip("molmass")
    ratio = molmass.Formula("NaOCl").mass / molmass.Formula("Cl2").mass
    for name in ("rq-pounds", "rq-spill"):
        constant = curriculum.relations[name].constants["heavier"].value
        assert float(constant) == pytest.approx(ratio, rel=2e-4)


def test_a_gallon_of_water_by_another_library(curriculum: Curriculum) -> None:
    # IAPWS-95 at 15 °C: 999.1 kg/m3, 8.338 lb/gal.
    pint = pytest.importorskip("pint")
    gallon = pint.UnitRegistry().Quantity(999.1, "kg/m**3").to("lb/gallon").magnitude
    for name in ("liquid-load", "rq-pounds", "rq-spill"):
        constant = curriculum.relations[name].constants["per_gal"].value
        assert float(constant) == pytest.approx(gallon, rel=1e-3)


def test_what_got_out_in_a_day_counts_together(curriculum: Curriculum) -> None:
    both = of_rows(curriculum, "rq-spill", [("60", "12.5"), ("40", "10")], "lb").value
    one = work(curriculum.relations["rq-pounds"], {"gal": F(60), "trade_pct": F("12.5")}, "lb")
    two = work(curriculum.relations["rq-pounds"], {"gal": F(40), "trade_pct": F(10)}, "lb")
    assert one.value is not None
    assert two.value is not None
    assert both == one.value + two.value


def test_a_job_at_a_margin(curriculum: Curriculum) -> None:
    # Trade arithmetic, re-computed: 4.8 gal at $3.50 and 30 oz at $0.20; $180 at 40 %.
    chemicals = [("4.8", "3.50"), ("30", "0.20")]
    assert of_rows(curriculum, "price", chemicals, "cost").value == F("22.8")
    assert of_rows(curriculum, "price", [("1", "180")], "price", margin="0.4").value == 300


def test_feet_of_ladder_for_a_foot_of_height(curriculum: Curriculum) -> None:
    # At a quarter the height is sqrt(15)/4 of the ladder; 1.033 is that upside down, rounded up.
    slope = float(curriculum.relations["ladder-size"].constants["slope"].value)
    exact = 4 / sqrt(15)
    assert exact <= slope < exact + 0.0005


def test_a_quarter_of_the_support_length_not_of_the_height(curriculum: Curriculum) -> None:
    # 29 CFR 1926.1053(a)(1)(ii) (copy) tests ladders at 75 1/2 degrees.
    foot = work(curriculum.relations["ladder-foot"], {"working_ft": F(24)}, "foot_ft").value
    assert foot is not None
    assert degrees(acos(float(foot) / 24)) == pytest.approx(75.5, abs=0.05)
    assert 24 * cos(radians(75.5)) == pytest.approx(float(foot), abs=0.02)


def test_every_drawn_rating_is_a_published_one(curriculum: Curriculum) -> None:
    # Cal/OSHA eTool, selecting a ladder (seen): IAA 375, IA 300, I 250, II 225, III 200 lb.
    published = {F(375), F(300), F(250), F(225), F(200)}
    for name in ("ladder-weight", "ladder-may-climb"):
        problem = curriculum.problem(name)
        assert problem
        ratings = next(choice for choice in problem.choices if choice.name == "rating_lb")
        assert set(ratings.values) <= published


def test_loads_can_be_over_the_rating(curriculum: Curriculum) -> None:
    # A test of 210 + 12 + 15 + 8 + 5 = 250 lb on 250: at the limit. All three words must come.
    problem = curriculum.problem("ladder-may-climb")
    assert problem
    words = [drawer(problem).drawn(seed).outcome.word for seed in range(200)]
    assert {words.count(word) > 10 for word in ("climb", "at-the-limit", "do-not-climb")} == {True}


@pytest.mark.parametrize("name", ["mot-verdict", "placard-verdict"])
def test_every_verdict_of_the_road_comes_up(curriculum: Curriculum, name: str) -> None:
    problem = curriculum.problem(name)
    assert problem
    words = [drawer(problem).drawn(seed).outcome.word for seed in range(200)]
    assert len(set(words)) == 3
    assert min(words.count(word) for word in set(words)) > 20
