"""The unit a person means by the words beside a number."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from functools import lru_cache

from generator.marking.numbers import unreadable
from generator.marking.text import fold
from generator.maths.units import Unit, combine, parse_unit, same_kind, spoken

MOST_WORDS = 6  # as in "fl oz per sq ft"

_PER = frozenset({"/", "per", "por", "a", "an"})
_DEGREES = frozenset({"°", "deg", "degree", "degrees", "grado", "grados"})
_OUNCES = frozenset({"onza", "onzas", "onz"})
_QUARTS = frozenset({"cuarto", "cuartos"})  # elsewhere quarters
_POUNDS = frozenset({"lb", "lbs", "pound", "pounds", "#", "libra", "libras"})
_GAL, _MIN, _LBF, _DEG = (parse_unit(name) for name in ("gal", "min", "lbf", "deg"))
_FT, _AMP, _QT, _DEGF = (parse_unit(name) for name in ("ft", "A", "qt", "degF"))
# words of every day that are units only where such a thing is asked for
_EVERYDAY = {"in": _FT, "a": _AMP}
# what people write besides, and in Spanish; without accents, spaces and stops
_MORE = {
    word: parse_unit(name)
    for name, words in {
        "gal": "gls galone gallones",
        "L": "lt lts ltr ltrs",
        "qt": "quartz qrt qrts",
        "floz": "ozfl ozliq ozliquidas onzafl onzasfl onzliq",
        "in": "pulg plg",
        "h": "hs",
        "s": "segs sgs",
        "A": "amp amps ampere amperes amperio amperios",
        "usd": "us$ dls dlls",
        "sqft": "feetsquared ftsquared pies2 pie2 pies^2 pie^2 feet2 feet^2 foot^2",
        "sqin": "pulg2 pulg^2",
        "ft/s": "fps",
        "psi": "poundspersquareinch poundpersquareinch poundspersqin lbspersquareinch lbspersqin "
        "lbpersqin lb/in^2 lbs/in2 lbs/in^2 lb/sqin lbs/sqin librasporpulgadacuadrada "
        "libraporpulgadacuadrada lb/pulg2 lbs/pulg2 lb/pulg^2",
        "lbf": "lbforce lbsforce poundsofforce librasfuerza librasdefuerza",
        "%": "porcien",
        "dBA": "decibelsa decibelesa",
    }.items()
    for word in words.split()
}


def unit_of(words: Sequence[str], wanted: Unit) -> Unit | None:
    """The unit that `words` name where `wanted` is asked for, or None when they name none.

    Raises Refusal for a mark with two sensible meanings, such as a bare g for gallons.

    >>> unit_of(["sq", "ft", "per", "hour"], parse_unit("sqft/h")).text
    'sqft/h'
    """
    joined = "".join(words)
    whole = _single(joined, wanted)
    if whole and not ("/" in joined and whole.text == joined):  # in gal/m the m is a minute
        return whole
    cut = next((i for i, word in enumerate(words) if word.lower() in _PER), 0)
    if not 0 < cut < len(words) - 1:
        return whole
    top = _single("".join(words[:cut]), _side(wanted, 1))
    bottom = _single("".join(words[cut + 1 :]), _side(wanted, -1))
    if not (top and bottom):
        return whole
    return Unit(f"{top.text}/{bottom.text}", combine(top.parts, bottom.parts, Fraction(-1)))


def _side(wanted: Unit, sign: int) -> Unit:
    """What stands above (1) or below (-1) the line of `wanted`."""
    return Unit("", tuple((n, abs(power)) for n, power in wanted.parts if power * sign > 0))


@lru_cache(maxsize=4096)
def _single(word: str, wanted: Unit) -> Unit | None:
    """The unit written as one word; some marks hang on what is asked for."""
    small = fold(word) if word.isalpha() else word.lower()
    if small in _EVERYDAY and not same_kind(wanted, _EVERYDAY[small]):
        return None
    if small in _OUNCES:
        return spoken("oz", wanted)
    if small in _DEGREES:
        return _degrees(word, wanted)
    if small == "m" and same_kind(wanted, _MIN):
        return _MIN
    if small in _POUNDS and same_kind(wanted, _LBF):
        return _LBF
    if small in _QUARTS:
        return _QT if same_kind(wanted, _GAL) else None
    if small[-1:] in ("2", "3") and "^" not in small and same_kind(wanted, _FT):
        raise unreadable(f'"{word}" may be square feet or feet and inches')
    if small == "g" and same_kind(wanted, _GAL):
        raise unreadable('"g" may be gallons or grams')
    if small in ("'", '"') and same_kind(wanted, _MIN):
        raise unreadable("a stroke may be minutes, seconds, feet or inches")
    return _MORE.get(small) or spoken(word, wanted)


def _degrees(word: str, wanted: Unit) -> Unit:
    if same_kind(wanted, _DEG):
        return _DEG
    if same_kind(wanted, _DEGF) or word != "°":
        return _DEGF
    raise unreadable('"°" may be degrees or the end of a numeral')  # 3º for third
