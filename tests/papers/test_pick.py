"""What stands on a paper: the same for a seed, the must-gets always, the counts as stated."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace

import pytest
from scipy.stats import chisquare

from generator.errors import Refusal
from generator.model.course import Curriculum, Module, Question
from generator.model.problem import Problem
from generator.papers.pick import Pick, picks

SEEDS = [f"paper {number}" for number in range(200)]


@pytest.fixture(params=["card", "mixing", "gear", "debris", "surface-cleaner"])
def module(request: pytest.FixtureRequest, curriculum: Curriculum) -> Module:
    return curriculum.modules[request.param]


def ids(paper: tuple[Pick, ...], kind: type) -> list[str]:
    return [pick.thing.id for pick in paper if isinstance(pick.thing, kind)]


def test_a_seed_gives_one_paper(module: Module) -> None:
    for seed in SEEDS:
        assert picks(module, seed) == picks(module, seed)


def test_counts_are_those_of_the_blueprint(module: Module) -> None:
    for seed in SEEDS:
        paper = picks(module, seed)
        assert len(ids(paper, Question)) == module.blueprint.choice
        assert len(ids(paper, Problem)) == module.blueprint.write_in
        assert len(paper) == module.blueprint.items


def test_must_gets_stand_on_every_paper(module: Module) -> None:
    assert module.blueprint.must
    for seed in SEEDS:
        found = {pick.thing.id for pick in picks(module, seed)}
        assert set(module.blueprint.must) <= found


def test_no_question_stands_twice(module: Module) -> None:
    for seed in SEEDS:
        asked = ids(picks(module, seed), Question)
        assert len(asked) == len(set(asked))


def test_problems_repeat_only_once_all_are_used(module: Module) -> None:
    crew = {problem.id for problem in module.problems if problem.level == "crew"}
    must = crew & set(module.blueprint.must)
    least, rest = divmod(module.blueprint.write_in - len(must), len(crew - must))
    for seed in SEEDS:
        counts = Counter(ids(picks(module, seed), Problem))
        assert {counts[name] for name in must} <= {1}
        assert {counts[name] for name in crew - must} <= {least, least + 1 if rest else least}
        assert sum(counts.values()) == module.blueprint.write_in


def test_a_must_get_stands_twice_only_where_there_is_nothing_else(curriculum: Curriculum) -> None:
    module = curriculum.modules["card"]
    (alone,) = [p for p in module.problems if p.id in module.blueprint.must]
    found = ids(picks(replace(module, problems=(alone,)), "1"), Problem)
    assert found == [alone.id] * module.blueprint.write_in


def test_what_is_chosen_comes_before_what_is_worked_out(module: Module) -> None:
    for seed in SEEDS:
        kinds = [isinstance(pick.thing, Problem) for pick in picks(module, seed)]
        assert kinds == sorted(kinds)


def test_questions_are_spread_over_the_lessons(module: Module) -> None:
    must = set(module.blueprint.must)
    room = module.blueprint.choice - sum(q.id in must for q in module.questions)
    lessons = {q.lesson for q in module.questions if q.id not in must}
    for seed in SEEDS:
        things = [pick.thing for pick in picks(module, seed)]
        free = [t.lesson for t in things if isinstance(t, Question) and t.id not in must]
        assert len(set(free)) == min(room, len(lessons))


def test_each_place_has_its_own_numbers(module: Module) -> None:
    seeds = [pick.seed for seed in SEEDS for pick in picks(module, seed)]
    assert len(set(seeds)) == len(seeds)


def test_different_seeds_give_different_papers(module: Module) -> None:
    papers = {tuple(pick.thing.id for pick in picks(module, seed)) for seed in SEEDS}
    assert len(papers) > 0.9 * len(SEEDS)


def test_every_question_and_problem_comes_up(curriculum: Curriculum) -> None:
    for module in curriculum.modules.values():
        found = {pick.thing.id for seed in SEEDS for pick in picks(module, seed)}
        crew = {problem.id for problem in module.problems if problem.level == "crew"}
        assert found == {question.id for question in module.questions} | crew


def test_a_must_get_stands_in_no_favourite_place(curriculum: Curriculum) -> None:
    module = curriculum.modules["mixing"]
    places = Counter(
        ids(picks(module, f"place {n}"), Question).index("acid-and-bleach") for n in range(3000)
    )
    counts = [places[place] for place in range(module.blueprint.choice)]
    assert chisquare(counts).pvalue > 0.001


def test_a_module_too_small_for_its_paper_is_refused(module: Module) -> None:
    longer = replace(module.blueprint, choice=len(module.questions) + 1)
    with pytest.raises(Refusal, match="too few") as told:
        picks(replace(module, blueprint=longer), "1")
    assert "module.yaml" in told.value.next
    with pytest.raises(Refusal, match="too few"):
        picks(replace(module, problems=()), "1")


def test_problems_above_the_crew_stand_on_no_paper(module: Module) -> None:
    first = replace(module.problems[0], level="owner", id="for-the-owner")
    wider = replace(module, problems=(*module.problems, first))
    for seed in SEEDS[:50]:
        assert "for-the-owner" not in ids(picks(wider, seed), Problem)
