"""Mixing against published figures: strengths, parts, neat product, blends."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

import pytest

from generator.maths.exact import half_up
from generator.maths.units import convert, parse_unit
from generator.model.course import Curriculum
from generator.solving.answer import work

TABLE = "published_mixing.txt"
F = Fraction


def test_a_published_figure_comes_out(curriculum: Curriculum, published: Any) -> None:
    find, _, unit = published.find.partition("_")
    relation = curriculum.relations[published.relation]
    if published.find in relation.quantities:
        find, unit = published.find, ""
    value = work(relation, published.given, find).value
    assert value is not None
    if unit:
        value = convert(value, relation.quantities[find].unit, parse_unit(unit))
    assert abs(value - published.published) <= published.within, published.source


def test_rows_say_where_they_come_from(published: Any) -> None:
    assert published.status in ("seen", "copy", "worked")
    assert len(published.source) > 10
    assert published.within <= abs(published.published) / 10


# MoDOT Engineering Policy Guide 821.15.1 (seen), 1 1/2 pints: three of its figures are wrong.
MISPRINTS = [(5, "1.1", "1.2"), (6, "1.3", "1.44"), (8, "1.6", "1.92")]


@pytest.mark.parametrize(("percent", "printed", "right"), MISPRINTS)
def test_three_published_figures_are_wrong(
    curriculum: Curriculum, percent: int, printed: str, right: str
) -> None:
    given = {"stock": F(100), "target": F(percent), "total": F(3, 16)}
    gallons = work(curriculum.relations["batch"], given, "amount").value
    assert gallons is not None
    ounces = convert(gallons, parse_unit("gal"), parse_unit("floz"))
    assert ounces == F(right)
    assert half_up(ounces, F("0.1")) != F(printed)


# GTFCC cholera outbreak manual, appendices 9 and 14 (seen): mL of 5 % bleach, the printed percent,
# and the way of making it that the printed percent fits.
CHOLERA = [
    (10, "0.05", "made up"),
    (40, "0.2", "made up"),
    (400, "2", "made up"),
    (250, "1", "added"),
]


@pytest.mark.parametrize(("ml", "printed", "way"), CHOLERA)
def test_the_cholera_rows_follow_two_conventions(
    curriculum: Curriculum, ml: int, printed: str, way: str
) -> None:
    share = {"stock": F(5), "fraction": F(ml, 1000)}
    parts = {"stock": F(5), "water_parts": F(1000, ml)}
    made_up = work(curriculum.relations["share"], share, "strength").value
    added = work(curriculum.relations["parts"], parts, "strength").value
    fits = {"made up": made_up, "added": added}
    assert fits.pop(way) == F(printed)
    assert fits.popitem()[1] != F(printed)


# GTFCC (seen) and WHO Laboratory Biosafety Manual table 12 (copy): grams of a powder for a litre.
POWDERS = [
    (70, "0.7", "0.05", "0.001"),
    (70, "3", "0.2", "0.01"),
    (70, "30", "2", "0.1"),
    (70, "15", "1", "0.05"),
    (70, "1.4", "0.1", "0.002"),
    (70, "7", "0.5", "0.01"),
    (60, "1.7", "0.1", "0.002"),
    (60, "8.5", "0.5", "0.01"),
]


@pytest.mark.parametrize(("strength", "grams", "printed", "within"), POWDERS)
def test_powders_by_weight(
    curriculum: Curriculum, strength: int, grams: str, printed: str, within: str
) -> None:
    share = {"stock": F(strength), "fraction": F(grams) / 1000}  # a litre weighs 1,000 g
    value = work(curriculum.relations["share"], share, "strength").value
    assert value is not None
    assert abs(value - F(printed)) <= F(within)


def test_chlorine_dose_of_a_tank(curriculum: Curriculum) -> None:
    # California SWRCB, Example Calculations of Chlorine Dosage (2018), equation 1A (copy):
    # 11 gal of 0.5 % sodium hypochlorite in 40,000 gal is 1.31 mg/L as chlorine.
    share = {"stock": F("0.5"), "fraction": F(11, 40_000)}
    percent = work(curriculum.relations["share"], share, "strength").value
    assert percent is not None
    hypochlorite = convert(percent, parse_unit("%"), parse_unit("ppm"))  # mg/L in water
    assert half_up(hypochlorite * F("70.906") / F("74.442"), F("0.01")) == F("1.31")


def test_chlorine_dose_of_a_stream(curriculum: Curriculum) -> None:
    # California SWRCB, equation 2A (copy): 40 mL/min of 0.25 % into 35 gpm is 0.72 mg/L.
    draw = convert(F(40), parse_unit("mL/min"), parse_unit("gpm"))
    given = {"stock": F("0.25"), "draw_gpm": draw, "machine_gpm": F(35) - draw}
    percent = work(curriculum.relations["siphon"], given, "strength").value
    assert percent is not None
    hypochlorite = convert(percent, parse_unit("%"), parse_unit("ppm"))
    assert half_up(hypochlorite * F("70.906") / F("74.442"), F("0.01")) == F("0.72")


# Washington WAC 296-823-14055, note (seen): spoons made up to a quart.
SPOONS = [({"tsp": 2}, 100, "0.06"), ({"cup": F(1, 3), "tbsp": 1}, 10, "0.02")]


@pytest.mark.parametrize(("measures", "parts", "within"), SPOONS)
def test_spoons_in_a_quart(measures: dict[str, Fraction], parts: int, within: str) -> None:
    quart = parse_unit("qt")
    volume = sum(convert(F(v), parse_unit(u), quart) for u, v in measures.items())
    assert abs(1 / F(volume) / parts - 1) <= F(within)


def test_percent_by_weight_and_by_volume_differ() -> None:
    # Virginia DWR, aquatic plants page (seen): 1 % is 1.34 oz by weight, 38 g, in a gallon.
    ounces = convert(F("8.34") / 100, parse_unit("lb"), parse_unit("ozwt"))
    grams = convert(F("8.34") / 100, parse_unit("lb"), parse_unit("g"))
    fluid = convert(F(1, 100), parse_unit("gal"), parse_unit("floz"))
    assert abs(ounces - F("1.34")) < F("0.006")
    assert half_up(grams) == 38
    assert fluid == F("1.28")
    assert fluid < ounces


def test_half_strength_keeps_about_four_times_as_long(curriculum: Curriculum) -> None:
    # Chlorine Institute dilution notice (2003), after Pamphlet 96 (copy): at half the strength
    # decomposition runs at about a quarter, so the days to half double.
    ageing = curriculum.relations["ageing"]

    def lost(new: int, half: int) -> Fraction:
        given = {"new": F(new), "days": F(1, 1000), "half": F(half)}
        now = work(ageing, given, "now").value
        assert now is not None
        return new - now

    assert abs(lost(5, 200) / lost(10, 100) - F(1, 4)) < F(1, 1000)
