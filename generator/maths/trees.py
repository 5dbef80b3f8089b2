"""A formula as a checked tree: what the text of a formula becomes, and all that is ever evaluated.

Trees are frozen, hashable and picklable. They hold exact fractions and names, nothing that runs.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction


@dataclass(frozen=True)
class Number:
    """An exact constant without a unit."""

    value: Fraction


@dataclass(frozen=True)
class Name:
    """A quantity, a column of rows, a constant of the relation, or `pi`."""

    name: str


@dataclass(frozen=True)
class Negative:
    """Minus what stands inside."""

    inside: Tree


@dataclass(frozen=True)
class Binary:
    """`left op right`; op is one of + - * / ** (the power's right side is a number)."""

    op: str
    left: Tree
    right: Tree


@dataclass(frozen=True)
class Call:
    """A listed function of its arguments."""

    function: str
    arguments: tuple[Tree, ...]


@dataclass(frozen=True)
class Comparison:
    """`left op right`; op is one of == != < <= > >=."""

    op: str
    left: Tree
    right: Tree


Tree = Number | Name | Negative | Binary | Call | Comparison


def children(tree: Tree) -> tuple[Tree, ...]:
    """The trees directly inside `tree`, left to right."""
    match tree:
        case Negative(inside):
            return (inside,)
        case Binary(_, left, right) | Comparison(_, left, right):
            return (left, right)
        case Call(_, arguments):
            return arguments
        case _:
            return ()


def walk(tree: Tree) -> Iterator[Tree]:
    """`tree` and every tree inside it, outermost first."""
    yield tree
    for child in children(tree):
        yield from walk(child)


def names(tree: Tree) -> frozenset[str]:
    """Every name used in `tree`, without `pi`."""
    return frozenset(t.name for t in walk(tree) if isinstance(t, Name)) - {"pi"}


def replace(tree: Tree, values: dict[str, Tree]) -> Tree:
    """`tree` with each name in `values` replaced by the tree given for it."""
    match tree:
        case Name(name):
            return values.get(name, tree)
        case Negative(inside):
            return Negative(replace(inside, values))
        case Binary(op, left, right):
            return Binary(op, replace(left, values), replace(right, values))
        case Comparison(op, left, right):
            return Comparison(op, replace(left, values), replace(right, values))
        case Call(function, arguments):
            return Call(function, tuple(replace(a, values) for a in arguments))
        case _:
            return tree
