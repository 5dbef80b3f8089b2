"""What went wrong with a number: a named slip, a unit mixed up, a decimal point misplaced.

Nothing here decides whether an answer counts. A number rounded by the person may still be named.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction
from functools import lru_cache

from generator.errors import Refusal
from generator.marking.finding import Finding, told
from generator.marking.numbers import PATTERN, read_number
from generator.marking.reader import Reading
from generator.maths.exact import decimal_text
from generator.maths.units import Unit, parse_unit, ratio, shown
from generator.model.item import Answer, Item, SlipValue

_FAMILIES = (
    ("gal", "qt", "pt", "cup", "floz", "L", "mL"),
    ("s", "min", "h"),
    ("in", "ft", "yd"),
    ("lb", "ozwt"),
)
_LEAST_FACTOR = Fraction(5, 2)  # twice as much has too many causes to be called a unit slip
_NUMBER = re.compile(PATTERN)


def named_slip(item: Item, reading: Reading) -> Finding | None:
    """The item's slip whose printed number was written, the nearest if there are two."""
    value = reading.value
    if value is None:
        return None
    own = tolerance(reading)
    near = [(gap, slip) for slip in item.slips if (gap := _gap_to(slip, value, own)) is not None]
    gap, slip = min(near, key=lambda pair: pair[0], default=(None, None))
    if slip is None or (gap and _gap(item.answer, value) < gap):
        return None
    return Finding("slip", slip.id, slip.tell)


def _gap_to(slip: SlipValue, value: Fraction, own: Fraction) -> Fraction | None:
    """How far `value` is from the slip's number, None when it is not that number.

    It is when it lies within half the last digit printed, or within `own`, half the last written.
    """
    if slip.value is None:
        return None
    step, printed = _printed(slip.text)
    if printed is None or abs(printed - slip.value) > step:  # printed as a ratio, say
        step, printed = Fraction(0), slip.value
    gap = min(abs(value - slip.value), abs(value - printed))
    return gap if gap <= max(own, step / 2) else None


@lru_cache(maxsize=1024)
def _printed(text: str) -> tuple[Fraction, Fraction | None]:
    """The place of the last digit of the number printed in `text`, and that number."""
    found = _NUMBER.search(text)
    try:
        written = read_number(found[0]) if found else None
    except Refusal:
        written = None
    if not written:
        return Fraction(0), None
    whole = found and "/" in found[0]  # a printed fraction is exact
    return (Fraction(0) if whole else written.step), written.value


def tolerance(reading: Reading) -> Fraction:
    """Half the last digit the person wrote, if there are enough digits to say anything."""
    value, step = reading.value, reading.step
    return step / 2 if value is not None and abs(value) >= 10 * step else Fraction(0)


def unit_slip(item: Item, reading: Reading) -> Finding | None:
    """A unit of another kind, the right number with the wrong unit, or two units mixed up.

    Where the item names the mixing-up as one of its slips, the finding names it too.
    """
    if reading.unit_wrong:
        return Finding("wrong-unit", tell=_other_kind(item.answer, reading))
    say = reading.language
    if reading.unit and reading.plain is not None and within(item.answer, reading.plain):
        units = {"unit": shown(reading.wanted, say), "own": shown(reading.unit, say)}
        return Finding("wrong-unit", tell=told(say, "right_in", **units))
    mixed = min(_mixed_up(item.answer, reading), default=None)
    if not mixed:
        return None
    named = named_slip(item, reading) or Finding("", tell=mixed[1])
    return replace(named, kind="wrong-unit")


def _other_kind(answer: Answer, reading: Reading) -> str:
    say, unit = reading.language, shown(reading.wanted, reading.language)
    asked = told(say, "write_in", unit=unit) if unit else told(say, "without_unit")
    right = reading.plain is not None and within(answer, reading.plain)
    return f"{told(say, 'unit_only' if right else 'other_kind')} {asked}"


def _mixed_up(answer: Answer, reading: Reading) -> Iterator[tuple[Fraction, str]]:
    """How far off the answer is then, and what to tell, for each mix-up that explains it."""
    value, own = reading.value, tolerance(reading)
    if value is None:
        return
    say = reading.language
    for factor, pair in _factors(reading.wanted).items():
        if within(answer, value / factor, own / factor):
            units = dict(zip(("one", "other"), (shown(each, say) for each in pair), strict=True))
            tell = told(say, "mixed_up", times=_times(factor, say), **units)
            yield _gap(answer, value / factor), tell


@lru_cache(maxsize=256)
def _factors(wanted: Unit) -> dict[Fraction, tuple[Unit, Unit]]:
    """By what a number changes when one unit of `wanted` is taken for another, or turned over."""
    found: dict[Fraction, tuple[Unit, Unit]] = {}
    whole = [(name, int(power)) for name, power in wanted.parts if power.denominator == 1]
    for name, power in whole:
        for other in next((names for names in _FAMILIES if name in names), ()):
            factor = Fraction(ratio(((name, Fraction(1)),), ((other, Fraction(1)),)) ** power)
            if max(factor, 1 / factor) >= _LEAST_FACTOR:
                found.setdefault(factor, (parse_unit(name), parse_unit(other)))
    turned = {1 / factor: pair for factor, pair in found.items()}
    return turned | found


def _times(factor: Fraction, language: str) -> str:
    """ "4 times too big" for 4, "4 times too small" for a quarter."""
    times = decimal_text(max(factor, 1 / factor), 3)
    return told(language, "too_big" if factor > 1 else "too_small", times=times)


def point_slip(item: Item, reading: Reading) -> Finding | None:
    """The right digits, off by a power of ten."""
    if reading.value is None:
        return None
    for places in (*range(1, 7), *range(-6, 0)):
        factor = Fraction(10) ** places
        if within(item.answer, reading.value / factor, tolerance(reading) / factor):
            times = _times(factor, reading.language)
            return Finding("point", tell=told(reading.language, "point", times=times))
    return None


def within(answer: Answer, value: Fraction, more: Fraction = Fraction(0)) -> bool:
    """Whether `value` lies in the accepted range, both ends included, widened by `more`."""
    low = answer.value if answer.low is None else answer.low
    high = answer.value if answer.high is None else answer.high
    return low is not None and high is not None and low - more <= value <= high + more


def _gap(answer: Answer, value: Fraction) -> Fraction:
    """How far `value` is from the answer."""
    exact = answer.value if answer.exact is None else answer.exact
    return abs(value - exact) if exact is not None else Fraction(10**30)
