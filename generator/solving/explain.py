"""The working, line by line: the formula in words, the numbers put in, the result."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from functools import partial, reduce

from generator.maths.amounts import amount_text, mixed_text, number_text
from generator.maths.notation import written
from generator.maths.trees import Binary, Call, Name, Number, Tree, names, replace
from generator.maths.units import NONE, shown
from generator.model.relation import Relation
from generator.solving.answer import Outcome
from generator.solving.arrange import Arrangement, Step, units_of
from generator.words import answer_word, words


def working(arrangement: Arrangement, outcome: Outcome) -> tuple[str, ...]:
    """The lines that lead to the outcome; a word answer ends with why."""
    relation = arrangement.relation
    lines: list[str] = []
    for step in arrangement.steps:
        if step.name not in outcome.env or outcome.env[step.name] is None:
            break
        lines += _step_lines(relation, step, outcome)
    if outcome.word:
        word = answer_word(outcome.word, relation.language)
        is_word = words(relation.language)["working"]["answer_is"].format(word=word)
        lines.append(f"{outcome.tell} {is_word}".strip())
    return tuple(lines)


def formula_line(relation: Relation, step: Step) -> str:
    """`stock to measure = strength wanted × finished mix ÷ stock strength`."""
    label = relation.quantities[step.name].label
    formula = written(step.formulas[0], _label(relation), relation.language)
    return f"{label} = {formula}{_factor_note(relation, step)}"


def _step_lines(relation: Relation, step: Step, outcome: Outcome) -> list[str]:
    quantity = relation.quantities[step.name]
    value = outcome.env[step.name]
    assert isinstance(value, Fraction)
    tree = _chosen(step, outcome)
    raw = outcome.before if step.name == outcome.find and outcome.before is not None else value
    numbers = written(row_by_row(tree, outcome), printed(outcome), relation.language)
    result = _about(raw, relation, step.name)
    shown_twice = numbers in (result, number_text(raw))
    lines = [
        formula_line(relation, step),
        f"= {result}" if shown_twice else f"= {numbers} = {result}",
    ]
    if raw != value:
        rounded = amount_text(value, quantity.unit, language=relation.language)
        lines.append(f"{words(relation.language)['working']['round_up']}: {rounded}")
    return lines


def _about(value: Fraction, relation: Relation, name: str) -> str:
    return amount_text(value, relation.quantities[name].unit, language=relation.language)


def _chosen(step: Step, outcome: Outcome) -> Tree:
    """The formula whose root was taken; nearly always the only one."""
    if len(step.numeric) == 1:
        return step.numeric[0]
    value = outcome.env[step.name]
    pairs = zip(step.numeric, step.closures, strict=True)
    return next((tree for tree, run in pairs if run(outcome.env) == value), step.numeric[0])


def row_by_row(tree: Tree, outcome: Outcome) -> Tree:
    """`tree` with each sum, greatest or least over rows spelled out, cells named `level#0`."""
    match tree:
        case Call("sum" | "max" | "min" as function, (inside,)):
            rows = [replace(inside, row) for row in _cells(inside, outcome)]
            if function == "sum" or len(rows) == 1:
                return reduce(partial(Binary, "+"), rows)
            return Call(function, tuple(rows))
        case Binary(op, left, right):
            return Binary(op, row_by_row(left, outcome), row_by_row(right, outcome))
        case _:
            return tree


def _cells(tree: Tree, outcome: Outcome) -> list[dict[str, Tree]]:
    columns = {n: v for n in names(tree) if isinstance(v := outcome.env[n], tuple)}
    count = max(map(len, columns.values()), default=1)
    return [{name: Name(f"{name}#{row}") for name in columns} for row in range(count)]


def _label(relation: Relation) -> Callable[[str], str]:
    def label(name: str) -> str:
        quantity = relation.quantity(name)
        if quantity:
            return quantity.label
        constant = relation.constants[name]
        # A unit such as lbf/(gpm*psi**0.5) would drown the formula, and lb/lb says nothing.
        said = "(" not in constant.unit.text and constant.unit.parts
        unit = constant.unit if said else NONE
        return amount_text(constant.value, unit, language=relation.language)

    return label


def printed(outcome: Outcome) -> Callable[[str], str]:
    """What to print for each name of a formula: its number; `level#0` is a cell of rows."""

    def number(name: str) -> str:
        column, _, row = name.partition("#")
        held = outcome.env[column]
        value = held[int(row)] if isinstance(held, tuple) else held
        if value.denominator in (3, 6, 12):  # 1/3 reads better than 0.3333, 2/7 no better
            return f"({mixed_text(value)})"
        return f"({number_text(value)})" if value < 0 else number_text(value)

    return number


def _factor_note(relation: Relation, step: Step) -> str:
    """What the conversion factor does, where the units put one in: `(× 60: gal/s to gpm)`."""
    numeric, formula = step.numeric[0], step.formulas[0]
    if numeric == formula or not isinstance(numeric, Binary) or numeric.left != formula:
        return ""
    if not isinstance(numeric.right, Number):
        return ""
    said, unit = words(relation.language)["working"], units_of(relation)[step.name]
    gives = said["gives"].format(unit=shown(unit, relation.language) or said["plain_number"])
    sign = "÷" if numeric.op == "/" else "×"
    # As the line below works with it: 0.78 in place of 0.78125 would lead to a wrong answer.
    return f"  ({sign} {written(numeric.right)} {gives})"
