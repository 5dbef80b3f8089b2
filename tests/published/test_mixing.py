"""Mixing against published figures: strengths, parts, neat product, blends."""

from __future__ import annotations

from fractions import Fraction

import pytest

from generator.maths.exact import half_up
from generator.maths.units import convert, parse_unit
from generator.model.course import Curriculum
from generator.solving.answer import work

F = Fraction


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


COLUMNS = (13, 12, 11, 10, 9, 8, 7)
TESTED = [F(n, 10) for n in range(70, 131)]


@pytest.mark.parametrize("tested", TESTED)
def test_the_higher_column_is_never_too_strong(curriculum: Curriculum, tested: Fraction) -> None:
    # Common practice, no source: between columns the higher number. 10.4 read as 11 is 5 % weak.
    column = F(min(c for c in COLUMNS if c >= tested))
    line = {"tested": tested, "column": column, "target": F(3), "total": F(50)}
    amount = work(curriculum.relations["card-line"], line, "amount").value
    assert amount is not None
    given = {"stock": tested, "amount": amount, "total": F(50)}
    wall = work(curriculum.relations["batch"], given, "target").value
    assert wall is not None
    assert wall <= 3
    assert wall == 3 * tested / column
    assert column != 11 or tested != F("10.4") or half_up(wall / 3, F("0.01")) == F("0.95")
    lower = {**line, "column": column - 1}
    assert work(curriculum.relations["card-line"], lower, "amount").word == "wrong-column"


def test_sodium_hypochlorite_weighs_105_for_100_of_chlorine(curriculum: Curriculum) -> None:
    # Handbook of Chlorination (1972), as quoted (copy): factor 1.05. Oracle: atomic weights.
    molmass = pytest.importorskip("molmass")
    factor = molmass.Formula("NaOCl").mass / molmass.Formula("Cl2").mass
    stated = curriculum.relations["trade-weight"].constants["heavier"].value
    assert float(stated) == pytest.approx(factor, abs=0.0005)


def test_the_two_certificates_differ_by_that_factor(curriculum: Curriculum) -> None:
    # Trade arithmetic, re-computed: 12.5 % by weight is 14.3 or 15.0 trade percent at 1.20.
    given = {"wt_pct": F("12.5"), "sg": F("1.2")}
    bleach = work(curriculum.relations["trade-weight"], given, "trade_pct").value
    chlorine = work(curriculum.relations["chlorine-weight"], given, "trade_pct").value
    assert bleach is not None
    assert chlorine is not None
    assert chlorine / bleach == F("1.05")
    assert half_up(bleach / F("12.5"), F("0.01")) == F("1.14")  # 14 % stronger than 12.5 trade
    assert chlorine / F("12.5") == F("1.2")


def test_grams_a_liter_against_another_table_of_units(curriculum: Curriculum) -> None:
    # 120 g/L is 12 trade percent and 1.0014 lb of chlorine in a gallon (worked). Oracle: pint.
    pint = pytest.importorskip("pint")
    registry = pint.UnitRegistry()
    grams = registry.Quantity(120, "g/L")
    assert grams.to("lb/gallon").magnitude == pytest.approx(1.0014, abs=0.0001)
    trade = work(curriculum.relations["gpl"], {"gpl": F(120)}, "trade_pct").value
    assert trade is not None
    in_100_ml = (grams * registry.Quantity(100, "mL")).to("g").magnitude
    assert float(trade) == pytest.approx(in_100_ml)


@pytest.mark.parametrize("dose", ["0.5", "1.28", "1.5", "4"])
def test_soap_by_the_percent_against_another_table_of_units(
    curriculum: Curriculum, dose: str
) -> None:
    # Worked: a gallon is 128 fl oz. Oracle: pint.
    pint = pytest.importorskip("pint")
    registry = pint.UnitRegistry()
    share = registry.Quantity(float(dose), "fluid_ounce") / registry.Quantity(1, "gallon")
    pct = work(curriculum.relations["soap-pct"], {"dose": F(dose)}, "pct").value
    assert pct is not None
    assert float(pct) == pytest.approx(100 * share.to_base_units().magnitude)


def test_water_stock_and_soap_fill_the_line(curriculum: Curriculum) -> None:
    # Worked: 50 gal with 4.75 gal of stock and 64 fl oz of soap, half a gallon.
    given = {"total": F(50), "amount": F("4.75"), "soap": F(64)}
    water = work(curriculum.relations["water-first"], given, "water").value
    assert water == F("44.75")
    assert water + F("4.75") + convert(F(64), parse_unit("floz"), parse_unit("gal")) == 50
