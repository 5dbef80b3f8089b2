"""Units in formulas: factors put in where they belong, mixed kinds refused."""

from __future__ import annotations

from fractions import Fraction

import pytest

from generator.errors import Refusal
from generator.maths.evaluate import holds, value_of
from generator.maths.formula import parse
from generator.maths.measure import in_own_units, plain
from generator.maths.units import parse_unit

F = Fraction
UNITS = {"gal": "gal", "seconds": "s", "gpm": "gpm", "feet": "ft", "inches": "in", "psi": "psi",
         "pct": "%", "days": "day", "angle": "deg", "n": "1", "rate": "floz/gal"}  # fmt: skip
MEASURES = {name: parse_unit(unit) for name, unit in UNITS.items()}

GOOD = [
    ("gal/seconds", "gpm", {"gal": "1", "seconds": "1"}, "60"),
    ("gal/gpm", "s", {"gal": "1", "gpm": "2"}, "30"),
    ("feet + inches", "ft", {"feet": "1", "inches": "6"}, "1.5"),
    ("inches + feet", "in", {"feet": "1", "inches": "6"}, "18"),
    ("max(feet, inches)", "ft", {"feet": "1", "inches": "24"}, "2"),
    ("feet*inches", "sqft", {"feet": "2", "inches": "6"}, "1"),
    ("rate*gal", "floz", {"rate": "2", "gal": "3"}, "6"),
    ("rate*gal", "gal", {"rate": "64", "gal": "2"}, "1"),
    ("sqrt(psi)*sqrt(psi)", "psi", {"psi": "9"}, "9"),
    ("psi**1.5/psi**0.5", "psi", {"psi": "9"}, "9"),
    ("pct*gal", "gal", {"pct": "25", "gal": "8"}, "2"),
    ("2**(feet/inches)", "1", {"feet": "1", "inches": "4"}, "8"),
    ("tan(angle)", "1", {"angle": "45"}, "1"),
    ("abs(feet - inches)", "in", {"feet": "1", "inches": "13"}, "1"),
]


@pytest.mark.parametrize(("text", "target", "env", "value"), GOOD)
def test_factors_are_put_in(text: str, target: str, env: dict[str, str], value: str) -> None:
    tree = in_own_units(parse(text), MEASURES, parse_unit(target))
    assert value_of(tree, {name: F(number) for name, number in env.items()}) == F(value)


@pytest.mark.parametrize(
    ("text", "target"),
    [
        ("gal + feet", "gal"), ("gal", "ft"), ("gal/seconds", "gal"), ("gal - 1", "gal"),
        ("max(gal, feet)", "gal"), ("log(gal)", "1"), ("2**days", "1"), ("gal**n", "gal"),
        ("tan(feet)", "1"), ("sqrt(psi)", "psi"), ("psi**1.85", "psi"), ("n", "gal"),
    ],
)  # fmt: skip
def test_mixed_kinds_are_refused(text: str, target: str) -> None:
    with pytest.raises(Refusal) as told:
        in_own_units(parse(text), MEASURES, parse_unit(target))
    assert told.value.next


def test_conditions_compare_in_one_unit() -> None:
    assert holds(plain(parse("feet > inches"), MEASURES), {"feet": F(1), "inches": F(11)})
    assert holds(plain(parse("gal > 0"), MEASURES), {"gal": F(1)})
    with pytest.raises(Refusal, match="stand on the two sides"):
        plain(parse("feet > gal"), MEASURES)
