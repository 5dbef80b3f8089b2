"""The units of a formula: dimensions checked, and conversion factors put in where they belong.

A formula states a truth about quantities, not about numbers: `gpm == gal/seconds` is right as it
stands. `in_own_units` turns a tree into one that is right for plain numbers, each in its own
unit, by multiplying with exact factors such as 60 s/min.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction

from generator.errors import Refusal
from generator.maths.trees import Binary, Call, Comparison, Name, Negative, Number, Tree
from generator.maths.units import NONE, Powers, Unit, combine, dimension, parse_unit, ratio, shown

Units = Mapping[str, Unit]


@dataclass(frozen=True)
class Measured:
    """`tree` works on plain numbers and gives a value in `parts`."""

    tree: Tree
    parts: Powers


def in_own_units(tree: Tree, units: Units, target: Unit) -> Tree:
    """`tree` for plain numbers in their own `units`, its value in `target`.

    Raises Refusal when the two sides of a sum differ in kind or the result is not a `target`.
    """
    measured = measure(tree, units)
    if dimension(measured.parts) != dimension(target.parts):
        raise Refusal(
            f"the formula gives {_kind(measured.parts)}, not {shown(target) or 'a plain number'}",
            "check the formula and the units",
        )
    return times(measured.tree, ratio(measured.parts, target.parts))


def plain(tree: Tree, units: Units) -> Tree:
    """`tree` for plain numbers, whatever its unit: for conditions and keep rules."""
    return measure(tree, units).tree


def times(tree: Tree, factor: Fraction) -> Tree:
    """`tree` multiplied by an exact factor (÷ 128 rather than × 1/128); as it is when that is 1."""
    if factor == 1:
        return tree
    whole = factor.numerator == 1
    return Binary("/" if whole else "*", tree, Number(1 / factor if whole else factor))


def measure(tree: Tree, units: Units) -> Measured:
    """The tree for plain numbers, and the unit its value is in. Raises Refusal as above."""
    match tree:
        case Number():
            return Measured(tree, ())
        case Name(name):
            return Measured(tree, units.get(name, NONE).parts)
        case Negative(inside):
            inner = measure(inside, units)
            return Measured(Negative(inner.tree), inner.parts)
        case Comparison(op, left, right):
            a, b = _aligned(measure(left, units), measure(right, units), op)
            return Measured(Comparison(op, a.tree, b.tree), ())
        case Binary("**", left, right):
            return _power(measure(left, units), right, units)
        case Binary(op, left, right):
            return _binary(op, measure(left, units), measure(right, units))
        case Call(function, arguments):
            return _call(function, tuple(measure(a, units) for a in arguments))


def _binary(op: str, left: Measured, right: Measured) -> Measured:
    if op in "+-":
        a, b = _aligned(left, right, op)
        return Measured(Binary(op, a.tree, b.tree), a.parts)
    sign = Fraction(1 if op == "*" else -1)
    return Measured(Binary(op, left.tree, right.tree), combine(left.parts, right.parts, sign))


def _power(base: Measured, exponent: Tree, units: Units) -> Measured:
    if isinstance(exponent, Number):
        parts = combine((), base.parts, exponent.value)
        return Measured(Binary("**", base.tree, exponent), parts)
    top, under = _pure(measure(exponent, units), "a power"), _pure(base, "the base of a power")
    return Measured(Binary("**", under.tree, top.tree), ())


def _call(function: str, arguments: tuple[Measured, ...]) -> Measured:
    first = arguments[0]
    if function == "sqrt":
        parts = combine((), first.parts, Fraction(1, 2))
        return Measured(Call("sqrt", (first.tree,)), parts)
    if function in ("log", "exp"):
        return Measured(Call(function, (_pure(first, f"what {function}() takes").tree,)), ())
    if function == "tan":
        degrees = _stated(first, parse_unit("deg").parts, "the angle of tan()")
        return Measured(Call("tan", (degrees.tree,)), ())
    same = [_aligned(first, other, function)[1].tree for other in arguments[1:]]
    return Measured(Call(function, (first.tree, *same)), first.parts)


def _aligned(left: Measured, right: Measured, op: str) -> tuple[Measured, Measured]:
    if dimension(left.parts) != dimension(right.parts):
        if _is_zero(left) or _is_zero(right):
            return left, right
        raise Refusal(
            f"{_kind(left.parts)} and {_kind(right.parts)} stand on the two sides of {op}",
            "check the formula and the units",
        )
    return left, _stated(right, left.parts, "")


def _is_zero(side: Measured) -> bool:
    return side.tree == Number(Fraction(0))


def _stated(measured: Measured, parts: Powers, what: str) -> Measured:
    if dimension(measured.parts) != dimension(parts):
        raise Refusal(f"{what} is {_kind(measured.parts)}", "check the formula and the units")
    return Measured(times(measured.tree, ratio(measured.parts, parts)), parts)


def _pure(measured: Measured, what: str) -> Measured:
    return _stated(measured, (), what)


def _kind(parts: Powers) -> str:
    if not parts:
        return "a plain number"
    over = [_factor(name, e) for name, e in parts if e > 0]
    under = [_factor(name, -e) for name, e in parts if e < 0]
    return "*".join(over or ["1"]) + "".join(f"/{factor}" for factor in under)


def _factor(name: str, exponent: Fraction) -> str:
    return name if exponent == 1 else f"{name}**{float(exponent):g}"
