"""Units as exact products of a small table, with their dimensions.

Base units are the inch, second, pound (mass), Fahrenheit degree (difference), dollar, ampere,
mole and the decibel (A). Sources of the factors: NIST Handbook 44 App. C and NIST SP 811 App. B
(inch and pound are exact in SI since 1959, 1 gal is 231 cubic inches, standard gravity 9.80665
m/s2).
"""

from __future__ import annotations

import ast
import re
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache

from generator.errors import Refusal, nearest
from generator.maths import exact
from generator.maths.grammar import expression
from generator.words import WRITTEN_IN, words

Powers = tuple[tuple[str, Fraction], ...]
"""Names with their exponents, sorted by name, none of them zero."""

_G = Fraction(980665, 2540)  # in/s2
_KG = Fraction(100000000, 45359237)  # lb

# name -> (factor in base units, dimension)
_ATOMS: dict[str, tuple[Fraction, dict[str, int]]] = {
    "in": (Fraction(1), {"length": 1}),
    "ft": (Fraction(12), {"length": 1}),
    "yd": (Fraction(36), {"length": 1}),
    "mi": (Fraction(63360), {"length": 1}),
    "mm": (Fraction(10, 254), {"length": 1}),
    "cm": (Fraction(100, 254), {"length": 1}),
    "m": (Fraction(10000, 254), {"length": 1}),
    "gal": (Fraction(231), {"length": 3}),
    "qt": (Fraction(231, 4), {"length": 3}),
    "pt": (Fraction(231, 8), {"length": 3}),
    "cup": (Fraction(231, 16), {"length": 3}),
    "floz": (Fraction(231, 128), {"length": 3}),
    "tbsp": (Fraction(231, 256), {"length": 3}),
    "tsp": (Fraction(231, 768), {"length": 3}),
    "L": (Fraction(10**6, 254**3) * 1000, {"length": 3}),
    "mL": (Fraction(10**6, 254**3), {"length": 3}),
    "s": (Fraction(1), {"time": 1}),
    "min": (Fraction(60), {"time": 1}),
    "h": (Fraction(3600), {"time": 1}),
    "day": (Fraction(86400), {"time": 1}),
    "lb": (Fraction(1), {"mass": 1}),
    "ozwt": (Fraction(1, 16), {"mass": 1}),
    "g": (_KG / 1000, {"mass": 1}),
    "kg": (_KG, {"mass": 1}),
    "mg": (_KG / 10**6, {"mass": 1}),
    "lbf": (_G, {"mass": 1, "length": 1, "time": -2}),
    "psi": (_G, {"mass": 1, "length": -1, "time": -2}),
    "hp": (550 * 12 * _G, {"mass": 1, "length": 2, "time": -3}),
    "btu": (
        Fraction("1055.05585262") * _KG * Fraction(10**8, 254**2),
        {"mass": 1, "length": 2, "time": -2},
    ),
    "degF": (Fraction(1), {"temperature": 1}),
    "dBA": (Fraction(1), {"level": 1}),
    "usd": (Fraction(1), {"money": 1}),
    "A": (Fraction(1), {"current": 1}),
    "mol": (Fraction(1), {"amount": 1}),
    "%": (Fraction(1, 100), {}),
    "ppm": (Fraction(1, 10**6), {}),
    "deg": (Fraction(1), {"angle": 1}),
}
_COMPOUND = {
    "gpm": "gal/min",
    "gph": "gal/h",
    "sqft": "ft**2",
    "sqin": "in**2",
    "cuft": "ft**3",
    "mph": "mi/h",
    "Ah": "A*h",
    "1": "",
    "fraction": "",
}
MOST_EXPONENT = 12
UNIT_NAMES = frozenset(_ATOMS) | frozenset(_COMPOUND)


@dataclass(frozen=True)
class Unit:
    """A unit as written, and what it is made of. `fraction` marks a share from 0 to 1."""

    text: str
    parts: Powers = ()

    @property
    def is_fraction(self) -> bool:
        """Whether a value is a share of the whole, so that a bare 30 is surely a mistake."""
        return self.text == "fraction"


NONE = Unit("1")


