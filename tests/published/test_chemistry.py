"""Reactions and molar masses against chempy and molmass; doses, decay and runoff against tables."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest
import yaml
from hypothesis import given
from hypothesis import strategies as st

from generator.maths.chemistry import balance, molar_mass
from generator.maths.units import convert, parse_unit
from generator.model.course import Curriculum
from generator.solving.answer import work

F = Fraction
REACTIONS = yaml.safe_load(
    (Path(__file__).parents[2] / "curriculum" / "reactions.yaml").read_text(encoding="utf-8")
)
FORMULAS = sorted({f for r in REACTIONS.values() for f in (*r["from"], *r["to"])} - {"S"})


def found(curriculum: Curriculum, relation: str, find: str, **numbers: Any) -> Fraction:
    value = work(curriculum.relations[relation], {n: F(v) for n, v in numbers.items()}, find).value
    assert value is not None
    return value


def near(value: Fraction, other: float, share: float) -> bool:
    return abs(float(value) / other - 1) <= share


@pytest.mark.parametrize("name", REACTIONS)
def test_reactions_balance_as_another_library_has_them(name: str) -> None:
    chempy = pytest.importorskip("chempy")
    reaction = REACTIONS[name]
    sides = chempy.balance_stoichiometry(set(reaction["from"]), set(reaction["to"]))
    ours = balance(reaction["from"], reaction["to"])
    assert {formula: count for count, formula in ours.reactants} == dict(sides[0])
    assert {formula: count for count, formula in ours.products} == dict(sides[1])


# As written by chemists: hypochlorite, then what is balanced by hand in the sources.
WRITTEN = {
    "acid-and-bleach": ([1, 2], [1, 1, 1]),
    "bleach-to-chlorate": ([3], [1, 2]),
    "bleach-to-oxygen": ([2], [2, 1]),
    "thiosulfate-and-bleach": ([1, 4, 2], [2, 4, 1]),
    "thiosulfate-and-chlorine": ([1, 4, 5], [2, 8]),
    "ascorbic-and-bleach": ([1, 1], [1, 1, 1]),
    "oxalic-and-lye": ([1, 2], [1, 4]),
}


@pytest.mark.parametrize("name", WRITTEN)
def test_coefficients_are_those_of_the_books(name: str) -> None:
    ours = balance(REACTIONS[name]["from"], REACTIONS[name]["to"])
    assert ([n for n, _ in ours.reactants], [n for n, _ in ours.products]) == WRITTEN[name]


@pytest.mark.parametrize("formula", FORMULAS)
def test_molar_masses_agree_with_two_libraries(formula: str) -> None:
    # Both round their atomic weights elsewhere; a ten-thousandth apart is the same.
    chempy, molmass = pytest.importorskip("chempy"), pytest.importorskip("molmass")
    ours = float(molar_mass(formula))
    assert ours == pytest.approx(molmass.Formula(formula).mass, rel=1e-4)
    assert ours == pytest.approx(chempy.Substance.from_formula(formula).mass, rel=1e-4)


@pytest.mark.parametrize(
    ("hydrate", "dotted"),
    [("Na2S2O3(H2O)5", "Na2S2O3..5H2O"), ("C2H2O4(H2O)2", "C2H2O4..2H2O")],
)
def test_a_hydrate_in_brackets_is_the_hydrate(hydrate: str, dotted: str) -> None:
    # chempy reads a single dot as something lighter, without a word; its hydrates take two.
    chempy = pytest.importorskip("chempy")
    whole = chempy.Substance.from_formula(dotted).mass
    assert float(molar_mass(hydrate)) == pytest.approx(whole, rel=1e-4)
    single = chempy.Substance.from_formula(dotted.replace("..", ".")).mass
    assert abs(single / whole - 1) > 0.1


# Libraries run for this: molmass 2026.1.8 (run).
MASSES = {
    "NaOCl": 74.44207,
    "Cl2": 70.9058,
    "Na2S2O3": 158.10735,
    "Na2S2O3(H2O)5": 248.18379,
    "C2H2O4(H2O)2": 126.06556,
    "NaOH": 39.99712,
    "HCl": 36.46084,
    "NaHSO3": 104.06073,
    "Na2S2O5": 190.10616,
    "Na2SO3": 126.04255,
    "C6H8O6": 176.12440,
}


@pytest.mark.parametrize("formula", MASSES)
def test_molar_masses_as_recorded(formula: str) -> None:
    assert float(molar_mass(formula)) == pytest.approx(MASSES[formula], rel=1e-4)


def test_available_chlorine_is_what_acid_sets_free(curriculum: Curriculum) -> None:
    # By definition: one molecule of hypochlorite with acid gives one of chlorine.
    for gallons, stock in (("1/16", "12.5"), (5, 10), (55, 8)):
        gas = found(curriculum, "gas-from-acid", "gas_lb", gal=gallons, stock=stock)
        assert gas == found(
            curriculum, "chlorine-in-stock", "chlorine_lb", gal=gallons, stock=stock
        )


def test_two_relations_see_the_same_gas_from_a_cup(curriculum: Curriculum) -> None:
    # One cup of 12.5 % in 10 cubic metres of closed air: about 1,000 ppm, a hundred times 10 ppm.
    room = convert(F(10000), parse_unit("L"), parse_unit("cuft"))
    times = found(curriculum, "closed-van", "times", stock="12.5", amount=8, van=room)
    cubic_feet = found(curriculum, "gas-from-acid", "gas_cuft", gal="1/16", stock="12.5")
    assert near(times, 100, 0.03)
    assert near(times, float(cubic_feet / room * 100_000), 0.001)  # 8.34 lb/gal against 1 g/mL


@pytest.mark.parametrize(
    ("find", "field"), [("sulfite_lb", 1.96), ("bisulfite_lb", 1.61), ("metabisulfite_lb", 1.47)]
)
def test_field_doses_lie_a_tenth_above_theory(
    curriculum: Curriculum, find: str, field: float
) -> None:
    # Disinfection of Pipelines and Storage Facilities Field Guide, table 7-2 (copy), at pH 7.
    theory = float(found(curriculum, "neutralizer-theory", find, chlorine_lb=1))
    assert 1.09 < field / theory < 1.105


def test_the_field_dose_of_thiosulfate_lies_within_theory(curriculum: Curriculum) -> None:
    # 1.9 in the same table. Which limit is nearer hangs on the pH, so no single number is tested.
    for kind in ("dry", "crystals"):
        least = found(curriculum, "thiosulfate-theory", f"{kind}_least", chlorine_lb=1)
        most = found(curriculum, "thiosulfate-theory", f"{kind}_most", chlorine_lb=1)
        assert least < F("1.9") < most


def test_strong_bleach_is_never_neutralized(curriculum: Curriculum) -> None:
    relation = curriculum.relations["neutralizer"]
    given_numbers = {"gal": F(5), "ratio": F("1.9")}
    assert work(relation, given_numbers | {"ppm": F(500)}, "lb").value is not None
    assert work(relation, given_numbers | {"ppm": F(501)}, "lb").word == "never"


def test_crystals_hold_the_same_thiosulfate(curriculum: Curriculum) -> None:
    # The water of the crystals weighs but does nothing: 248.18 g do what 158.11 g do dry.
    dry = found(curriculum, "thiosulfate-theory", "dry_least", chlorine_lb=1)
    crystals = found(curriculum, "thiosulfate-theory", "crystals_least", chlorine_lb=1)
    assert crystals / dry == molar_mass("Na2S2O3(H2O)5") / molar_mass("Na2S2O3")


# Adam and Gordon 1999 (abstract, seen), computed with R = 8.314: °F for 15, 25 and 35 °C,
# ionic strength, litres a mole a second.
RATES = [
    (59, 1, 3.322e-9),
    (59, 2, 4.682e-9),
    (59, 3, 6.598e-9),
    (59, 4, 9.298e-9),
    (59, 6, 1.847e-8),
    (77, 1, 1.430e-8),
    (77, 2, 2.015e-8),
    (77, 3, 2.839e-8),
    (77, 4, 4.001e-8),
    (77, 6, 7.947e-8),
    (95, 1, 5.602e-8),
    (95, 2, 7.894e-8),
    (95, 3, 1.113e-7),
    (95, 4, 1.568e-7),
    (95, 6, 3.114e-7),
]


@pytest.mark.parametrize(("fahrenheit", "ionic", "rate"), RATES)
def test_the_rate_of_decay_is_the_published_equation(
    curriculum: Curriculum, fahrenheit: int, ionic: int, rate: float
) -> None:
    value = found(curriculum, "stock-half-life", "k2", fahrenheit=fahrenheit, ionic=ionic)
    a_second = convert(value, parse_unit("L/mol/day"), parse_unit("L/mol/s"))
    assert float(a_second) == pytest.approx(rate, rel=1e-3)


def aged(curriculum: Curriculum, fahrenheit: int, days: int) -> float:
    half = found(curriculum, "stock-half-life", "days", fahrenheit=fahrenheit, stock="12.5")
    return float(found(curriculum, "ageing", "now", new="12.5", days=days, half=half))


# Public wiki table, breakdown of bleach by temperature (copy); it says it uses fitted factors.
AGED = [(100, 7, 9.71), (100, 14, 8.33), (100, 30, 6.68), (70, 30, 11.11), (70, 182, 7.78)]


@pytest.mark.parametrize(("fahrenheit", "days", "left"), AGED)
def test_ageing_is_near_a_public_table(
    curriculum: Curriculum, fahrenheit: int, days: int, left: float
) -> None:
    assert aged(curriculum, fahrenheit, days) == pytest.approx(left, rel=0.07)


def test_ten_degrees_warmer_ages_about_three_times_as_fast(curriculum: Curriculum) -> None:
    # Supplier bulletin citing AS 1087-1991 (copy): 25 to 35 °C cuts shelf life by about 3.
    cool = found(curriculum, "stock-half-life", "days", fahrenheit=77, stock="12.5")
    warm = found(curriculum, "stock-half-life", "days", fahrenheit=95, stock="12.5")
    assert 2.5 < cool / warm < 4.5


def test_half_the_strength_loses_at_a_quarter_of_the_rate_or_less(curriculum: Curriculum) -> None:
    # Chlorine Institute notice of 2003 (copy) says about 25 %, from strength alone; with fewer
    # ions as well it is about 13 %.
    def lost(stock: str) -> Fraction:  # strength a day, at first
        return F(stock) / found(curriculum, "stock-half-life", "days", fahrenheit=80, stock=stock)

    assert 0.1 < lost("6.25") / lost("12.5") < 0.26


@given(st.integers(60, 120), st.integers(5, 15))
def test_hotter_and_stronger_stock_ages_faster(
    curriculum: Curriculum, fahrenheit: int, stock: int
) -> None:
    def days(f: int, s: int) -> Fraction:
        return found(curriculum, "stock-half-life", "days", fahrenheit=f, stock=s)

    assert days(fahrenheit + 1, stock) < days(fahrenheit, stock)
    assert days(fahrenheit, stock + 1) < days(fahrenheit, stock)


def test_no_problem_mixes_by_the_age_of_stock(curriculum: Curriculum) -> None:
    # The half-life says when to test again; its number never reaches a batch.
    used = {p.relation.id for m in curriculum.modules.values() for p in m.problems}
    assert "stock-half-life" not in used


@given(st.integers(1, 20), st.integers(100, 20_000), st.integers(1, 99))
def test_thinning_keeps_all_the_chlorine(
    curriculum: Curriculum, gallons: int, ppm: int, wanted: int
) -> None:
    water = found(
        curriculum, "dilute-down", "water_gal", have_gal=gallons, have_ppm=ppm, want_ppm=wanted
    )
    assert (gallons + water) * wanted == gallons * ppm


@given(st.integers(1, 12), st.integers(0, 180), st.integers(0, 9))
def test_what_soaks_in_and_what_runs_off_are_all_the_water(
    curriculum: Curriculum, gpm: int, minutes: int, tenths: int
) -> None:
    numbers = {"gpm": gpm, "minutes": minutes + 1}
    runs = found(curriculum, "runoff", "gal", soaked=F(tenths, 10), **numbers)
    soaks = found(curriculum, "runoff", "gal", soaked=F(10 - tenths, 10), **numbers)
    assert runs + soaks == gpm * (minutes + 1)
