"""Exact numbers: reading, rounding half up, and roots to forty digits."""

from __future__ import annotations

import math
from decimal import ROUND_HALF_UP, Decimal, localcontext
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.errors import Refusal
from generator.maths import exact

F = Fraction
FORTY = F(1, 10**38)

NUMBERS = [("3.25", F(13, 4)), ("3 1/4", F(13, 4)), ("1/4", F(1, 4)), (".5", F(1, 2)),
           ("-2", F(-2)), ("- 1/2", F(-1, 2)), (" 7 ", F(7)), ("007", F(7)), ("0", F(0)),
           ("3  1 / 4", F(13, 4)), ("-1 1/2", F(-3, 2))]  # fmt: skip


@pytest.mark.parametrize(("text", "value"), NUMBERS)
def test_a_number_is_read(text: str, value: Fraction) -> None:
    assert exact.number(text) == value


@pytest.mark.parametrize(
    "text",
    ["", "x", "1e5", "1,000", "1.2.3", "--1", "+1", "1/0", "2 1/0", "5.", "1/2/3", "nan", "inf",
     "9" * 16, "1 2", "0x1", "1_000", "½", "1/-2"],
)  # fmt: skip
def test_what_is_no_number_is_refused(text: str) -> None:
    with pytest.raises(Refusal) as told:
        exact.number(text)
    assert told.value.next


@given(st.fractions(max_denominator=10**6), st.fractions("1/1000", 100, max_denominator=1000))
def test_rounding_goes_to_the_nearest_step(value: Fraction, step: Fraction) -> None:
    low, near, high = exact.down(value, step), exact.half_up(value, step), exact.up(value, step)
    assert low <= value <= high
    assert near in (low, high)
    assert abs(near - value) * 2 <= step
    assert exact.half_up(-value, step) == -near
    assert high - low in (0, step)


@given(st.integers(-(10**9), 10**9), st.integers(0, 6))
def test_half_up_agrees_with_decimal(count: int, places: int) -> None:
    value = Decimal(count) / 10**4
    wanted = value.quantize(Decimal(1).scaleb(-places), rounding=ROUND_HALF_UP)
    assert exact.half_up(F(value), F(1, 10**places)) == F(wanted)
    assert F(exact.decimal_text(F(value), places).replace(",", "")) == F(wanted)


@given(st.fractions(0, 1000, max_denominator=100), st.integers(0, 8))
def test_a_power_of_a_root_is_exact(base: Fraction, exponent: int) -> None:
    assert exact.power(base, F(exponent)) == (base**exponent, False)
    assert exact.power(base**2, F(1, 2)) == (base, False)
    assert exact.power(base**3, F(2, 3)) == (base**2, False)


@given(st.fractions("1/100", 5000, max_denominator=100), st.fractions("1/9", 5, max_denominator=9))
def test_an_inexact_power_is_right_to_forty_digits(base: Fraction, exponent: Fraction) -> None:
    value, rounded = exact.power(base, exponent)
    back = value**exponent.denominator
    wanted = base**exponent.numerator
    if not rounded:
        assert back == wanted
    else:
        assert abs(back / wanted - 1) < F(exponent.denominator * 2, 10**39)


@pytest.mark.parametrize(
    ("base", "exponent", "told"),
    [(0, -1, "zero"), (-2, F(1, 2), "negative"), (-8, F(1, 3), "negative")],
)
def test_powers_that_cannot_be(base: int, exponent: Fraction, told: str) -> None:
    with pytest.raises(Refusal, match=told):
        exact.power(F(base), F(exponent))


@given(st.fractions("1/1000", 1000, max_denominator=1000))
def test_logarithm_undoes_the_exponential(value: Fraction) -> None:
    found, rounded = exact.log(value)
    assert rounded == (value != 1)
    with localcontext() as context:
        context.prec = 60
        back = F((Decimal(found.numerator) / Decimal(found.denominator)).exp())
    assert abs(back / value - 1) < FORTY


@pytest.mark.parametrize("value", [0, -1])
def test_no_logarithm_of_nothing(value: int) -> None:
    with pytest.raises(Refusal, match="logarithm"):
        exact.log(F(value))


def test_pi_to_forty_digits() -> None:
    digits = "3.141592653589793238462643383279502884197169399"
    assert abs(exact.PI - F(digits)) < F(1, 10**39)


@given(st.fractions(0, 89, max_denominator=8))
def test_tangent(degrees: Fraction) -> None:
    value, _ = exact.tangent_of_degrees(degrees)
    assert float(value) == pytest.approx(math.tan(math.radians(degrees)), rel=1e-12)


def test_tangent_of_known_angles() -> None:
    assert exact.tangent_of_degrees(F(0)) == (0, False)
    assert exact.tangent_of_degrees(F(45))[0] == 1
    assert abs(exact.tangent_of_degrees(F(60))[0] ** 2 - 3) < FORTY
    for degrees in (F(-1), F(90), F(8901, 100)):
        with pytest.raises(Refusal, match="angle"):
            exact.tangent_of_degrees(degrees)


TEXTS = [(F(12000), 2, "12,000"), (F(20, 3), 2, "6.67"), (F(1, 2), 0, "1"), (F(-1, 1000), 2, "0"),
         (F(-5, 2), 1, "-2.5"), (F(5, 1000), 2, "0.01"), (F(999999, 1000), 2, "1,000")]  # fmt: skip


@pytest.mark.parametrize(("value", "places", "text"), TEXTS)
def test_decimal_text(value: Fraction, places: int, text: str) -> None:
    assert exact.decimal_text(value, places) == text


def test_small_numbers_keep_two_digits() -> None:
    texts = [exact.significant_text(F(n)) for n in ("0.00123", "0.0317", "2/3", "0", "1234.567")]
    assert texts == ["0.0012", "0.032", "0.67", "0", "1,234.57"]
