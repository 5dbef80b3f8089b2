"""Exact numbers: decimal text to fractions, rounding half up, and roots to forty digits.

A power, root or logarithm that is not rational becomes a rational right to `DIGITS` digits; the
caller is told by the second value of the pair, True when the number is no longer exact.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from decimal import Context, Decimal, localcontext
from fractions import Fraction
from functools import lru_cache
from math import isqrt

from generator.errors import Refusal

DIGITS = 40
_CONTEXT = Context(prec=DIGITS + 10, Emin=-(10**6), Emax=10**6)

PLAIN = r"\d{1,15}(?:\.\d{1,15})?|\.\d{1,15}"
_NUMBER = re.compile(
    rf"(?P<sign>-?)\s*(?:(?P<whole>\d{{1,15}})\s+(?P<top>\d{{1,9}})\s*/\s*(?P<bottom>\d{{1,9}})"
    rf"|(?P<over>\d{{1,9}})\s*/\s*(?P<under>\d{{1,9}})|(?P<plain>{PLAIN}))"
)


def number(text: str) -> Fraction:
    """The exact number written as 3.25, 3 1/4, 1/4, .5 or -2.

    Raises Refusal when the text is anything else.
    """
    found = _NUMBER.fullmatch(text.strip())
    if not found:
        raise Refusal(f'"{text}" is not a number', "write it like 3.25, 3 1/4 or 1/4")
    part = found.groupdict()
    if part["plain"]:
        value = Fraction(part["plain"])
    else:
        top, bottom = int(part["top"] or part["over"]), int(part["bottom"] or part["under"])
        if not bottom:
            raise Refusal(f'"{text}" divides by zero', "write a number under the line")
        value = int(part["whole"] or 0) + Fraction(top, bottom)
    return -value if part["sign"] else value


def half_up(value: Fraction, step: Fraction = Fraction(1)) -> Fraction:
    """The nearest multiple of `step`; a half goes away from zero, as taught in school.

    >>> half_up(Fraction(5, 2))
    Fraction(3, 1)
    """
    return rounded(value, step, "nearest")


def down(value: Fraction, step: Fraction = Fraction(1)) -> Fraction:
    """The greatest multiple of `step` not above `value`."""
    return rounded(value, step, "down")


def up(value: Fraction, step: Fraction = Fraction(1)) -> Fraction:
    """The least multiple of `step` not below `value`."""
    return rounded(value, step, "up")


def rounded(value: Fraction, step: Fraction, rounding: str) -> Fraction:
    """The multiple of `step` that `value` is rounded to: "nearest" (as `half_up`), "down", "up"."""
    return Fraction(marks(value, step, rounding) * step.numerator, step.denominator)


def marks(value: Fraction, step: Fraction, rounding: str = "nearest") -> int:
    """How many steps `rounded` is; worked in whole numbers, for speed."""
    top, over = value.as_integer_ratio()
    size, under = step.as_integer_ratio()
    top, bottom = top * under, over * size
    if rounding == "down":
        return top // bottom
    if rounding == "up":
        return -(-top // bottom)
    count = (2 * abs(top) + bottom) // (2 * bottom)
    return count if top >= 0 else -count


def any_near(values: Iterable[Fraction], middle: Fraction, reach: Fraction) -> bool:
    """Whether one of the values is within `reach` of `middle`, that far included."""
    (c, d), (far, under) = middle.as_integer_ratio(), reach.as_integer_ratio()
    far *= d
    for value in values:
        a, b = value.as_integer_ratio()
        if abs(a * d - c * b) * under <= far * b:
            return True
    return False


def root_of(value: int, degree: int) -> int | None:
    """The whole `degree`-th root of a whole number, or None when there is none."""
    root = isqrt(value) if degree == 2 else round(value ** (1 / degree)) if value < 2**900 else 0
    return root if root**degree == value else None


def power(base: Fraction, exponent: Fraction) -> tuple[Fraction, bool]:
    """`base ** exponent`, exact where it is rational.

    Raises Refusal for zero to a negative power and for a root of a negative number.
    """
    if exponent.denominator == 1:
        if base == 0 and exponent < 0:
            raise Refusal("a division by zero", "check the numbers")
        return Fraction(base ** int(exponent)), False
    return _broken_power(base, exponent)


@lru_cache(maxsize=256)
def _broken_power(base: Fraction, exponent: Fraction) -> tuple[Fraction, bool]:
    """The same for an exponent that is not whole; an item asks for each number, and if exact."""
    if base < 0:
        raise Refusal("a root of a negative number", "check the numbers")
    if base == 0:
        return Fraction(0), False
    top = root_of(base.numerator, exponent.denominator)
    bottom = root_of(base.denominator, exponent.denominator)
    if top is not None and bottom is not None:
        return Fraction(top, bottom) ** exponent.numerator, False
    with localcontext(_CONTEXT):
        return _rational((_decimal(base).ln() * _decimal(exponent)).exp()), True


def square_root(value: Fraction) -> tuple[Fraction, bool]:
    """The square root, exact where it is rational. Raises Refusal below zero."""
    return power(value, Fraction(1, 2))


def log(value: Fraction) -> tuple[Fraction, bool]:
    """The natural logarithm. Raises Refusal unless `value` is above zero."""
    if value <= 0:
        raise Refusal("a logarithm of nothing or less", "check the numbers")
    if value == 1:
        return Fraction(0), False
    with localcontext(_CONTEXT):
        return _rational(_decimal(value).ln()), True


def exp(value: Fraction) -> tuple[Fraction, bool]:
    """e to the power of `value`. Raises Refusal when the result is beyond all reason."""
    if abs(value) > 1000:
        raise Refusal("a number too large to work with", "check the numbers")
    if value == 0:
        return Fraction(1), False
    with localcontext(_CONTEXT):
        return _rational(_decimal(value).exp()), True


def arctan_inverse(whole: int, digits: int = DIGITS + 10) -> Fraction:
    """arctan(1/whole) by its series, right to `digits` digits."""
    limit = Fraction(1, 10**digits)
    total, term, odd = Fraction(0), Fraction(1, whole), 1
    while term / odd > limit:
        total += term / odd if odd % 4 == 1 else -term / odd
        term, odd = term / (whole * whole), odd + 2
    return total


def _rational(value: Decimal) -> Fraction:
    return Fraction(Context(prec=DIGITS).plus(value))


def _decimal(value: Fraction) -> Decimal:
    return _CONTEXT.divide(Decimal(value.numerator), Decimal(value.denominator))


# Machin 1706: pi/4 = 4 arctan(1/5) - arctan(1/239)
PI = _rational(_decimal(4 * (4 * arctan_inverse(5) - arctan_inverse(239))))


@lru_cache(maxsize=256)
def tangent_of_degrees(degrees: Fraction) -> tuple[Fraction, bool]:
    """The tangent of an angle, by the sine and cosine series. Raises Refusal outside 0 to 89."""
    if not 0 <= degrees <= 89:
        raise Refusal("an angle outside 0 to 89 degrees", "check the numbers")
    if degrees in (0, 45):
        return degrees / 45, False
    angle = Fraction(_decimal(degrees * PI / 180))
    sine, cosine, term, n = Fraction(0), Fraction(0), Fraction(1), 0
    while abs(term) > Fraction(1, 10 ** (DIGITS + 8)):
        signed = term if n % 4 < 2 else -term
        sine, cosine = (sine + signed, cosine) if n % 2 else (sine, cosine + signed)
        n += 1
        term = Fraction(Context(prec=DIGITS + 15).plus(_decimal(term * angle / n)))
    return _rational(_decimal(sine / cosine)), True


def decimal_text(value: Fraction, places: int = 2, trim: bool = True) -> str:
    """`value` rounded half up to `places` decimals, with thousands commas.

    >>> decimal_text(Fraction(12000)), decimal_text(Fraction(20, 3))
    ('12,000', '6.67')
    """
    scale = 10**places
    bottom = value.denominator
    count = (2 * abs(value.numerator) * scale + bottom) // (2 * bottom)
    whole, part = divmod(count, scale)
    text = f"{whole:,}.{part:0{places}d}" if places else f"{whole:,}"
    if trim and places:
        text = text.rstrip("0").rstrip(".")
    return f"-{text}" if value.numerator < 0 and count else text


def significant_text(value: Fraction, digits: int = 2) -> str:
    """`value` to two decimals, or to `digits` significant digits when it is below 0.1."""
    places = 2
    while value and abs(value) * 10**places < 10 ** (digits - 1) and places < 12:
        places += 1
    return decimal_text(value, places)
