"""The plan of a module: its must-gets as papers have them, honest rounding, a fitting proposal."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace
from fractions import Fraction

import pytest

from generator.errors import Refusal
from generator.model.course import Curriculum, Module
from generator.papers.chances import Limits, Must, Rule, all_tries, keeps
from generator.papers.pick import picks
from generator.workflows.plan import (
    KNOWN,
    MOST_COPIES,
    as_data,
    at_least,
    at_most,
    candidates,
    limits_of,
    out_of_hundred,
    passing,
    plan,
    rule_of,
)

F = Fraction


@pytest.fixture
def mixing(curriculum: Curriculum) -> Module:
    return curriculum.modules["mixing"]


def test_the_rule_has_the_must_gets_as_often_as_papers_do(curriculum: Curriculum) -> None:
    for module in curriculum.modules.values():
        things = [pick.thing for pick in picks(module, "any seed")]
        copies = Counter(thing.id for thing in things if thing.id in module.blueprint.must)
        rule = rule_of(module)
        assert sorted(must.copies for must in rule.must) == sorted(copies.values())
        assert rule.items == len(things)
        assert (rule.cut, rule.tries) == (module.blueprint.cut, module.blueprint.tries)


def test_mixing_lets_few_through_who_do_not_know(mixing: Module) -> None:
    found = plan(mixing, Limits())
    assert found.kept
    assert found.false_pass <= F(5, 100)
    assert found.false_fail <= F(2, 100)
    assert [chance.knows for chance in found.chances] == list(KNOWN)
    assert found.chances[1].all == found.false_pass < found.again
    assert all(chance.first <= chance.all for chance in found.chances)
    assert all(chance.turned_away == 1 - chance.all for chance in found.chances)


def test_must_gets_make_it_harder_and_never_easier(mixing: Module) -> None:
    rule = rule_of(mixing)
    plain = replace(rule, must=())
    assert all(all_tries(rule, knows) < all_tries(plain, knows) for knows in KNOWN)


def test_the_proposal_keeps_the_limits_and_can_be_printed(curriculum: Curriculum) -> None:
    proposed = 0
    for module in curriculum.modules.values():
        found = plan(module, Limits())
        if not found.proposed:
            continue
        proposed += 1
        rule = found.proposed
        assert keeps(rule, Limits())
        paper = replace(module.blueprint, write_in=rule.write_in, choice=rule.choice, cut=rule.cut)
        assert rule_of(replace(module, blueprint=paper)) == rule
        assert len(picks(replace(module, blueprint=paper), "any seed")) == rule.items
        shorter = [each for each in candidates(module, rule.tries) if each.items < rule.items]
        cuts = [replace(each, cut=cut) for each in shorter for cut in range(each.items + 1)]
        assert not any(keeps(each, Limits()) for each in cuts)
    assert proposed > 1


def test_no_problem_is_repeated_too_often(curriculum: Curriculum) -> None:
    for module in curriculum.modules.values():
        problems = [problem for problem in module.problems if problem.level == "crew"]
        for rule in candidates(module, 2):
            assert rule.write_in <= MOST_COPIES * len(problems)
            assert rule.choice <= len(module.questions)


def test_a_module_without_problems_is_planned_with_questions_alone(mixing: Module) -> None:
    paper = replace(mixing.blueprint, write_in=0, choice=24, must=())
    found = plan(replace(mixing, problems=(), blueprint=paper), Limits())
    assert found.rule == Rule(0, 24, 22, 2)
    assert found.proposed is None or found.proposed.write_in == 0


def test_other_tries_in_place_of_its_own(mixing: Module) -> None:
    once, thrice = (plan(mixing, Limits(), tries) for tries in (1, 3))
    assert once.false_pass < thrice.false_pass
    assert once.false_fail > thrice.false_fail


def test_percents_are_rounded_against_us(mixing: Module) -> None:
    assert [at_most(F(n, 10_000)) for n in (0, 1, 429, 430, 10_000)] == [
        "0%", "0.1%", "4.3%", "4.3%", "100%",
    ]  # fmt: skip
    assert [at_least(F(n, 10_000)) for n in (0, 9, 9999, 10_000)] == ["0%", "0%", "99.9%", "100%"]
    assert [out_of_hundred(F(n, 1000)) for n in (0, 1, 40, 43)] == [0, 1, 4, 5]
    found = plan(mixing, Limits())
    assert passing(found, F(70, 100), F(429, 10_000)) == "4.3%"
    assert passing(found, F(95, 100), F(429, 10_000)) == "4.2%"


@pytest.mark.parametrize(
    ("low", "false_pass", "high", "false_fail"),
    [
        (95, 5, 70, 2),
        (70, 5, 70, 2),
        (0, 5, 95, 2),
        (70, 5, 100, 2),
        (70, 0, 95, 2),
        (70, 5, 95, 100),
    ],
)
def test_limits_that_make_no_sense_are_refused(
    low: int, false_pass: int, high: int, false_fail: int
) -> None:
    with pytest.raises(Refusal):
        limits_of(F(low), F(false_pass), F(high), F(false_fail))


def test_limits_are_kept_exactly() -> None:
    assert limits_of(F(70), F("2.5"), F(95), F(2)) == Limits(false_pass=F(25, 1000))


def test_as_data_says_what_the_screen_does(mixing: Module) -> None:
    data = as_data(plan(mixing, Limits()))
    assert data["paper"] == {
        "items": 24, "write_in": 18, "choice": 6, "cut": 22, "tries": 2,
        "must_gets": len(mixing.blueprint.must),
    }  # fmt: skip
    assert [row["knows"] for row in data["chances"]] == [0.6, 0.7, 0.8, 0.85, 0.9, 0.95]
    for row in data["chances"]:
        assert float(F(row["exact"])) == row["all_tries"]
    assert Must(1, chosen=True) in rule_of(mixing).must
