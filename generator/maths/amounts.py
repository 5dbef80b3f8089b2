"""Numbers with units as pages print them: `2 3/4 gal`, `12.5%`, `$300`, `1/5`."""

from __future__ import annotations

from fractions import Fraction
from functools import lru_cache

from generator.maths.exact import decimal_text, significant_text
from generator.maths.units import Unit, shown
from generator.words import WRITTEN_IN, words

_JUG_MARKS = {Fraction(1, 2), Fraction(1, 4), Fraction(1, 8), Fraction(1, 16)}


def number_text(value: Fraction, mark: Fraction | None = None) -> str:
    """`value` as a decimal, or as a mixed number when the `mark` is a half, quarter or eighth.

    Without a mark a number that does not end within four decimals is rounded half up.
    """
    if value.numerator < 0:
        return f"−{number_text(-value, mark)}"
    if mark in _JUG_MARKS:
        return mixed_text(value)
    if mark is not None:
        places = _places(mark)
        return decimal_text(value, places, trim=False) if places else decimal_text(value, 0)
    if _places(value) <= 4:
        return decimal_text(value, 4)
    return significant_text(value)


def mixed_text(value: Fraction) -> str:
    """A mixed number: `2 3/4`, `1/4`, `3`."""
    if value.numerator < 0:
        return f"−{mixed_text(-value)}"
    whole, rest = divmod(value.numerator, value.denominator)
    if not rest:
        return str(whole)
    part = f"{rest}/{value.denominator}"
    return f"{whole} {part}" if whole else part


def amount_text(
    value: Fraction, unit: Unit, mark: Fraction | None = None, language: str = WRITTEN_IN
) -> str:
    """`value` with its unit, as printed."""
    # The same few numbers are printed over and over, and whole numbers are found faster.
    marks = (mark.numerator, mark.denominator) if mark else None
    return _amount_text(value.numerator, value.denominator, unit.text, marks, language)


@lru_cache(maxsize=1 << 15)
def _amount_text(
    top: int, bottom: int, unit_text: str, marks: tuple[int, int] | None, language: str
) -> str:
    value, unit, mark = Fraction(top, bottom), Unit(unit_text), Fraction(*marks) if marks else None
    if unit.is_fraction and mark is None:
        return mixed_text(value) if value.denominator <= 12 else f"{decimal_text(value * 100)}%"
    number, name = number_text(value, mark), shown(unit, language, one=top == bottom)
    if name == "$":
        return f"${number}"
    if name in ("%", "°", ""):
        return f"{number}{name}"
    return f"{number} {name}"


def mark_text(mark: Fraction, unit: Unit, language: str = WRITTEN_IN) -> str:
    """The smallest mark, for "to the nearest …": `1/4 gal`, `whole minute`, `0.1%`."""
    if mark == 1:
        whole = words(language)["marks"]
        return whole.get(unit.text) or whole["other"].format(unit=shown(unit, language))
    return amount_text(mark, unit, mark, language)


def _places(value: Fraction) -> int:
    """Decimals needed to write `value` in full; 99 when it never ends."""
    rest, twos, fives = value.denominator, 0, 0
    while rest % 2 == 0:
        rest, twos = rest // 2, twos + 1
    while rest % 5 == 0:
        rest, fives = rest // 5, fives + 1
    return max(twos, fives) if rest == 1 else 99