def combine(left: Powers, right: Powers, times: Fraction = Fraction(1)) -> Powers:
    """`left * right**times`, as exponents."""
    total = dict(left)
    for name, exponent in right:
        total[name] = total.get(name, Fraction(0)) + exponent * times
    return tuple(sorted((n, e) for n, e in total.items() if e))


@lru_cache(maxsize=512)
def parse_unit(text: str) -> Unit:
    """The unit written as `gal`, `ft/min` or `psi*in**4.87/(ft*gpm**1.85)`.

    Raises Refusal for an unknown name or anything that is not a product of powers.
    """
    if "%" in text and text != "%":
        raise Refusal(f'"{text}" mixes % with other units', "use % alone")
    if text in ("%", "1", "fraction"):
        return Unit(text, (("%", Fraction(1)),) if text == "%" else ())
    safe = re.sub(r"\bin\b", "inch", text)  # `in` is a word of Python's own
    body = expression(safe) if len(text) <= 100 else None
    if body is None:
        raise Refusal(f'"{text}" is not a unit', "write it like gal, ft/min or lb/gal")
    parts = _parts(body, safe)
    if any(abs(exponent) > MOST_EXPONENT for _, exponent in parts):
        raise Refusal(f'"{text}" has too high a power', f"{MOST_EXPONENT} is the limit")
    return Unit(text, parts)


def _parts(node: ast.expr, text: str) -> Powers:
    match node:
        case ast.Name(id=name):
            return _named(name)
        case ast.Constant(value=1):
            return ()
        case ast.BinOp(left=left, op=ast.Mult(), right=right):
            return combine(_parts(left, text), _parts(right, text))
        case ast.BinOp(left=left, op=ast.Div(), right=right):
            return combine(_parts(left, text), _parts(right, text), Fraction(-1))
        case ast.BinOp(left=left, op=ast.Pow(), right=ast.Constant() as exponent):
            written = ast.get_source_segment(text, exponent) or ""
            return combine((), _parts(left, text), exact.number(written))
    raise Refusal(f'"{text}" is not a unit', "write it like gal, ft/min or lb/gal")


def _named(name: str) -> Powers:
    name = "in" if name == "inch" else name
    if name in _COMPOUND:
        return parse_unit(_COMPOUND[name]).parts if _COMPOUND[name] else ()
    if name not in _ATOMS:
        raise Refusal(f'the unit "{name}" is not known', nearest(name, UNIT_NAMES))
    return ((name, Fraction(1)),)


@lru_cache(maxsize=1024)
def size(parts: Powers) -> Fraction:
    """How many base units one of these is (forty digits where a power is not rational)."""
    total = Fraction(1)
    for name, exponent in parts:
        total *= exact.power(_ATOMS[name][0], exponent)[0]
    return total


@lru_cache(maxsize=1024)
def dimension(parts: Powers) -> Powers:
    """The dimension as exponents of length, time, mass and the other base kinds."""
    total: Powers = ()
    for name, exponent in parts:
        own = tuple((d, Fraction(e)) for d, e in _ATOMS[name][1].items())
        total = combine(total, own, exponent)
    return total


def same_kind(left: Unit, right: Unit) -> bool:
    """Whether a value of one can be stated in the other."""
    return dimension(left.parts) == dimension(right.parts)


def ratio(source: Powers, target: Powers) -> Fraction:
    """How many `target` one `source` is; the two must be of one dimension."""
    return size(combine(source, target, Fraction(-1)))


def convert(value: Fraction, source: Unit, target: Unit) -> Fraction:
    """`value` stated in `target`. Raises Refusal when the units measure different things."""
    if not same_kind(source, target):
        raise Refusal(
            f"{shown(source)} can't be turned into {shown(target)}",
            f"give a number in {shown(target)} or a unit of the same kind",
        )
    return value * ratio(source.parts, target.parts)


def shown(unit: Unit, language: str = WRITTEN_IN, one: bool = False) -> str:
    """The unit as pages print it: `fl oz`, `sq ft`, `fl oz/gal`; "" for a plain number.

    `one` when it follows the number 1, for languages where that matters.
    """
    return _shown(unit.text, language, one)


