"""A number as a person writes it: 3.25, 3 1/4, 3-1/4, .5, 1,280, 0,5 or 1.2 x 10^4."""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from fractions import Fraction

from generator.errors import Refusal

DIGITS = 15  # a longer number is a slip of the pen

_TOP_BOTTOM = r"\d{1,9}\s*/\s*\d{1,9}(?!\d|[.,]\d)"
_POWER = r"(?:e|\s*[x*]\s*10\s*(?:\^|\*\*)\s*)[-+]?\d{1,2}(?![.,]?\d)"
PATTERN = (
    rf"\d{{1,9}}(?:\s+|-|\s*(?:and|&|y)\s+){_TOP_BOTTOM}"  # 3 1/4, 3-1/4, 3 and 1/4
    rf"|{_TOP_BOTTOM}"
    rf"|(?:(?<![^\W\d_])[.,])?\d(?:[\d.,]*\d)?(?:{_POWER})?"  # 1,280, .5, 1.2e4, 1.2 x 10^4
)
_PARTS = re.compile(r"(?:(?P<whole>\d+)\D+)??(?P<top>\d+)\s*/\s*(?P<bottom>\d+)")
_SCIENTIFIC = re.compile(r"(?P<number>[\d.,]+)(?:e|\s*[x*]\s*10\s*\D+?)(?P<ten>[-+]?\d+)", re.I)

# (form, sign between groups of three, decimal sign); the first that fits is how it is read, a
# second that fits is what somebody brought up with the other custom may have meant.
_FORMS = (
    (re.compile(r"\d+|\d*\.\d+"), "", "."),
    (re.compile(r"[1-9]\d{0,2}(?:,\d{3})+(?:\.\d+)?"), ",", "."),
    (re.compile(r"\d*,\d+"), "", ","),
    (re.compile(r"[1-9]\d{0,2}(?:\.\d{3})+(?:,\d+)?"), ".", ","),
)


@dataclass(frozen=True)
class Written:
    """A number as written: its value, the place of its last digit, and another reading of it.

    `part` is true for a fraction in words, as in "three gallons and a half"; `apart` is what 31/4
    stands for when a space is missing.
    """

    value: Fraction
    step: Fraction
    other: Fraction | None = None
    part: bool = False
    apart: Fraction | None = None


def unreadable(what: str) -> Refusal:
    """The refusal of a text that only a person can make sense of."""
    return Refusal(what, "let the trainer decide")


def read_number(text: str) -> Written:
    """The number written as `text`, which has matched PATTERN. Raises Refusal if it has no sense.

    >>> read_number("1,280").value, read_number("1,280").other, read_number("3 1/4").step
    (Fraction(1280, 1), Fraction(32, 25), Fraction(1, 4))
    """
    if sum(map(str.isdigit, text)) > DIGITS:
        raise unreadable("a number with too many digits")
    if "/" in text:
        return _fraction(text)
    powered = _SCIENTIFIC.fullmatch(text)
    return _scientific(powered) if powered else _decimal(text)


def _scientific(found: re.Match[str]) -> Written:
    ten = int(found["ten"])
    if abs(ten) > DIGITS:
        raise unreadable("a number with too many digits")
    plain = _decimal(found["number"])
    times = Fraction(10) ** ten
    other = None if plain.other is None else plain.other * times
    return replace(plain, value=plain.value * times, step=plain.step * times, other=other)


def _fraction(text: str) -> Written:
    found = _PARTS.fullmatch(text)
    if not found:
        raise unreadable(f'"{text}" is not a number')
    whole, top, bottom = (int(part) if part else None for part in found.groups())
    if not bottom or top is None:
        raise unreadable(f'"{text}" divides by zero')
    if whole is not None and top >= bottom:
        raise unreadable(f'"{text}" is a whole number and more than one')
    apart = _apart(top, bottom) if whole is None else None
    return Written((whole or 0) + Fraction(top, bottom), Fraction(1, bottom), apart=apart)


def _apart(top: int, bottom: int) -> Fraction | None:
    """The mixed number that top/bottom is with a space in it: 3 1/4 for 31/4."""
    digits = str(top)
    splits = ((int(digits[:n]), digits[n:]) for n in range(1, len(digits)))
    mixed = ((w, int(t)) for w, t in splits if t[0] != "0" and int(t) < bottom)
    return next((whole + Fraction(part, bottom) for whole, part in mixed), None)


def _decimal(text: str) -> Written:
    plain = [
        text.replace(group, "").replace(point, ".") if group else text.replace(point, ".")
        for form, group, point in _FORMS
        if form.fullmatch(text)
    ]
    if not plain:
        raise unreadable(f'"{text}" is not a number')
    places = len(plain[0].partition(".")[2])
    other = Fraction(plain[1]) if len(plain) > 1 else None
    return Written(Fraction(plain[0]), Fraction(1, 10**places), other)
