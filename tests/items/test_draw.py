"""Drawn items of every problem: one right option, no slip taken for right, the same for a seed."""

from __future__ import annotations

import subprocess
import sys
from collections import Counter
from collections.abc import Iterable, Iterator
from contextlib import suppress
from dataclasses import replace
from fractions import Fraction
from functools import lru_cache
from itertools import islice
from pathlib import Path

import pytest
import sympy
from scipy.stats import binomtest, chisquare

from generator.errors import Refusal
from generator.items.build import draw_item
from generator.items.draw import MOST_TRIES, Drawer, Drawn, accepted, drawer, unit_of_answer
from generator.maths.amounts import amount_text
from generator.maths.evaluate import compiled, holds
from generator.maths.exact import half_up
from generator.maths.formula import parse, parse_condition
from generator.maths.symbols import Symbols
from generator.maths.trees import Tree, names
from generator.model.course import Curriculum
from generator.model.item import Item
from generator.model.problem import Problem
from generator.solving.answer import CLOSE
from generator.solving.arrange import residues
from generator.words import answer_word

SEEDS = range(200)
DEEP = range(10_000)
NEAREST_SLIP = Fraction(45, 100)
FEWEST = 24  # distinct draws; fewer could be learned by heart


def check_options(item: Item) -> None:
    texts = [option.text for option in item.options]
    assert len(texts) == len(set(texts)) == 3, texts
    assert all(texts), texts
    right = [option for option in item.options if option.right]
    assert [option.text for option in right] == [item.answer.text]
    assert not right[0].slip
    known = {slip.id: slip for slip in item.slips}
    for option in item.options:
        assert option.right or option.slip in known


def check_range(problem: Problem, item: Item) -> None:
    answer = item.answer
    if answer.word:
        assert answer.value is answer.low is answer.high is None
        return
    value, exact, low, high = answer.value, answer.exact, answer.low, answer.high
    assert value is not None
    assert exact is not None
    assert low is not None
    assert high is not None
    assert 0 < low <= exact <= high
    assert low <= value <= high
    assert (value / problem.mark).denominator == 1, "the answer is not on a mark"
    assert high - low == problem.mark
    for slip in item.slips:
        if slip.value is not None:
            assert not low <= slip.value <= high, slip.id
            gap = abs(slip.value - exact)
            assert max(exact - low, high - exact) < NEAREST_SLIP * gap, slip.id


def check_safe_side(problem: Problem, item: Item) -> None:
    """Stock is rounded down and water up, and the wrong side of exact is never accepted."""
    answer = item.answer
    if answer.word or answer.value is None or answer.exact is None:
        return
    if problem.rounding == "down":
        assert item.never_above
        assert answer.value <= answer.exact == answer.high
    elif problem.rounding == "up":
        assert answer.low == answer.exact <= answer.value
    else:
        assert answer.value == half_up(answer.exact, problem.mark)
    if problem.must:
        assert answer.value == answer.exact


def check_true(problem: Problem, drawn: Drawn) -> None:
    """The numbers of the item make the relation's own equations true."""
    relation = problem.relation
    env = drawn.outcome.env
    if drawn.outcome.word or relation.whole or not set(relation.quantities) <= set(env):
        return
    assert max(residues(relation, env)) <= CLOSE


@lru_cache(maxsize=2)  # both forms of the problem whose tests are running
def items(problem: Problem, form: str = "write") -> tuple[Item, ...]:
    """The items of all the seeds, drawn once."""
    return tuple(draw_item(problem, seed, form) for seed in SEEDS)


def check_item(problem: Problem, seed: int, item: Item) -> None:
    check_options(item)
    check_range(problem, item)
    check_safe_side(problem, item)
    check_true(problem, drawer(problem).drawn(seed))
    assert "{" not in item.ask
    assert item.working


def test_every_seed_gives_a_fair_item(problem: Problem) -> None:
    for seed, item in enumerate(items(problem, "choose")):
        check_item(problem, seed, item)


@pytest.mark.deep
def test_ten_thousand_seeds_give_fair_items(problem: Problem) -> None:
    for seed in DEEP:
        check_item(problem, seed, draw_item(problem, seed, "choose"))


def answer_text(source: Drawer, drawn: Drawn) -> str:
    value, problem = drawn.outcome.value, source.problem
    if value is None:
        return answer_word(drawn.outcome.word, problem.language)
    return source.text(accepted(value, problem.mark, problem.rounding)[0])