@lru_cache(maxsize=1024)
def _shown(text: str, language: str, one: bool) -> str:
    said = words(language)
    names = {**said["units"], **(said["one"] if one else {}), **_UNNAMED}
    parts = re.findall(r"[A-Za-z%]+|[^A-Za-z%]+", text)
    return "".join(names.get(part, part) for part in parts) if text != "1" else ""


_UNNAMED = {"1": "", "fraction": ""}

# What people write for a unit; "oz" is fluid where a volume is wanted, weight where a mass is.
_SPOKEN = {
    "gal": "gallon gallons gals gal. gl galls galon galons galón galones",
    "qt": "quart quarts qts qt.",
    "pt": "pint pints pts pt. pinta pintas",
    "cup": "cups taza tazas",
    "floz": "fl.oz fl.oz. floz. fluidounce fluidounces flozs fl-oz fluidoz flounce flounces"
    " onzafluida onzasfluidas onzalíquida onzaslíquidas onzaliquida onzasliquidas",
    "tbsp": "tablespoon tablespoons tbs tbsp. tbsps tbl cucharada cucharadas",
    "tsp": "teaspoon teaspoons tsp. tsps cucharadita cucharaditas",
    "L": "l liter liters litre litres litro litros",
    "mL": "ml milliliter milliliters millilitre millilitres cc mililitro mililitros",
    "in": 'inch inches in. ins " pulgada pulgadas',
    "ft": "foot feet ft. ' pie pies",
    "yd": "yard yards yds yarda yardas",
    "mi": "mile miles milla millas",
    "s": "sec secs second seconds sec. segundo segundos seg",
    "min": "mins minute minutes min. minuto minutos",
    "h": "hr hrs hour hours hr. hora horas",
    "day": "days día días dia dias",
    "lb": "lbs pound pounds lb. # libra libras",
    "ozwt": "ozwt. oz.wt weightoz ozweight oz(weight) ounceweight ouncesweight"
    " weightounces onzadepeso onzasdepeso",
    "g": "gram grams gramo gramos",
    "kg": "kilo kilos kilogram kilograms kilogramo kilogramos",
    "lbf": "pound-force poundforce pounds-force poundsforce",
    "%": "percent pct per-cent porciento",
    "ppm": "ppm. parts-per-million partspermillion partespormillon partespormillón mg/l mg/L",
    "sqft": "sqft. squarefeet squarefoot ft2 ft^2 ft² sf squareft sqfeet sqfoot sq-ft"
    " piescuadrados piecuadrado",
    "sqin": "squareinches squareinch sqinches sqinch in2 in^2 in² pulgadascuadradas",
    "cuft": "cubicfeet cubicfoot cubicft cufeet ft3 ft^3 ft³ piescúbicos piescubicos",
    "gpm": "gal/min gallonsperminute gals/min g.p.m. galonesporminuto",
    "gph": "gal/h gal/hr gallonsperhour galonesporhora",
    "ft/min": "fpm feetperminute",
    "usd": "$ dollar dollars dólar dólares dolar dolares buck bucks",
    "degF": "f °f °F degrees fahrenheit degreesf degreesfahrenheit °fahrenheit",
    "dBA": "dba db dB decibel decibels decibelios decibeles",
    "psi": "psi. lb/in2",
    "mph": "mi/h milesperhour",
}
_BY_WORD = {word: name for name, words in _SPOKEN.items() for word in words.split()}
_OUNCE = {"oz", "oz.", "ounce", "ounces", "ozs"}


def spoken(word: str, wanted: Unit) -> Unit | None:
    """The unit a person means by `word` where `wanted` is asked for, or None.

    >>> spoken("oz", parse_unit("gal")).text
    'floz'
    """
    squeezed = word.strip().replace(" ", "")
    for candidate in (squeezed, squeezed.lower()):
        if candidate in _OUNCE:
            volume = same_kind(wanted, parse_unit("gal")) or not same_kind(wanted, parse_unit("lb"))
            return parse_unit("floz" if volume else "ozwt")
        if candidate in _BY_WORD:
            return parse_unit(_BY_WORD[candidate])
        if candidate in UNIT_NAMES and candidate not in ("1", "fraction"):
            return parse_unit(candidate)
    try:
        return parse_unit(squeezed) if re.search(r"[/*]", squeezed) else None
    except Refusal:
        return None
