"""`{name}` in a text: a look-up in a table of values, never an expression.

A value prints with its unit. `settings` makes the table of everything shop.yaml holds, under
names such as `shop.wash.house` and `shop.rig-1.tank_gal`.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, fields
from fractions import Fraction

from generator.errors import Refusal, nearest
from generator.maths import exact
from generator.maths.amounts import amount_text, mixed_text, number_text
from generator.maths.units import Unit, parse_unit, shown
from generator.model.shop import Limits, Rig, Shop, Wash
from generator.words import LANGUAGES, WRITTEN_IN, enumerated

BRACED = re.compile(r"\{([^{}]*)\}")
"""A look-up as it stands in a text, its name in the group."""
_OWNED = re.compile(r"shop\.(rig-\d+|stock\.\d+|wash\.[\w-]+)\b.*")
_NEEDS_TESTS = "shop.stock_half"
_UNMEASURED = {kind: {f.name for f in fields(kind) if f.default is None} for kind in (Rig, Wash)}
_UNITS = {  # by the last word of a setting's name; the others are their own unit
    "a": "A",
    "ah": "Ah",
    "f": "degF",
    "oz": "floz",
    "overlap": "fraction",
    "reserve": "fraction",
    "slack": "fraction",
}


@dataclass(frozen=True)
class Setting:
    """A look-up's values (one, or a list such as the stock on hand), their unit and text."""

    values: tuple[Fraction, ...]
    unit: Unit
    text: str
    others: Mapping[str, str] = field(default_factory=dict)  # the text in other languages

    def said(self, language: str) -> str:
        """The text in a language."""
        return self.others.get(language, self.text)

    def one(self, name: str) -> Fraction:
        """The number, for whoever looked it up under that name. Raises Refusal unless it is one."""
        if len(self.values) != 1:
            raise Refusal(f'"{name}" is not one number', "name one of its values")
        return self.values[0]

    @property
    def absent(self) -> bool:
        """Whether it is about a rig or a stock that this shop does not have."""
        return self is ABSENT


ABSENT = Setting((), parse_unit("1"), "")
Table = Mapping[str, Setting]


def looked_up(name: str, table: Table) -> Setting:
    """The setting of a name; ABSENT for a rig, stock or measurement that this shop lacks.

    Raises Refusal for a name that can't be meant, offering the nearest.
    """
    if name in table:
        return table[name]
    if name == _NEEDS_TESTS or (_OWNED.fullmatch(name) and _has_such(name, table)):
        return ABSENT
    raise Refusal(f'"{{{name}}}" is not a known look-up', nearest(name, table))


def listed(name: str, table: Table) -> tuple[Fraction, ...]:
    """The values of a list of the shop. Raises Refusal for a name that shop.yaml lacks."""
    if name not in table:
        raise Refusal(f'"{name}" is not in shop.yaml', nearest(name, table))
    return table[name].values


def _has_such(name: str, table: Table) -> bool:
    """Whether a shop could have it: the first rig or stock has, or it may be left unmeasured."""
    owner, _, last = name.rpartition(".")
    if owner.startswith("shop.wash."):
        return owner in table and last in _UNMEASURED[Wash]
    return last in _UNMEASURED[Rig] or re.sub(r"\d+", "1", name, count=1) in table


def names_in(text: str) -> list[str]:
    """The names of all look-ups in a text, each once, in their order."""
    return list(dict.fromkeys(found.strip() for found in BRACED.findall(text)))


def filled(
    text: str, table: Table, left: frozenset[str] = frozenset(), language: str = WRITTEN_IN
) -> str:
    """`text`, of that language, with every look-up replaced; names in `left` are kept for later.

    A line about a rig or stock that the shop does not have is left out.
    Raises Refusal for a name the table lacks, offering the nearest.
    """
    lines = (_filled_line(line, table, left, language) for line in text.split("\n"))
    return "\n".join(line for line in lines if line is not None)


