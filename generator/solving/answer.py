"""The answer of a relation for given numbers: an exact number, or the word that replaces it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from typing import NamedTuple

from generator.errors import Refusal, nearest
from generator.maths import exact
from generator.maths.amounts import amount_text
from generator.maths.evaluate import Closure, Environment, Value, compiled, is_inexact
from generator.maths.measure import plain
from generator.maths.trees import names
from generator.model.relation import Relation, Whole, WordCase
from generator.solving.arrange import Arrangement, Step, arrange, residues, units_of

CLOSE = Fraction(1, 10**25)
"""Equations put back must hold to this share; forty-digit roots leave about 1e-38."""


class Outcome(NamedTuple):
    """What came out: `value` in the unit of the quantity asked for, or `word` and why (`tell`).

    `before` is the value before it was rounded up to whole units or sizes; `env` holds every
    number known at the end, by name.
    """

    find: str
    value: Fraction | None
    word: str
    tell: str
    before: Fraction | None
    env: Environment


@dataclass(frozen=True)
class Plan:
    """An arrangement with its conditions compiled: runs in microseconds once made."""

    arrangement: Arrangement
    early: tuple[tuple[Closure, WordCase], ...]  # conditions on what is given
    late: tuple[tuple[Closure, WordCase], ...]  # conditions on what is worked out
    verdict: tuple[tuple[Closure, WordCase], ...]
    constants: Environment

    def run(self, given: Environment) -> Outcome:
        """The outcome for these numbers. Raises Refusal when they can't be."""
        relation, find = self.arrangement.relation, self.arrangement.find
        env: dict[str, Value] = {**self.constants, **given}
        if case := _first(self.early, env):
            return Outcome(find, None, case.word, case.tell, None, env)
        before: Fraction | None = None
        for step in self.arrangement.steps:
            raw = _root(relation, step, env)
            whole = relation.whole.get(step.name)
            value = _whole(raw, whole) if whole else raw
            if step.name == find:
                before = raw
            if value is None:
                assert whole
                return Outcome(find, None, whole.word, "", raw, env)
            env[step.name] = value
        if case := _first(self.late, env) or _first(self.verdict, env):
            return Outcome(find, None, case.word, case.tell, None, env)
        return self._number(env, before)

    def _number(self, env: dict[str, Value], before: Fraction | None) -> Outcome:
        relation, find = self.arrangement.relation, self.arrangement.find
        for step in self.arrangement.steps:
            _check_range(relation, step.name, env[step.name])
        value = env.get(find)
        if not isinstance(value, Fraction):
            raise Refusal("no case of the verdict holds", "add a last case without `when`")
        return Outcome(find, value, "", "", before, env)


def work(relation: Relation, given: Environment, find: str) -> Outcome:
    """Work out `find` from the `given` numbers, each in its quantity's own unit.

    Raises Refusal for an unknown name (the nearest offered), a missing number, numbers that
    contradict each other, and what can't be.
    """
    check_names(relation, given, find)
    outcome = plan(relation, frozenset(given), find).run(given)
    everything = {*relation.quantities, *relation.columns}
    if not relation.whole and set(outcome.env) >= everything:
        _check_equations(relation, outcome.env)
    return outcome


def check_names(relation: Relation, given: Environment, find: str) -> None:
    """Raises Refusal unless every name is one of the relation's and `find` is not given.

    Columns of rows must be of one length.
    """
    known = [*relation.quantities, *relation.columns]
    asked = [*relation.quantities, *(["verdict"] if relation.verdict else [])]
    for name in given:
        if name not in known:
            raise Refusal(f'{relation.id} has no "{name}"', nearest(name, known))
    if find not in asked:
        raise Refusal(f'{relation.id} can\'t find "{find}"', nearest(find, asked))
    if len({len(v) for v in given.values() if isinstance(v, tuple)}) > 1:
        raise Refusal("the rows are not all of one length", "give as many numbers for each")
    if find in given:
        raise Refusal(f'"{find}" is both given and asked for', "leave it out of the given numbers")


@lru_cache(maxsize=1024)
def plan(relation: Relation, given: frozenset[str], find: str) -> Plan:
    """The plan that finds `find` from the `given` names. Raises Refusal as `arrange` does."""
    known = given | set(relation.constants)
    early = [c for c in relation.unless if c.when is None or names(c.when) <= known]
    reached_early = _compiled(relation, early)
    arrangement = arrange(relation, given, find)
    reached = known | {step.name for step in arrangement.steps}
    late = [c for c in relation.unless if c not in early and c.when and names(c.when) <= reached]
    verdict = list(relation.verdict) if find == "verdict" else []
    return Plan(
        arrangement,
        reached_early,
        _compiled(relation, late),
        _compiled(relation, verdict),
        {name: constant.value for name, constant in relation.constants.items()},
    )


def inexact(outcome: Outcome, arrangement: Arrangement) -> bool:
    """Whether the number is right to forty digits only (a root, a logarithm, an angle, pi)."""
    return not arrangement.rational and any(
        is_inexact(tree, outcome.env) for step in arrangement.steps for tree in step.numeric
    )


def words_of(relation: Relation, find: str) -> tuple[str, ...]:
    """Every word that may stand in place of a number, each once, in order."""
    cases = relation.verdict if find == "verdict" else relation.unless
    whole = relation.whole.get(find)
    words = [case.word for case in cases] + ([whole.word] if whole and whole.word else [])
    return tuple(dict.fromkeys(words))


def _compiled(relation: Relation, cases: list[WordCase]) -> tuple[tuple[Closure, WordCase], ...]:
    units = units_of(relation)
    always: Closure = lambda env: True  # noqa: E731 - the last case of a verdict has no condition
    return tuple(
        (always if case.when is None else compiled(plain(case.when, units)), case) for case in cases
    )


def _first(cases: tuple[tuple[Closure, WordCase], ...], env: Environment) -> WordCase | None:
    for condition, case in cases:
        if condition(env):
            return case
    return None


def _root(relation: Relation, step: Step, env: Mapping[str, Value]) -> Fraction:
    if len(step.closures) == 1:
        value: Fraction = step.closures[0](env)
        return value
    roots = [closure(env) for closure in step.closures]
    fitting = [root for root in roots if _in_range(relation, step.name, root)]
    if len(fitting) != 1:
        raise Refusal(
            f'"{step.name}" has {len(fitting)} possible values',
            "give the quantity a range with from: and to:",
        )
    return Fraction(fitting[0])


def _in_range(relation: Relation, name: str, value: Fraction) -> bool:
    quantity = relation.quantities[name]
    enough = value.numerator >= 0 if quantity.low is None else quantity.low <= value
    return enough and (quantity.high is None or value <= quantity.high)


def _check_range(relation: Relation, name: str, value: Value) -> None:
    if isinstance(value, Fraction) and not _in_range(relation, name, value):
        quantity = relation.quantities[name]
        raise Refusal(
            f"{quantity.label} comes out at {amount_text(value, quantity.unit)}, which can't be",
            "check the numbers",
        )


def _whole(value: Fraction, whole: Whole) -> Fraction | None:
    if whole.step is not None:
        return exact.up(value, whole.step)
    return min((size for size in whole.sizes if size >= value), default=None)


def _check_equations(relation: Relation, env: Environment) -> None:
    if any(residue > CLOSE for residue in residues(relation, env)):
        raise Refusal("the given numbers contradict each other", "leave one of them out")