@pytest.mark.deep
def test_every_allowed_combination_is_fair(problem: Problem) -> None:
    source = drawer(problem)
    for combination in islice(source.combinations(), 20_000):
        drawn = source.at(combination)
        if drawn:
            check_true(problem, drawn)
            offered = {source.option(way) for way in drawn.wrong}
            assert answer_text(source, drawn) not in offered
            assert len(offered - {""}) >= 2


def test_same_seed_gives_the_same_item(problem: Problem) -> None:
    fresh = type(drawer(problem))(problem)
    for seed, item in enumerate(items(problem, "choose")[:20]):
        assert draw_item(problem, seed, "choose") == item
        assert fresh.drawn(seed).given == drawer(problem).drawn(seed).given


def test_write_and_choose_ask_about_the_same_numbers(problem: Problem) -> None:
    for write, choose in zip(items(problem), items(problem, "choose"), strict=True):
        assert (write.given, write.answer) == (choose.given, choose.answer)
        assert write.ask.startswith(choose.ask)
        assert not write.options


def test_the_given_numbers_are_among_the_choices(problem: Problem) -> None:
    allowed = {choice.name: set(choice.values) for choice in problem.choices}
    for seed in SEEDS:
        given = drawer(problem).drawn(seed).given
        columns = {choice.column for choice in problem.choices if choice.column}
        assert set(given) == set(allowed) | columns
        assert all(given[name] in values for name, values in allowed.items())
        for column in columns:
            cells = [given[choice.name] for choice in problem.choices if choice.column == column]
            assert given[column] == tuple(cells)


def test_numbers_of_a_rig_are_drawn_together(problem: Problem) -> None:
    rigs = [choice for choice in problem.choices if choice.rig]
    if len(rigs) < 2:
        return
    possible = set(zip(*(choice.values for choice in rigs), strict=True))
    for seed in SEEDS:
        given = drawer(problem).drawn(seed).given
        assert tuple(given[choice.name] for choice in rigs) in possible


def test_there_are_enough_different_draws(problem: Problem) -> None:
    asks = {item.ask for item in items(problem)}
    assert len(asks) >= FEWEST


def test_the_printed_answer_can_be_read_back(problem: Problem) -> None:
    unit = unit_of_answer(problem)
    for item in items(problem):
        answer = item.answer
        if answer.value is not None:
            assert answer.text == amount_text(answer.value, unit, problem.mark)


def test_words_come_as_often_as_asked(problem: Problem) -> None:
    share = float(problem.word_share)
    words = sum(bool(drawer(problem).drawn(seed).outcome.word) for seed in range(1000))
    if share:
        assert binomtest(words, 1000, share).pvalue > 0.001
    else:
        assert words == 0


def is_identical(left: Tree, right: Tree) -> bool:
    """Whether two formulas are the same for all positive numbers; algebra is asked last."""
    if any(abs(a - b) > abs(a) / 10**9 for a, b in at_some_numbers(left, right)):
        return False
    symbols = Symbols(())
    return bool(sympy.simplify(symbols.expression(left) - symbols.expression(right)) == 0)


def at_some_numbers(left: Tree, right: Tree) -> Iterator[tuple[Fraction, Fraction]]:
    """What both give for some numbers, where they can be worked out with plain ones."""
    given = sorted(names(left) | names(right))
    for shift in range(3):
        env = {name: Fraction(7 + 3 * n + shift, 2 + n) for n, name in enumerate(given)}
        with suppress(Refusal, AttributeError, TypeError):  # such as a sum over rows
            yield compiled(left)(env), compiled(right)(env)


def test_identical_formulas_are_known() -> None:
    assert is_identical(parse("a*(b + c)"), parse("a*b + c*a"))
    assert not is_identical(parse("a/b"), parse("b/a"))


def test_no_slip_is_the_right_formula(problem: Problem) -> None:
    """With the slip's own numbers left open: a slip equal to the answer would be no mistake."""
    source = drawer(problem)
    steps = [step for step in source.plan.arrangement.steps if step.name == problem.find]
    for slip, step in ((s, step) for s in problem.slips if s.gives for step in steps):
        assert slip.gives
        unknown = names(step.numeric[0]) - {choice.name for choice in problem.choices}
        if not unknown - set(problem.relation.constants):
            assert not is_identical(slip.gives, step.numeric[0]), slip.id


