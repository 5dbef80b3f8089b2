"""How to see that a result can be right: the equation put back, and the result beside a given."""

from __future__ import annotations

from fractions import Fraction

from generator.maths.amounts import amount_text, number_text
from generator.maths.evaluate import value_of
from generator.maths.measure import plain
from generator.maths.notation import written
from generator.maths.trees import Comparison, Tree, names
from generator.maths.units import convert, same_kind
from generator.model.relation import Relation
from generator.solving.answer import Outcome
from generator.solving.arrange import units_of
from generator.solving.explain import printed, row_by_row

FAR = 1000
"""How many times larger one of two amounts may be and still tell something."""


def sanity(relation: Relation, outcome: Outcome) -> tuple[str, ...]:
    """The lines for a number; none for a word but the convention."""
    if outcome.word or outcome.value is None:
        return (f"Convention: {relation.convention}",)
    beside = _beside(relation, outcome)
    lines = [*_put_back(relation, outcome), *([beside] if beside else [])]
    return (*lines, f"Convention: {relation.convention}")


def _put_back(relation: Relation, outcome: Outcome) -> list[str]:
    """Both sides of the first equation with the result in it; none where it was rounded up."""
    if relation.whole:
        return []
    for equation in relation.equations:
        if outcome.find in names(equation) and names(equation) <= outcome.env.keys():
            measured = plain(equation, units_of(relation))
            assert isinstance(measured, Comparison)
            left, right = (_side(s, outcome) for s in (measured.left, measured.right))
            return [f"Put back: {left}, and {right}."]
    return []


def _side(tree: Tree, outcome: Outcome) -> str:
    text = written(row_by_row(tree, outcome), printed(outcome))
    value = number_text(value_of(tree, outcome.env))
    return text if text == value else f"{text} = {value}"


def _beside(relation: Relation, outcome: Outcome) -> str:
    """`That is about 1/10 of finished mix, 30 gal`: the largest given of its kind."""
    own = relation.quantities[outcome.find]
    value, best = outcome.value, Fraction(0)
    said = ""
    for name, quantity in relation.quantities.items():
        other = outcome.env.get(name)
        if name == outcome.find or not isinstance(other, Fraction) or not own.unit.parts:
            continue
        if not same_kind(quantity.unit, own.unit):
            continue
        stated = convert(other, quantity.unit, own.unit)
        if stated > best and value and 1 < FAR * stated / value < FAR**2:
            best = stated
            said = f"{quantity.label}, {amount_text(other, quantity.unit)}"
    return f"That is {_times(value / best)} {said}." if said and value else ""


def _times(ratio: Fraction) -> str:
    if ratio == 1:
        return "the same as"
    if ratio > 1:
        return f"{number_text(ratio.limit_denominator(10))} times"
    share = ratio.limit_denominator(20)
    about = "" if share == ratio else "about "
    return f"{about}{share} of" if share else "next to nothing beside"
