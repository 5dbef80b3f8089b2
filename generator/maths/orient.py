"""Turn differences round so that they read naturally: `out − in`, not `−1 × (in − out)`.

Algebra does not care which way a difference is written; a person does. Sample numbers decide: a
difference that comes out negative is turned, and the signs are settled along the product.
"""

from __future__ import annotations

from fractions import Fraction

from generator.errors import Refusal
from generator.maths.evaluate import Environment, value_of
from generator.maths.trees import Binary, Call, Comparison, Name, Negative, Number, Tree, names


def oriented(tree: Tree, sample: Environment) -> Tree:
    """The same formula, its differences turned to be positive with the `sample` numbers."""
    sign, turned = _oriented(tree, sample)
    return turned if sign > 0 else Negative(turned)


def _oriented(tree: Tree, sample: Environment) -> tuple[int, Tree]:
    match tree:
        case Number(value) if value < 0:
            return -1, Number(-value)
        case Negative(inside):
            sign, turned = _oriented(inside, sample)
            return -sign, turned
        case Binary("*" | "/" as op, left, right):
            sign_left, a = _oriented(left, sample)
            sign_right, b = _oriented(right, sample)
            return sign_left * sign_right, _joined(op, a, b)
        case Binary("-", left, right):
            a, b = oriented(left, sample), oriented(right, sample)
            return (-1, Binary("-", b, a)) if _negative(tree, sample) else (1, Binary("-", a, b))
        case Binary("+", left, right):
            return 1, _sum(oriented(left, sample), oriented(right, sample))
        case Call(function, arguments):
            return 1, Call(function, tuple(oriented(a, sample) for a in arguments))
        case Binary(op, left, right):
            return 1, Binary(op, oriented(left, sample), oriented(right, sample))
        case Name() | Number() | Comparison():
            return 1, tree


def _joined(op: str, left: Tree, right: Tree) -> Tree:
    """The product or quotient, without a needless 1."""
    one = Number(Fraction(1))
    if right == one or (op == "*" and left == one):
        return left if right == one else right
    return Binary(op, left, right)


def _sum(left: Tree, right: Tree) -> Tree:
    return (
        Binary("-", left, right.inside) if isinstance(right, Negative) else Binary("+", left, right)
    )


def _negative(tree: Tree, sample: Environment) -> bool:
    if any(isinstance(sample.get(name, ()), tuple) for name in names(tree)):
        return False  # the sample lacks the name, or holds a column of it: leave it as it is
    try:
        return value_of(tree, sample) < 0
    except Refusal:
        return False