def test_no_two_slips_are_the_same_formula(problem: Problem) -> None:
    trees = [(slip.id, slip.gives) for slip in problem.slips if slip.gives]
    for place, (one, left) in enumerate(trees):
        for other, right in trees[place + 1 :]:
            assert not is_identical(left, right), f"{one} and {other}"


def test_every_slip_is_met_and_told(problem: Problem) -> None:
    met = {slip.id for item in items(problem) for slip in item.slips}
    assert met == {slip.id for slip in problem.slips}


def test_keep_rules_hold(problem: Problem) -> None:
    source = drawer(problem)
    for seed in SEEDS:
        env = source.drawn(seed).outcome.env
        for rule in problem.keep:
            assert not names(rule) <= set(env) or holds(rule, env)


def places_of_right(items: Iterable[Item]) -> Counter[int]:
    return Counter(
        next(place for place, option in enumerate(item.options) if option.right) for item in items
    )


def test_the_key_lies_evenly_where_slips_stand_on_both_sides(curriculum: Curriculum) -> None:
    problem = curriculum.problem("cleaner-rate")
    assert problem
    found = places_of_right(draw_item(problem, seed, "choose") for seed in range(3000))
    assert chisquare([found[place] for place in range(3)]).pvalue > 0.001


def test_the_key_lies_evenly_between_two_places(curriculum: Curriculum) -> None:
    problem = curriculum.problem("weak-stock")
    assert problem
    found = places_of_right(draw_item(problem, seed, "choose") for seed in range(3000))
    assert len(found) == 2
    assert chisquare(list(found.values())).pvalue > 0.001


def test_options_rise(problem: Problem) -> None:
    for item in items(problem, "choose"):
        values = {slip.id: slip.value for slip in item.slips}
        row = [item.answer.value if o.right else values[o.slip] for o in item.options]
        numbers = [value for value in row if value is not None]
        assert numbers == sorted(numbers)


ANOTHER = """
import sys
from pathlib import Path
from generator.items.build import draw_item
from generator.reading.curriculum import read_curriculum
course = read_curriculum(Path(sys.argv[1]))
for module in course.modules.values():
    for problem in module.problems:
        for seed in range(3):
            item = draw_item(problem, seed, "choose")
            print(item.ask, item.answer.text, [option.text for option in item.options], sep="|")
"""


def test_another_process_draws_the_same_items(curriculum: Curriculum) -> None:
    folder = Path(__file__).parents[2] / "curriculum"
    printed = subprocess.run(
        [sys.executable, "-c", ANOTHER, str(folder)],
        capture_output=True,
        text=True,
        check=True,
        env={"PYTHONHASHSEED": "4711", "PYTHONUTF8": "1"},
        cwd=folder.parent,
    ).stdout.splitlines()
    here = [
        f"{item.ask}|{item.answer.text}|{[option.text for option in item.options]}"
        for module in curriculum.modules.values()
        for problem in module.problems
        for item in (draw_item(problem, seed, "choose") for seed in range(3))
    ]
    assert printed == here


ACCEPTED = [
    ("2.88", "1/4", "down", "2.75", "2.63", "2.88"),
    ("2.75", "1/4", "down", "2.75", "2.5", "2.75"),
    ("8.33", "1/2", "up", "8.5", "8.33", "8.83"),
    ("8.5", "1/2", "up", "8.5", "8.5", "9"),
    ("6.65", "0.1", "nearest", "6.7", "6.6", "6.7"),
    ("6.649", "0.1", "nearest", "6.6", "6.599", "6.699"),
]


@pytest.mark.parametrize(("exact", "mark", "rounding", "answer", "low", "high"), ACCEPTED)
def test_the_accepted_range(
    exact: str, mark: str, rounding: str, answer: str, low: str, high: str
) -> None:
    wanted = (Fraction(answer), Fraction(low), Fraction(high))
    assert accepted(Fraction(exact), Fraction(mark), rounding) == wanted


def test_a_problem_without_allowed_numbers_says_so(curriculum: Curriculum) -> None:
    problem = curriculum.problem("tap-flow")
    assert problem
    never = replace(problem, keep=(parse_condition("gpm > 1000"),))
    with pytest.raises(Refusal, match="no allowed numbers") as told:
        drawer(never).drawn(1)
    assert "keep:" in told.value.next
    assert MOST_TRIES >= 1000
