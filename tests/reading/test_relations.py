"""Rows that are drawn, constants from chemistry, and the shop's own numbers as defaults."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from pathlib import Path

import pytest

from generator.errors import Faults
from generator.items.build import draw_item
from generator.maths.chemistry import molar_mass
from generator.model.course import Curriculum
from generator.reading.curriculum import read_curriculum
from generator.workflows.place import starter

F = Fraction
Edit = Callable[[str, str, str], Path]

NOISE = """
loud-day:
  relation: noise-dose
  find: dose
  level: owner
  ask: "You are {hours_1} at {level_1}, then {hours_2} at {level_2}. What is the dose?"
  draw: {rows: [{level: [91, 94, 97], hours: [1, 2, 3]}, {level: [85, 88], hours: [2, 3, 4]}]}
  mark: 1
  slips:
    plain: {gives: 100*sum(hours)/8, name: counted hours only, tell: Loud hours count for more.}
    first: {gives: 100*hours_1*2**((level_1-85)/3)/8, name: left one out, tell: Add both parts.}
"""


@pytest.fixture
def edited(tmp_path: Path, part_of_starter: Callable[..., Path]) -> Edit:
    """A curriculum with one text of one file replaced, or with text added to its end."""
    folder = part_of_starter(tmp_path / "curriculum", "plants")

    def edit(file: str, old: str, new: str) -> Path:
        path = folder / file
        text = path.read_text(encoding="utf-8")
        assert old in text
        path.write_text(text.replace(old, new, 1) if old else text + new, encoding="utf-8")
        return folder

    return edit


def test_a_problem_draws_rows(edited: Edit) -> None:
    curriculum = read_curriculum(edited("problems.yaml", "", NOISE))
    problem = curriculum.problem("loud-day")
    assert problem
    assert problem.module == problem.lesson == ""
    item = draw_item(problem, 4)
    levels, hours = item.given["level"], item.given["hours"]
    assert isinstance(levels, tuple)
    assert isinstance(hours, tuple)
    assert f"{hours[0]} h at {levels[0]} dBA, then {hours[1]} h at {levels[1]} dBA" in item.ask
    parts = [h * 2 ** ((x - 85) / 3) / 8 for x, h in zip(levels, hours, strict=True)]
    assert item.answer.exact == 100 * sum(parts)


@pytest.mark.parametrize(
    ("old", "new", "says"),
    [
        ("hours: [1, 2, 3]}", "minutes: [1]}", "row 1 should hold level, hours"),
        ("rows: [{level", "levels: [{level", "not a quantity of noise-dose"),
        ("gives: 100*sum(hours)/8", "gives: 100*hours_3/8", "hours_3"),
        ("level: owner", "level: crew", "stand in no lesson"),
        ("level: owner", "level: owner\n  lesson: noise", "stand in no lesson"),
    ],
)
def test_faults_of_drawn_rows(edited: Edit, old: str, new: str, says: str) -> None:
    folder = edited("problems.yaml", "", NOISE.replace(old, new))
    with pytest.raises(Faults) as told:
        read_curriculum(folder)
    assert says in str(told.value)


REACTION = """
bleach-gone: {title: Bleach gone, from: [NaOCl], to: [NaCl, O2], sources: [worked]}
"""
RELATION = """
oxygen:
  title: Oxygen from bleach
  quantities: {bleach: lb, oxygen: lb}
  constants: {share: {reaction: bleach-gone, get: O2, from: NaOCl}}
  convention: All of it.
  equations: ["oxygen == share*bleach"]
  examples: [{bleach: 2, oxygen: 0.43}]
  sources: [worked]
"""


def test_a_constant_comes_from_a_reaction(edited: Edit) -> None:
    edited("reactions.yaml", "", REACTION)
    curriculum = read_curriculum(edited("relations/chemistry.yaml", "", RELATION))
    share = curriculum.relations["oxygen"].constants["share"].value
    assert share == molar_mass("O2") / (2 * molar_mass("NaOCl"))


@pytest.mark.parametrize(
    ("old", "new", "says"),
    [
        ("get: O2", "get: O3", "takes no part"),
        ("reaction: bleach-gone", "reaction: bleach-going", 'did you mean "bleach-gone"?'),
        (", from: NaOCl}", "}", "not whole"),
        ("{reaction: bleach-gone, get: O2, from: NaOCl}", "{molar: oO}", "not a chemical formula"),
    ],
)
def test_faults_of_chemical_constants(edited: Edit, old: str, new: str, says: str) -> None:
    edited("reactions.yaml", "", REACTION)
    folder = edited("relations/chemistry.yaml", "", RELATION.replace(old, new))
    with pytest.raises(Faults) as told:
        read_curriculum(folder)
    assert says in str(told.value)


def test_a_reaction_that_does_not_balance_is_a_fault(edited: Edit) -> None:
    folder = edited("reactions.yaml", "", REACTION.replace("[NaCl, O2]", "[NaCl]"))
    with pytest.raises(Faults, match="can't be balanced"):
        read_curriculum(folder)


def test_days_to_half_are_fitted_to_the_owners_tests(edited: Edit, curriculum: Curriculum) -> None:
    """The line of least squares through nothing, by hand: days over new/tested − 1."""
    tests = curriculum.shop.stock_tests
    rise = [(t.days, t.new / t.tested - 1) for t in tests]
    by_hand = sum(x * x for x, _ in rise) / sum(x * y for x, y in rise)
    assert curriculum.shop.stock_half == by_hand
    exact = "stock_tests:\n  - {new: 12, days: 40, tested: 8}\n  - {new: 10, days: 80, tested: 5}\n"
    old = (starter() / "shop.yaml").read_text(encoding="utf-8")
    block = old[old.index("stock_tests:") : old.index("\n\n", old.index("stock_tests:")) + 1]
    shop = read_curriculum(edited("shop.yaml", block, exact)).shop
    assert shop.stock_half == 80  # both tests lie on one curve: a third gone at 40, half at 80
    bare = read_curriculum(edited("shop.yaml", exact, ""))
    assert bare.shop.stock_half is None
    assert bare.relations["ageing"].quantities["half"].default is None


@pytest.mark.parametrize(
    "test", ["{new: 10, days: 5, tested: 11}", "{new: 10, days: 0, tested: 9}"]
)
def test_a_test_that_cannot_be_is_a_fault(edited: Edit, test: str) -> None:
    folder = edited("shop.yaml", "{new: 12.5, days: 14, tested: 11.5}", test)
    with pytest.raises(Faults, match="does not grow stronger"):
        read_curriculum(folder)
