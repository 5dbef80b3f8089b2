"""One relation, your own numbers, the working: the owner's desk calculator."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction

from generator.errors import Refusal, nearest
from generator.maths import exact
from generator.maths.amounts import amount_text
from generator.maths.evaluate import Value
from generator.maths.units import Unit, convert, same_kind, shown, spoken
from generator.model.relation import Quantity, Relation
from generator.solving.answer import Outcome, check_names, inexact, plan, work
from generator.solving.arrange import arrange
from generator.solving.explain import working
from generator.solving.sanity import sanity

_GIVEN = re.compile(r"\s*([A-Za-z][A-Za-z0-9_]*)\s*=\s*(.+?)\s*")
_AMOUNT = re.compile(r"(-?[\d./\s]*\d)(?!\s*[\d,])\s*(.*)")  # 12,5 is not 12 of a unit ",5"


@dataclass(frozen=True)
class Answered:
    """The outcome with its working; `unit` as the relation writes it, "" for a verdict."""

    relation: Relation
    outcome: Outcome
    unit: str
    text: str
    inexact: bool
    working: tuple[str, ...]


def answer(relation: Relation, typed: Iterable[str], find: str) -> Answered:
    """Work out `find` from texts such as "stock=12.5%" and "total=13 qt". Raises Refusal."""
    given = read_given(relation, typed)
    check_names(relation, given, find)
    taken = _defaults(relation, given, find)
    given |= taken
    outcome = work(relation, given, find)
    arrangement = arrange(relation, frozenset(given), find)
    quantity = relation.quantities.get(find)
    text = outcome.word.replace("-", " ")
    if outcome.value is not None and quantity:
        text = amount_text(outcome.value, quantity.unit)
    return Answered(
        relation,
        outcome,
        quantity.unit.text if quantity else "",
        text,
        not outcome.word and inexact(outcome, arrangement),
        (
            *(_taken(relation.quantities[name], value) for name, value in taken.items()),
            *working(arrangement, outcome),
            *sanity(relation, outcome),
        ),
    )


def _defaults(relation: Relation, given: dict[str, Value], find: str) -> dict[str, Fraction]:
    """The shop's own numbers for what is not given, where it can't be worked out without them."""
    try:
        plan(relation, frozenset(given), find)
    except Refusal:
        return {
            name: quantity.default
            for name, quantity in relation.quantities.items()
            if quantity.default is not None and name not in given and name != find
        }
    return {}


def _taken(quantity: Quantity, value: Fraction) -> str:
    return f"From shop.yaml: {quantity.label}, {amount_text(value, quantity.unit)}."


def only_unknown(relation: Relation, typed: Iterable[str]) -> str:
    """What to find when it is not said: the one quantity that can follow. Raises Refusal."""
    given = read_given(relation, typed)
    if relation.verdict:
        return "verdict"
    left = [name for name in relation.quantities if name not in given]
    for name in left:
        try:
            plan(relation, frozenset(given), name)
        except Refusal:
            continue
        return name
    raise Refusal("it is not said what to find", f"add --find, one of: {', '.join(left)}")


def read_given(relation: Relation, typed: Iterable[str]) -> dict[str, Value]:
    """The numbers of texts `name=NUMBER[UNIT]`, each in its quantity's own unit.

    A column of rows takes a list: `count=6,2`. Raises Refusal.
    """
    given: dict[str, Value] = {}
    for text in typed:
        found = _GIVEN.fullmatch(text)
        if not found:
            raise Refusal(
                f'"{text}" is not name=number', "write it like total=50 or 'total=50 gal'"
            )
        name, amount = found.groups()
        known = [*relation.quantities, *relation.columns]
        if name not in known:
            raise Refusal(f'{relation.id} has no "{name}"', nearest(name, known))
        if name in given:
            raise Refusal(f'"{name}" is given twice', "keep one of the two")
        given[name] = _value(relation, name, amount)
    return given


def _value(relation: Relation, name: str, amount: str) -> Value:
    if name in relation.columns:
        return tuple(_amount(relation.columns[name], part) for part in amount.split(","))
    return _amount(relation.quantities[name], amount)


def _amount(quantity: Quantity, text: str) -> Fraction:
    found = _AMOUNT.fullmatch(text.strip())
    if not found:
        raise Refusal(f'{quantity.name}: "{text}" is not a number', "write it like 3.25 or 3 1/4")
    number = exact.number(found[1])
    unit = _unit(quantity, found[2].strip())
    value = number if unit is None else convert(number, unit, quantity.unit)
    _check_possible(quantity, value, found[1])
    return value


def _unit(quantity: Quantity, word: str) -> Unit | None:
    """The unit a person wrote, or None for the quantity's own. Raises Refusal."""
    if not word:
        return None
    unit = spoken(word, quantity.unit)
    own = shown(quantity.unit) or "a plain number"
    if unit is None:
        raise Refusal(f'"{word}" is not a unit known here', f"{quantity.name} is in {own}")
    if not same_kind(unit, quantity.unit):
        raise Refusal(
            f"{quantity.name} can't be in {shown(unit)}", f"give it in {own} or a like unit"
        )
    return unit


def _check_possible(quantity: Quantity, value: Fraction, typed: str) -> None:
    if quantity.unit.is_fraction and not 0 <= value <= 1:
        raise Refusal(
            f"{quantity.name}={typed} is no share of the whole", f"did you mean {typed}%?"
        )
    if quantity.unit.text == "%" and value > 100:
        raise Refusal(f"{quantity.name}={typed} is above 100%", "check the number")
    if quantity.low is None and value < 0:
        raise Refusal(f"{quantity.name} is below nothing", "check the number")
