"""The formula strip: what a person may look at while he sits a paper."""

from __future__ import annotations

from generator.maths.amounts import number_text
from generator.maths.measure import plain
from generator.maths.notation import written
from generator.model.course import Module
from generator.model.problem import Problem
from generator.model.relation import Relation
from generator.solving.arrange import arrange, units_of
from generator.solving.explain import formula_line


def strip(module: Module) -> tuple[str, ...]:
    """The formula strip of a module: what its problems need, in words, each line once."""
    named = module.blueprint.strip
    shown = [p for p in module.problems if not named or p.relation.id in named]
    return tuple(dict.fromkeys(line for problem in shown for line in _lines(problem)))


def _lines(problem: Problem) -> list[str]:
    """The relation as it stands; where units need a factor, rearranged with the factor named."""
    relation, units = problem.relation, units_of(problem.relation)
    if all(plain(equation, units) == equation for equation in relation.equations):
        return [
            written(equation, lambda name: _label(relation, name), relation.language)
            for equation in relation.equations
        ]
    given = frozenset(choice.name for choice in problem.choices)
    steps = arrange(relation, given, problem.find).steps
    return [formula_line(relation, step) for step in steps]


def _label(relation: Relation, name: str) -> str:
    quantity = relation.quantity(name)
    return quantity.label if quantity else number_text(relation.constants[name].value)
