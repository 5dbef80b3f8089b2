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
    match tree:
        case Number(value):
            return lambda env: value
        case Name("pi"):
            return lambda env: exact.PI
        case Name(name):
            return operator.itemgetter(name)
        case Negative(inside):
            minus = compiled(inside)
            return lambda env: -minus(env)
        case Binary(op, left, right):
            return _binary(op, compiled(left), compiled(right))
        case Comparison(op, left, right):
            compare, a, b = _COMPARE[op], compiled(left), compiled(right)
            return lambda env: compare(a(env), b(env))
        case Call(function, arguments):
            return _call(function, arguments)


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
        case Name("pi") | Call("sqrt" | "log" | "exp" | "tan", _):
            return True
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
        case Call("sqrt", (inside,)):
            return exact.power(value_of(inside, env), Fraction(1, 2))[1]
        case Call("log", (inside,)):
            return exact.log(value_of(inside, env))[1]
        case Call("exp", (inside,)):
            return exact.exp(value_of(inside, env))[1]
        case Call("tan", (inside,)):
            return exact.tangent_of_degrees(value_of(inside, env))[1]
        case _:
            return True


def _binary(op: str, left: Closure, right: Closure) -> Closure:
    match op:
        case "+":
            return lambda env: left(env) + right(env)
        case "-":
            return lambda env: left(env) - right(env)
        case "*":
            return lambda env: left(env) * right(env)
        case "/":
            return lambda env: _divide(left(env), right(env))
    return lambda env: _power(left(env), right(env))


def _divide(top: Fraction, bottom: Fraction) -> Fraction:
    if not bottom:
        raise Refusal("a division by zero", "check the numbers")
    return top / bottom


def _power(base: Fraction, exponent: Fraction) -> Fraction:
    bits = max(base.numerator.bit_length(), base.denominator.bit_length())
    if abs(exponent) > 1000 or bits * abs(exponent) > MOST_BITS:
        raise Refusal("a number too large to work with", "check the numbers")
    return exact.power(base, exponent)[0]


_ONE: dict[str, Callable[[Fraction], Fraction]] = {
    "sqrt": lambda v: exact.power(v, Fraction(1, 2))[0],
    "log": lambda v: exact.log(v)[0],
    "exp": lambda v: exact.exp(v)[0],
    "tan": lambda v: exact.tangent_of_degrees(v)[0],
    "abs": abs,
    "round": exact.half_up,
    "floor": exact.down,
    "ceil": exact.up,
}
_MANY: dict[str, Callable[..., Fraction]] = {"min": min, "max": max, "sum": sum}


def _call(function: str, arguments: tuple[Tree, ...]) -> Closure:
    closures = [compiled(argument) for argument in arguments]
    if function in _ONE:
        one, inside = _ONE[function], closures[0]
        return lambda env: one(inside(env))
    many = _MANY[function]
    if len(arguments) > 1:
        return lambda env: many(closure(env) for closure in closures)
    used = names(arguments[0])
    return lambda env: many(_each_row(closures[0], used, env))


def _each_row(closure: Closure, used: frozenset[str], env: Environment) -> list[Fraction]:
    columns = {name: env[name] for name in used if isinstance(env[name], tuple)}
    length = max((len(column) for column in columns.values()), default=0)  # type: ignore[arg-type]
    rows = ({n: c[i] for n, c in columns.items()} for i in range(length))  # type: ignore[index]
    return [closure({**env, **row}) for row in rows]
