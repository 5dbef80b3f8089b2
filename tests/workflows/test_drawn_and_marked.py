"""Every problem drawn and its answers marked: the right one counts, no slip ever does."""

from __future__ import annotations

import pickle

import pytest

from generator.commands.problem_said import item_data
from generator.items.build import draw_item
from generator.items.draw import Drawer, drawer
from generator.marking.judge import judge
from generator.model.item import Item
from generator.model.problem import Problem

SEEDS = range(40)
DEEP = range(10_000)


def check_marks(item: Item) -> None:
    """The answer as printed is right; each slip as printed gets nothing and is called by name."""
    assert judge(item, 1, item.answer.text).counts, item.answer.text
    for slip in item.slips:
        verdict = judge(item, 1, slip.text)
        assert not verdict.counts, (slip.text, verdict)
        assert not verdict.half, (slip.text, verdict)


@pytest.mark.parametrize("form", ["write", "choose"])
def test_answers_as_printed_are_marked_as_they_should(problem: Problem, form: str) -> None:
    for seed in SEEDS:
        item = draw_item(problem, seed, form)
        if form == "write":
            check_marks(item)
            continue
        for letter, option in zip("ABC", item.options, strict=True):
            assert judge(item, 1, letter).counts == option.right


@pytest.mark.deep
def test_ten_thousand_seeds_are_marked_as_they_should(problem: Problem) -> None:
    for seed in DEEP:
        check_marks(draw_item(problem, seed))


def same_bytes_twice(problem: Problem, seed: int, fresh: Drawer) -> None:
    item = draw_item(problem, seed, "choose")
    assert fresh.drawn(seed) == drawer(problem).drawn(seed)
    assert pickle.dumps(item_data(item, problem)) == pickle.dumps(
        item_data(draw_item(problem, seed, "choose"), problem)
    )


def test_the_same_seed_gives_the_same_bytes(problem: Problem) -> None:
    fresh = Drawer(problem)
    for seed in SEEDS:
        same_bytes_twice(problem, seed, fresh)


@pytest.mark.deep
def test_ten_thousand_seeds_give_the_same_bytes_twice(problem: Problem) -> None:
    fresh = Drawer(problem)
    for seed in DEEP:
        same_bytes_twice(problem, seed, fresh)
