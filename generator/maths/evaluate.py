"""Work a tree out with exact numbers: compiled once into closures, then a few microseconds a run.

An environment maps names to fractions, and columns of rows to tuples of fractions.
"""

from __future__ import annotations

import operator
from collections.abc import Callable, Mapping
from fractions import Fraction
from functools import lru_cache
from typing import Any

from generator.errors import Refusal
from generator.maths import exact
from generator.maths.trees import (
    Binary,
    Call,
    Comparison,
    Name,
    Negative,
    Number,
    Tree,
    names,
    walk,
)

Value = Fraction | tuple[Fraction, ...]
Environment = Mapping[str, Value]
Closure = Callable[[Any], Any]
Pair = tuple[int, int]

MOST_BITS = 4096  # of any numerator or denominator; a forty-digit number has 133
_COMPARE = {
    "==": operator.eq,
    "!=": operator.ne,
    "<": operator.lt,
    "<=": operator.le,
    ">": operator.gt,
    ">=": operator.ge,
}


@lru_cache(maxsize=4096)
def compiled(tree: Tree) -> Closure:
    """A function from an environment to the tree's value (a bool for a comparison).

    The function raises Refusal for a division by zero, a root of a negative number or a number
    that grows beyond all reason.
    """
    if isinstance(tree, Comparison):
        return _comparison(tree)
    pair = _pair(tree)
    return lambda env: Fraction(*pair(env))


def _comparison(tree: Comparison) -> Closure:
    compare, left, right = _COMPARE[tree.op], _pair(tree.left), _pair(tree.right)

    def holding(env: Environment) -> bool:
        (a, b), (c, d) = left(env), right(env)
        return bool(compare(a * d, c * b))

    return holding


@lru_cache(maxsize=4096)
def _pair(tree: Tree) -> Callable[[Any], Pair]:
    """Like `compiled`, but giving top and bottom, not yet in lowest terms; the bottom is above 0.

    A formula is a few steps long, so dividing out once at its end is far quicker.
    """
    match tree:
        case Number(value):
            constant = value.numerator, value.denominator
            return lambda env: constant
        case Name("pi"):
            pi = exact.PI.numerator, exact.PI.denominator
            return lambda env: pi
        case Name(name):
            return lambda env: env[name].as_integer_ratio()
        case Negative(inside):
            return _negated(_pair(inside))
        case Binary(op, left, right):
            return _binary(op, _pair(left), _pair(right))
        case Call(function, arguments):
            return _call(function, arguments)
    raise Refusal("a comparison inside a formula", "compare only on the outside")


def _negated(inside: Callable[[Any], Pair]) -> Callable[[Any], Pair]:
    def minus(env: Environment) -> Pair:
        top, bottom = inside(env)
        return -top, bottom

    return minus


def value_of(tree: Tree, env: Environment) -> Fraction:
    """The exact number a formula gives. Raises Refusal as `compiled` says."""
    value = compiled(tree)(env)
    assert isinstance(value, Fraction)
    return value


def holds(tree: Tree, env: Environment) -> bool:
    """Whether a condition is true. Raises Refusal as `compiled` says."""
    return bool(compiled(tree)(env))


def may_be_inexact(tree: Tree) -> bool:
    """Whether the tree has a root, a broken power, a logarithm, an angle or pi in it."""
    return any(_irrational(part) for part in walk(tree))


def _irrational(part: Tree) -> bool:
    match part:
        case Name("pi"):
            return True
        case Call(function, _):
            return function in _BY_SERIES
        case Binary("**", _, Number(exponent)):
            return exponent.denominator != 1
        case Binary("**", _, _):
            return True
        case _:
            return False


def is_inexact(tree: Tree, env: Environment) -> bool:
    """Whether the value with these numbers is right to forty digits only."""
    return may_be_inexact(tree) and any(_rounded(part, env) for part in walk(tree))


def _rounded(part: Tree, env: Environment) -> bool:
    if not _irrational(part):
        return False
    if set(names(part)) & {n for n, v in env.items() if isinstance(v, tuple)}:
        return True
    match part:
        case Binary("**", base, exponent):
            return exact.power(value_of(base, env), value_of(exponent, env))[1]
        case Call(function, (inside,)):
            return _BY_SERIES[function](value_of(inside, env))[1]
        case _:
            return True


def _binary(
    op: str, left: Callable[[Any], Pair], right: Callable[[Any], Pair]
) -> Callable[[Any], Pair]:
    work = _WORK[op]
    return lambda env: work(left(env), right(env))


def _add(one: Pair, other: Pair) -> Pair:
    (a, b), (c, d) = one, other
    return (a + c, b) if b == d else (a * d + c * b, b * d)


def _subtract(one: Pair, other: Pair) -> Pair:
    (a, b), (c, d) = one, other
    return (a - c, b) if b == d else (a * d - c * b, b * d)


def _multiply(one: Pair, other: Pair) -> Pair:
    (a, b), (c, d) = one, other
    return a * c, b * d


def _divide(one: Pair, other: Pair) -> Pair:
    (a, b), (c, d) = one, other
    if not c:
        raise Refusal("a division by zero", "check the numbers")
    return (a * d, b * c) if c > 0 else (-a * d, -b * c)


def _power(one: Pair, other: Pair) -> Pair:
    base, exponent = Fraction(*one), Fraction(*other)
    bits = max(base.numerator.bit_length(), base.denominator.bit_length())
    if abs(exponent) > 1000 or bits * abs(exponent) > MOST_BITS:
        raise Refusal("a number too large to work with", "check the numbers")
    return exact.power(base, exponent)[0].as_integer_ratio()


_WORK: dict[str, Callable[[Pair, Pair], Pair]] = {
    "+": _add,
    "-": _subtract,
    "*": _multiply,
    "/": _divide,
    "**": _power,
}
# each gives its value, and whether that is right to forty digits only
_BY_SERIES: dict[str, Callable[[Fraction], tuple[Fraction, bool]]] = {
    "sqrt": exact.square_root,
    "log": exact.log,
    "exp": exact.exp,
    "tan": exact.tangent_of_degrees,
}
_ONE: dict[str, Callable[[Fraction], Fraction]] = {
    "abs": abs,
    "round": exact.half_up,
    "floor": exact.down,
    "ceil": exact.up,
}
_MANY: dict[str, Callable[..., Fraction]] = {"min": min, "max": max, "sum": sum}


def _call(function: str, arguments: tuple[Tree, ...]) -> Callable[[Any], Pair]:
    closures = [compiled(argument) for argument in arguments]
    if function in _BY_SERIES:
        series, inside = _BY_SERIES[function], closures[0]
        return lambda env: series(inside(env))[0].as_integer_ratio()
    if function in _ONE:
        one, inside = _ONE[function], closures[0]
        return lambda env: one(inside(env)).as_integer_ratio()
    many = _MANY[function]
    if len(arguments) > 1:
        return lambda env: many(closure(env) for closure in closures).as_integer_ratio()
    used = names(arguments[0])
    return lambda env: many(_each_row(closures[0], used, env)).as_integer_ratio()


def _each_row(closure: Closure, used: frozenset[str], env: Environment) -> list[Fraction]:
    columns = {name: env[name] for name in used if isinstance(env[name], tuple)}
    if not any(columns.values()):
        raise Refusal("a sum, a least or a most of no rows", "use a column of rows inside")
    length = max(len(column) for column in columns.values())  # type: ignore[arg-type]
    rows = ({n: c[i] for n, c in columns.items()} for i in range(length))  # type: ignore[index]
    return [closure({**env, **row}) for row in rows]
