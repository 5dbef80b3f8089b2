"""Solving equations for one name, by sympy: trees go in, trees come out.

A broken power of the unknown is first replaced by a symbol of its own, since a plain solve hangs
on exponents such as 1.85 and 4.87.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from functools import lru_cache

import sympy

from generator.errors import Refusal
from generator.maths.symbols import Symbols
from generator.maths.tangle import is_too_tangled
from generator.maths.trees import Call, Comparison, Name, Tree, names, walk

Equations = tuple[Comparison, ...]


@lru_cache(maxsize=1024)
def solve(equations: Equations, unknowns: tuple[str, ...], find: str) -> tuple[Tree, ...]:
    """Every formula for `find` that makes all `equations` true, `unknowns` being not given.

    `find` is one of `unknowns`, and there are as many equations as unknowns.
    Raises Refusal, with the reason, when it can't be isolated.
    """
    if (stated := _stated(equations, find)) is not None:
        return (stated,)
    _check_solvable(equations, unknowns)
    if is_too_tangled(equations, frozenset(unknowns)):
        raise _stuck(find)
    symbols = Symbols(unknowns)
    zeros = [symbols.expression(e.left) - symbols.expression(e.right) for e in equations]
    targets = [symbols.of[name] for name in unknowns]
    if any(_entangled(zero, targets) for zero in zeros):
        raise _stuck(find)
    solutions = _solutions(zeros, targets, symbols.of[find])
    possible = [solution for solution in solutions if not solution.is_negative]
    if not possible:
        raise _stuck(find)
    return tuple(symbols.tree(_tidy(solution)) for solution in possible)


def _stated(equations: Equations, find: str) -> Tree | None:
    """The other side of a lone equation that already says `find == …`, as its author wrote it."""
    if len(equations) > 1:
        return None
    for one, other in (
        (equations[0].left, equations[0].right),
        (equations[0].right, equations[0].left),
    ):
        if one == Name(find) and find not in names(other):
            return other
    return None


def null_space(rows: Sequence[Sequence[int]]) -> list[tuple[Fraction, ...]]:
    """A basis of everything that a matrix of whole numbers turns into nothing."""
    vectors = sympy.Matrix(rows).nullspace()
    return [tuple(Fraction(int(x.p), int(x.q)) for x in vector) for vector in vectors]


def _check_solvable(equations: Equations, unknowns: Sequence[str]) -> None:
    for equation in equations:
        for part in walk(equation):
            if not isinstance(part, Call) or part.function in ("sqrt", "log", "exp"):
                continue
            inside = names(part) & set(unknowns)
            if inside:
                raise Refusal(
                    f'"{min(inside)}" stands inside {part.function}()',
                    "this relation only runs forward there; give that number and ask for another",
                )


def _entangled(zero: sympy.Expr, unknowns: list[sympy.Symbol]) -> bool:
    """Whether unknowns stand inside a logarithm or an exponent, and outside it as well.

    No formula isolates those, and sympy would search for one without end.
    """
    parts = [p for p in zero.atoms(sympy.exp, sympy.log, sympy.Pow) if _bends(p, unknowns)]
    if not parts:
        return False
    left = zero.subs({part: sympy.Dummy() for part in parts})
    return len(parts) > 1 or left.has(*unknowns)


def _bends(part: sympy.Expr, unknowns: list[sympy.Symbol]) -> bool:
    return bool((part.exp if part.is_Pow else part.args[0]).has(*unknowns))


def _stuck(find: str) -> Refusal:
    return Refusal(
        f'"{find}" can\'t be isolated in this relation',
        "this relation only runs forward there; give that number and ask for another",
    )


def _solutions(
    zeros: list[sympy.Expr], targets: list[sympy.Symbol], wanted: sympy.Symbol
) -> list[sympy.Expr]:
    if len(zeros) == 1:
        return roots_of(zeros[0], wanted)
    found = sympy.solve(zeros, targets, dict=True)
    return [each[wanted] for each in found if wanted in each]


def roots_of(zero: sympy.Expr, unknown: sympy.Symbol) -> list[sympy.Expr]:
    """The roots of `zero` in one unknown, a broken power replaced by a symbol first.

    Raises Refusal when the unknown stands under several broken powers.
    """
    exponents = {
        power.exp
        for power in zero.atoms(sympy.Pow)
        if power.base == unknown and power.exp.is_Rational and not power.exp.is_Integer
    }
    if not exponents:
        return list(sympy.solve(zero, unknown))
    if len(exponents) > 1:
        raise _stuck(unknown.name)
    exponent = exponents.pop()
    stand_in = sympy.Symbol("_power", positive=True)
    replaced = zero.subs(unknown**exponent, stand_in)
    if replaced.has(unknown):
        raise _stuck(unknown.name)
    return [root ** (1 / exponent) for root in sympy.solve(replaced, stand_in)]


def _tidy(solution: sympy.Expr) -> sympy.Expr:
    if solution.atoms(sympy.log):
        solution = sympy.expand_log(solution, force=True)
        solution = solution.replace(
            lambda part: part.is_Add and part.has(sympy.log),
            lambda part: sympy.logcombine(part, force=True),
        )
    together = sympy.factor_terms(sympy.cancel(sympy.together(solution)))
    candidates = [solution, together, sympy.factor(solution)]
    if any(not power.exp.is_Integer for power in solution.atoms(sympy.Pow)):
        candidates.append(sympy.powsimp(solution, force=True))
    return min(candidates, key=lambda c: (sympy.count_ops(c), str(c)))
