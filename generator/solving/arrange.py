"""Rearranging a relation: which formula gives which unknown, one step after the other.

An equation with a single unknown is solved on its own, and its result is a given for the next;
so the working reads as a person would do it. Only what can't be had that way is solved together.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property, lru_cache

from generator.errors import Refusal
from generator.maths import solve
from generator.maths.evaluate import Closure, Value, compiled, may_be_inexact
from generator.maths.measure import in_own_units, plain
from generator.maths.orient import oriented
from generator.maths.trees import Comparison, Tree, names
from generator.maths.units import Unit, size
from generator.model.relation import Relation


@dataclass(frozen=True)
class Step:
    """One unknown and its formulas: as the relation states it, and for plain numbers.

    More than one formula means more than one root; the stated range picks the right one.
    """

    name: str
    formulas: tuple[Tree, ...]
    numeric: tuple[Tree, ...]  # each number in its quantity's own unit
    closures: tuple[Closure, ...]


@dataclass(frozen=True)
class Arrangement:
    """The steps that lead from the given names to `find`, in order."""

    relation: Relation
    find: str
    steps: tuple[Step, ...]

    @cached_property
    def rational(self) -> bool:
        """Whether every step stays exact, with no root, logarithm, angle or pi in any of them."""
        return not any(may_be_inexact(tree) for step in self.steps for tree in step.numeric)


def units_of(relation: Relation) -> dict[str, Unit]:
    """The unit of every quantity, column and constant."""
    quantities = {**relation.quantities, **relation.columns}
    constants = {name: constant.unit for name, constant in relation.constants.items()}
    return {name: quantity.unit for name, quantity in quantities.items()} | constants


@lru_cache(maxsize=1024)
def arrange(relation: Relation, given: frozenset[str], find: str) -> Arrangement:
    """How to work out `find` from the `given` names.

    `find` may be "verdict": then every quantity the verdict's conditions use is worked out.
    Raises Refusal naming what is missing, or why the question can't be asked that way round.
    """
    known = set(given) | set(relation.constants)
    wanted = _wanted(relation, find)
    steps, stuck = _all_steps(relation, known, wanted)
    reached = known | {step.name for step in steps}
    if not wanted <= reached:
        raise stuck or _missing(relation, known, find, wanted - reached)
    needed = wanted | (_condition_names(relation) & reached)
    return Arrangement(relation, find, _needed(steps, needed))


def _wanted(relation: Relation, find: str) -> set[str]:
    if find != "verdict":
        return {find}
    cases = [case.when for case in relation.verdict if case.when is not None]
    return set().union(*(names(when) for when in cases)) - set(relation.constants)


def _condition_names(relation: Relation) -> set[str]:
    return set().union(*(names(case.when) for case in relation.unless if case.when is not None))


def _all_steps(
    relation: Relation, known: set[str], wanted: set[str]
) -> tuple[list[Step], Refusal | None]:
    """Every unknown that can be had, in an order in which it can be had; the first that can't."""
    reached, pending, steps = set(known), list(relation.equations), list[Step]()
    stuck: Refusal | None = None
    while pending and (block := _next_block(pending, reached)):
        equations, unknowns = block
        pending = [equation for equation in pending if equation not in equations]
        for name in unknowns:
            try:
                steps.append(_step(relation, equations, unknowns, name))
            except Refusal as refusal:
                if name in wanted:
                    raise
                stuck = stuck or refusal
        reached |= {step.name for step in steps}
    return steps, stuck


def _next_block(
    pending: list[Comparison], reached: set[str]
) -> tuple[tuple[Comparison, ...], tuple[str, ...]] | None:
    """One equation with one unknown; else all that are left, when they are as many as unknowns."""
    for equation in pending:
        unknowns = names(equation) - reached
        if len(unknowns) == 1:
            return (equation,), tuple(unknowns)
    unknowns = frozenset().union(*(names(equation) for equation in pending)) - reached
    open_ones = tuple(equation for equation in pending if names(equation) - reached)
    if unknowns and len(unknowns) == len(open_ones):
        return open_ones, tuple(sorted(unknowns))
    return None


def _step(
    relation: Relation, equations: tuple[Comparison, ...], unknowns: tuple[str, ...], name: str
) -> Step:
    sample = _sample(relation)
    units = units_of(relation)
    roots = solve.solve(equations, unknowns, name)
    formulas = tuple(oriented(root, sample) for root in roots)
    numeric = tuple(in_own_units(f, units, units[name]) for f in formulas)
    return Step(name, formulas, numeric, tuple(compiled(tree) for tree in numeric))


def _sample(relation: Relation) -> dict[str, Value]:
    """Numbers of the first worked example, to see which way round a difference is positive.

    They are in base units, so that 18 ft is more than 20 in.
    """
    sizes = {name: size(unit.parts) for name, unit in units_of(relation).items()}
    example = next((e for e in relation.examples if e.word is None), None)
    constants = {name: constant.value for name, constant in relation.constants.items()}
    single = {**constants, **(example.values if example else {})}
    rows = example.rows if example else {}
    return {name: value * sizes[name] for name, value in single.items()} | {
        name: tuple(value * sizes[name] for value in column) for name, column in rows.items()
    }


def _needed(steps: list[Step], wanted: set[str]) -> tuple[Step, ...]:
    kept: list[Step] = []
    needed = set(wanted)
    for step in reversed(steps):
        if step.name in needed:
            kept.insert(0, step)
            needed |= set().union(*(names(formula) for formula in step.formulas))
    return tuple(kept)


def _missing(relation: Relation, known: set[str], find: str, unreached: set[str]) -> Refusal:
    if find != "verdict" and not any(find in names(equation) for equation in relation.equations):
        return Refusal(
            f'"{find}" stands in no equation of {relation.id}', "ask for another quantity"
        )
    holding = [e for e in relation.equations if names(e) & unreached] or list(relation.equations)
    lacking = sorted(set().union(*(names(e) for e in holding)) - known - {find})
    return Refusal(
        f'"{find}" can\'t be worked out from what is given',
        f"give {' and '.join(lacking)} as well" if lacking else "give fewer or other numbers",
    )


@lru_cache(maxsize=256)
def plain_equations(relation: Relation) -> tuple[Closure, ...]:
    """Each equation's two sides for plain numbers: a closure that gives (left, right)."""
    units = units_of(relation)

    def sides(equation: Comparison) -> Closure:
        measured = plain(equation, units)
        assert isinstance(measured, Comparison)
        left, right = compiled(measured.left), compiled(measured.right)
        return lambda env: (left(env), right(env))

    return tuple(sides(equation) for equation in relation.equations)


def residues(relation: Relation, env: Mapping[str, Value]) -> list[Fraction]:
    """How far each equation is from holding, as a share of its larger side; 0 is exact."""
    pairs = [closure(env) for closure in plain_equations(relation)]
    return [abs(a - b) / max(abs(a), abs(b), Fraction(1, 10**30)) for a, b in pairs]