def _filled_line(line: str, table: Table, left: frozenset[str], language: str) -> str | None:
    found = {name: looked_up(name, table) for name in names_in(line) if name not in left}
    if any(setting.absent for setting in found.values()):
        return None
    texts = {name: setting.said(language) for name, setting in found.items()}
    return BRACED.sub(lambda braced: texts.get(braced[1].strip(), braced[0]), line)


def setting(value: Fraction, unit: str) -> Setting:
    """One number as a look-up."""
    parsed = parse_unit(unit)

    def text(language: str) -> str:
        if parsed.is_fraction:  # the owner writes 30%, and reads it
            return f"{number_text(value * 100)}%"
        if value < 1 and value.denominator in (2, 4, 8) and unit in ("gal", "in"):
            return f"{mixed_text(value)} {shown(parsed, language)}"
        return amount_text(value, parsed, language=language)

    return in_each((value,), parsed, text)


def in_each(values: tuple[Fraction, ...], unit: Unit, text: Callable[[str], str]) -> Setting:
    """A look-up with its text in each language."""
    others = {language: text(language) for language in LANGUAGES if language != WRITTEN_IN}
    return Setting(values, unit, text(WRITTEN_IN), others)


def words(text: str) -> Setting:
    """A text as a look-up."""
    return Setting((), parse_unit("1"), text)


def settings(shop: Shop) -> dict[str, Setting]:
    """Every look-up of shop.yaml."""
    table = {
        "shop.name": words(shop.name),
        "shop.stock": _many(shop.stock, "%"),
        "shop.wash_strengths": _many(tuple(w.strength for w in shop.washes), "%"),
        "shop.ladders": _many(shop.ladders, "ft"),
        "shop.jug_mark": setting(shop.jug_mark_gal, "gal"),
    }
    for place, stock in enumerate(shop.stock, 1):
        table[f"shop.stock.{place}"] = setting(stock, "%")
    for wash in shop.washes:
        table[f"shop.wash.{wash.id}"] = setting(wash.strength, "%")
        table[f"shop.wash.{wash.id}.soap"] = setting(wash.soap, "floz/gal")
        if wash.coverage is not None:
            table[f"shop.wash.{wash.id}.coverage"] = setting(wash.coverage, "sqft/gal")
        if wash.dwell_from is not None and wash.dwell_to is not None:
            table[f"shop.wash.{wash.id}.dwell_from"] = setting(wash.dwell_from, "min")
            table[f"shop.wash.{wash.id}.dwell_to"] = setting(wash.dwell_to, "min")
    if shop.stock_half is not None:
        table[_NEEDS_TESTS] = setting(exact.half_up(shop.stock_half), "day")
    for name, value in _numbers_of(shop.limits).items():
        table[f"shop.limit.{name}"] = value
    for rig in shop.rigs:
        for name, value in rig_values(rig).items():
            table[f"shop.{rig.id}.{name}"] = value
        table[f"shop.{rig.id}.name"] = words(rig.name)
    return table


def rig_values(rig: Rig) -> dict[str, Setting]:
    """The numbers of one rig by name: `tank_gal`, `usable_gal`, `machine_gpm`…"""
    return _numbers_of(rig) | {"usable_gal": setting(rig.usable_gal, "gal")}


def _numbers_of(holder: Rig | Limits) -> dict[str, Setting]:
    """Every number of a rig or of the limits, the unit read from the end of its name."""
    numbers = {f.name: getattr(holder, f.name) for f in fields(holder)}
    return {
        name: setting(value, _UNITS.get(unit, unit))
        for name, value in numbers.items()
        if isinstance(value, Fraction) and (unit := name.rsplit("_", 1)[-1])
    }


def _many(values: tuple[Fraction, ...], unit: str) -> Setting:
    parsed = parse_unit(unit)

    def text(language: str) -> str:
        each = [amount_text(value, parsed, language=language) for value in values]
        return enumerated(each, language) if each else ""

    return in_each(values, parsed, text)
