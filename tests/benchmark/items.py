"""Drawn numbers and whole items beside a fresh solve of each by sympy.

The fresh solve is sympy at its quickest: the equations of the relation with the numbers put in,
each solved for the one unknown it has left.
"""

from __future__ import annotations

from collections.abc import Iterator
from statistics import median
from time import process_time

import sympy
from timing import ROOT

from generator.items.build import draw_item
from generator.items.draw import Drawn, drawer
from generator.maths.evaluate import compiled
from generator.maths.measure import plain
from generator.maths.solve import roots_of
from generator.maths.symbols import Symbols
from generator.maths.trees import Comparison, names
from generator.memory import collect_rarely
from generator.model.problem import Problem
from generator.reading.curriculum import read_curriculum
from generator.solving.arrange import units_of

SEEDS, ROUNDS = 78, 3


def main() -> None:
    """Print the three times and their ratios."""
    collect_rarely()
    numbers, whole = seconds_each("numbers"), seconds_each("items")
    drawn = [(problem, drawer(problem).drawn(0)) for problem in problems()]
    fresh = [seconds for pair in drawn for seconds in solved_afresh(*pair)]
    each = sum(fresh) / len(fresh)
    print(f"  a fresh solve by sympy: {each * 1e3:.1f} ms (mean of {len(fresh)} problems)")
    for name, taken in (("drawn numbers", numbers), ("whole items", whole)):
        print(f"  {name}: {taken * 1e6:.0f} µs, {each / taken:.0f} times faster than a fresh solve")
    print(f"  10,000 items: {whole * 1e4:.2f} s")


def problems() -> tuple[Problem, ...]:
    """The problems of the starter, read anew, so that nothing is remembered of them."""
    drawer.cache_clear()
    return read_curriculum(ROOT / "curriculum").problems


def seconds_each(form: str) -> float:
    """Seconds of the processor for a draw, relations solved beforehand: the median of `ROUNDS`."""
    return median(round_of(form) for _ in range(ROUNDS))


def round_of(form: str) -> float:
    """The same in one round: the mean over every problem and seed."""
    drawers = [drawer(problem) for problem in problems()]
    start = process_time()
    for seed in range(SEEDS):
        for each in drawers:
            if form == "numbers":
                each.drawn(seed)
            else:
                draw_item(each.problem, seed)
    return (process_time() - start) / (SEEDS * len(drawers))


def solved_afresh(problem: Problem, drawn: Drawn) -> Iterator[float]:
    """Seconds of sympy for the numbers of a draw; nothing where it can't do it step by step."""
    unknown = {step.name for step in drawer(problem).plan.arrangement.steps}
    units, known = units_of(problem.relation), unknown | drawn.outcome.env.keys()
    equations = [
        measured
        for equation in problem.relation.equations
        if isinstance(measured := plain(equation, units), Comparison)
        and names(measured) & unknown
        and names(measured) <= known
    ]
    start = process_time()
    if solved(equations, unknown, drawn):
        yield process_time() - start


def solved(equations: list[Comparison], unknown: set[str], drawn: Drawn) -> bool:
    """Whether sympy got at every unknown, one equation after the other."""
    symbols = Symbols(sorted(unknown))
    zeros = [symbols.expression(e.left) - symbols.expression(e.right) for e in equations]
    hidden = {symbol: compiled(tree)(drawn.outcome.env) for symbol, tree in symbols.opaque.items()}
    known = {symbols.of[name]: drawn.outcome.env[name] for name in symbols.order.keys() - unknown}
    put_in = {
        symbol: sympy.Rational(value.numerator, value.denominator)
        for symbol, value in (hidden | known).items()
        if not isinstance(value, tuple)
    }
    zeros = [zero.subs(put_in) for zero in zeros]
    while zeros:
        ready = next((zero for zero in zeros if len(zero.free_symbols) == 1), None)
        if ready is None:
            return False
        (symbol,) = ready.free_symbols
        root = next((root for root in roots_of(ready, symbol) if root.is_positive), None)
        if root is None:
            return False
        zeros = [zero.subs(symbol, root) for zero in zeros if zero is not ready]
    return True
