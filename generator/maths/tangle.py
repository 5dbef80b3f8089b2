"""How tangled equations are, told before algebra is let loose on them, which may never end.

What the rules of a trade need is far below the bounds: products and quotients of anything, sums
that lead to a quadratic at most, whose terms stay few when everything stands over one line, and of
several equations together only those in which the unknowns are added.
"""

from __future__ import annotations

from collections.abc import Collection
from math import comb

from generator.maths.trees import Binary, Call, Name, Negative, Number, Tree, walk

MOST_DEGREE, MOST_TERMS, FINEST = 2, 100, 4
Pair = tuple[int, int]  # of what stands above and below the line, as one fraction


def is_too_tangled(equations: Collection[Tree], unknowns: frozenset[str]) -> bool:
    """Whether solving the equations together for the unknowns may take beyond all reason."""
    alone = len(equations) == 1
    sums = [equation for equation in equations if not alone or terms(equation)[0] > 2]
    return (
        any(degree(each, unknowns)[0] > (MOST_DEGREE if alone else 1) for each in sums)
        or any(max(terms(each)) > MOST_TERMS for each in sums)
        or any(_is_fine(part) for each in sums for part in walk(each))
    )


def degree(tree: Tree, unknowns: Collection[str]) -> Pair:
    """The degree in the unknowns together; what is under a root counts twice."""
    match tree:
        case Name(name):
            return int(name in unknowns), 0
        case Number():
            return 0, 0
        case Negative(inside):
            return degree(inside, unknowns)
        case Call(_, arguments):
            return 2 * max(sum(degree(argument, unknowns)) for argument in arguments), 0
        case Binary("**", base, exponent):
            (a, b), times = degree(base, unknowns), _times(exponent)
            return a * times + 2 * sum(degree(exponent, unknowns)), b * times
    (a, b), (c, d) = degree(tree.left, unknowns), degree(tree.right, unknowns)
    match tree.op:
        case "*":
            return a + c, b + d
        case "/":
            return a + d, b + c
    return max(a + d, c + b), b + d


def terms(tree: Tree) -> Pair:
    """At most how many terms there are, everything multiplied out."""
    match tree:
        case Negative(inside):
            return terms(inside)
        case Name() | Number() | Call():
            return 1, 1
        case Binary("**", base, exponent):
            (a, b), times = terms(base), _times(exponent)
            return comb(a + times - 1, times), comb(b + times - 1, times)
    (a, b), (c, d) = terms(tree.left), terms(tree.right)
    match tree.op:
        case "*":
            return a * c, b * d
        case "/":
            return a * d, b * c
    return a * d + c * b, b * d


def _times(exponent: Tree) -> int:
    """How often a power multiplies its base; a broken or unknown one as often as a square root."""
    if isinstance(exponent, Number) and exponent.value.denominator == 1:
        return max(1, abs(int(exponent.value)))
    return 2


def _is_fine(part: Tree) -> bool:
    """Whether it is a power such as 4.87, for which 487 hundredth roots are multiplied."""
    match part:
        case Binary("**", _, Number(exponent)):
            return exponent.denominator > FINEST
    return False
