"""Units against a unit library, and the words people use for them."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.errors import Refusal
from generator.maths.units import (
    UNIT_NAMES,
    convert,
    dimension,
    parse_unit,
    same_kind,
    shown,
    size,
    spoken,
)

F = Fraction
REGISTRY = pint.UnitRegistry(non_int_type=Decimal)

# The library's name for each of ours. It uses the international foot and pound, exact in SI since
# 1959 (NIST SP 811, B.6), the gallon of 231 cubic inches (NIST Handbook 44, appendix C), and the
# international-table Btu (NIST SP 811, B.8).
LIBRARY = {
    "in": "inch", "ft": "foot", "yd": "yard", "mi": "mile",
    "mm": "millimeter", "cm": "centimeter", "m": "meter",
    "gal": "gallon", "qt": "quart", "pt": "pint", "cup": "cup", "floz": "fluid_ounce",
    "tbsp": "tablespoon", "tsp": "teaspoon", "L": "liter", "mL": "milliliter",
    "s": "second", "min": "minute", "h": "hour", "day": "day",
    "lb": "pound", "ozwt": "ounce", "g": "gram", "kg": "kilogram", "mg": "milligram",
    "lbf": "pound_force", "psi": "psi", "hp": "horsepower", "btu": "british_thermal_unit",
    "degF": "delta_degree_Fahrenheit", "A": "ampere", "mol": "mole", "%": "percent", "ppm": "ppm",
    "gpm": "gallon/minute", "gph": "gallon/hour", "sqft": "foot**2", "sqin": "inch**2",
    "cuft": "foot**3", "mph": "mile/hour", "Ah": "ampere*hour",
}  # fmt: skip
OWN = {"usd", "dBA", "deg", "1", "fraction"}  # no factor to compare: each stands alone


def test_every_unit_is_compared_or_stands_alone() -> None:
    assert set(LIBRARY) | OWN == set(UNIT_NAMES)


@pytest.mark.parametrize("name", LIBRARY)
def test_every_factor_is_that_of_the_library(name: str) -> None:
    theirs = REGISTRY.Quantity(Decimal(1), LIBRARY[name])
    mine = parse_unit(name)
    others = [o for o in LIBRARY if same_kind(mine, parse_unit(o))]
    for other in others:
        wanted = theirs.to(LIBRARY[other]).magnitude
        found = convert(F(1), mine, parse_unit(other))
        assert abs(found / F(Decimal(wanted)) - 1) < F(1, 10**8), other


@pytest.mark.parametrize("name", LIBRARY)
def test_kinds_are_those_of_the_library(name: str) -> None:
    theirs = REGISTRY.Quantity(1, LIBRARY[name]).dimensionality
    for other, library_name in LIBRARY.items():
        same = theirs == REGISTRY.Quantity(1, library_name).dimensionality
        assert same_kind(parse_unit(name), parse_unit(other)) == same, other


EXACT = [
    (1, "gal", "231", "in**3"),  # NIST Handbook 44, appendix C
    (1, "gal", "128", "floz"),
    (1, "gal", "16", "cup"),
    (1, "gal", "256", "tbsp"),
    (1, "gal", "768", "tsp"),
    (1, "gal", "3785.411784", "mL"),
    (1, "floz", "29.5735295625", "mL"),
    (1, "in**3", "16.387064", "mL"),
    (1, "lb", "453.59237", "g"),
    (1, "ozwt", "28.349523125", "g"),
    (1, "gpm", "3.785411784", "L/min"),
    (1, "hp", "550", "ft*lbf/s"),
    (1, "psi", "144", "lbf/ft**2"),
    (1, "%", "10000", "ppm"),
    (1, "mph", "88", "ft/min"),
    (1, "gpm", "60", "gph"),
    (60, "gal/h", "1", "gpm"),
]


@pytest.mark.parametrize(("value", "source", "wanted", "target"), EXACT)
def test_exact_conversions(value: int, source: str, wanted: str, target: str) -> None:
    assert convert(F(value), parse_unit(source), parse_unit(target)) == F(wanted)


@given(
    st.fractions(),
    st.sampled_from(sorted(UNIT_NAMES)),
    st.sampled_from(sorted(UNIT_NAMES)),
)
def test_there_and_back(value: Fraction, one: str, other: str) -> None:
    a, b = parse_unit(one), parse_unit(other)
    if same_kind(a, b):
        assert convert(convert(value, a, b), b, a) == value
    else:
        with pytest.raises(Refusal, match="can't be turned into") as told:
            convert(value, a, b)
        assert told.value.next


def test_dimensions_cancel() -> None:
    assert dimension(parse_unit("ft/in").parts) == ()
    assert dimension(parse_unit("gal/in**3").parts) == ()
    assert same_kind(parse_unit("psi*in**2"), parse_unit("lbf"))
    assert same_kind(parse_unit("psi**0.5*psi**0.5"), parse_unit("psi"))
    assert size(parse_unit("lb/lb").parts) == 1


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("galon", 'did you mean "gal"'),
        ("furlong", "is not known"),
        ("gal+qt", "is not a unit"),
        ("gal gal", "is not a unit"),
        ("2*gal", "is not a unit"),
        ("gal**gal", "is not a unit"),
        ("%/min", "mixes %"),
        ("", "is not a unit"),
        ("gal*" * 40 + "gal", "is not a unit"),
        ("__import__('os')", "is not a unit"),
        ("in**1e9", "is not a number"),
        ("gal.real", "is not a unit"),
    ],
)
def test_what_is_no_unit_is_refused(text: str, told: str) -> None:
    with pytest.raises(Refusal) as refused:
        parse_unit(text)
    assert told in str(refused.value)


SPOKEN = [
    ("oz", "gal", "floz"), ("oz", "floz", "floz"), ("ounces", "lb", "ozwt"), ("oz", "g", "ozwt"),
    ("oz", "gpm", "floz"), ("fl oz", "gal", "floz"), ("FL. OZ.", "gal", "floz"),
    ("Gallons", "gal", "gal"), ("galones", "gal", "gal"), ("onzas fluidas", "gal", "floz"),
    ("tazas", "gal", "cup"), ("lbs", "lb", "lb"), ("libras", "lb", "lb"), ("cc", "gal", "mL"),
    ("percent", "%", "%"), ("por ciento", "%", "%"), ("mg/L", "ppm", "ppm"),
    ("minutos", "min", "min"), ('"', "in", "in"), ("'", "ft", "ft"), ("sq. ft", "sqft", None),
    ("sq ft", "sqft", "sqft"), ("gallons per minute", "gpm", "gpm"), ("gal/min", "gpm", "gpm"),
    ("$", "usd", "usd"), ("°F", "degF", "degF"), ("L", "gal", "L"), ("ml", "gal", "mL"),
    ("furlongs", "ft", None), ("1", "gal", None), ("fraction", "%", None), ("", "gal", None),
    ("gal/furlong", "gpm", None), ("/", "gpm", None),
]  # fmt: skip


@pytest.mark.parametrize(("word", "wanted", "found"), SPOKEN)
def test_words_for_units(word: str, wanted: str, found: str | None) -> None:
    unit = spoken(word, parse_unit(wanted))
    assert (unit.text if unit else None) == found


def test_units_are_shown_as_people_write_them() -> None:
    texts = ["floz/gal", "sqft/h", "ozwt", "1", "fraction", "degF", "usd", "%", "gpm"]
    printed = [shown(parse_unit(text)) for text in texts]
    assert printed == ["fl oz/gal", "sq ft/h", "oz (weight)", "", "", "°F", "$", "%", "gpm"]
