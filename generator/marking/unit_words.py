"""The unit a person means by the words beside a number."""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache

from generator.marking.numbers import unreadable
from generator.marking.text import fold
from generator.maths.units import Unit, combine, parse_unit, same_kind, spoken

MOST_WORDS = 7  # "fl oz of" ... "square feet per hour" has four, "parts per million" three

_PER = frozenset({"/", "per", "por", "a", "an"})
_DEGREES = frozenset({"°", "deg", "degree", "degrees", "grado", "grados"})
_OUNCES = frozenset({"onza", "onzas"})
_POUNDS = frozenset({"lb", "lbs", "pound", "pounds", "#", "libra", "libras"})
_GAL, _MIN, _LBF, _DEG = (parse_unit(name) for name in ("gal", "min", "lbf", "deg"))
_FT = parse_unit("ft")


def unit_of(words: Sequence[str], wanted: Unit) -> Unit | None:
    """The unit that `words` name where `wanted` is asked for, or None when they name none.

    Raises Refusal for a mark with two sensible meanings, such as a bare g for gallons.

    >>> unit_of(["sq", "ft", "per", "hour"], parse_unit("sqft/h")).text
    'sqft/h'
    """
    whole = _single("".join(words), wanted)
    if whole:
        return whole
    cut = next((i for i, word in enumerate(words) if word.lower() in _PER), 0)
    if not 0 < cut < len(words) - 1:
        return None
    top = _single("".join(words[:cut]), _side(wanted, 1))
    bottom = _single("".join(words[cut + 1 :]), _side(wanted, -1))
    if not (top and bottom):
        return None
    return Unit(f"{top.text}/{bottom.text}", combine(top.parts, bottom.parts, parse_minus()))


def _side(wanted: Unit, sign: int) -> Unit:
    """What stands above (1) or below (-1) the line of `wanted`."""
    return Unit("", tuple((n, abs(power)) for n, power in wanted.parts if power * sign > 0))


@lru_cache(maxsize=4096)
def _single(word: str, wanted: Unit) -> Unit | None:
    """The unit written as one word; some marks hang on what is asked for."""
    small = fold(word) if word.isalpha() else word
    if small in _OUNCES:
        return spoken("oz", wanted)
    if small in _DEGREES:
        return _DEG if same_kind(wanted, _DEG) else spoken("degrees", wanted)
    if small == "m" and same_kind(wanted, _MIN):
        return _MIN
    if small in _POUNDS and same_kind(wanted, _LBF):
        return _LBF
    if small == "g" and same_kind(wanted, _GAL):
        raise unreadable('"g" may be gallons or grams')
    if small in ("'", '"') and same_kind(wanted, _MIN):
        raise unreadable("a stroke may be minutes, seconds, feet or inches")
    return spoken(word, wanted)
