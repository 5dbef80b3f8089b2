"""Papers drawn: no two alike, the same from the same seed, every must-get on each."""

from __future__ import annotations

from dataclasses import replace

import pytest

from generator.errors import Refusal
from generator.model.course import Curriculum
from generator.workflows.drawing import draw_paper, draw_papers


def test_no_two_papers_are_alike(curriculum: Curriculum) -> None:
    module = curriculum.modules["mixing"]
    papers = [draw_paper(curriculum, module, "Juno", False, f"P{n}") for n in range(6)]
    asks = [tuple(item.ask for item in paper.items) for paper in papers]
    assert len(set(asks)) == len(papers)
    for paper in papers:
        assert len({item.ask for item in paper.items}) == len(paper.items)
        assert len(paper.items) == module.blueprint.items
        missing = set(module.blueprint.must) - {item.id for item in paper.items}
        assert not missing


def test_the_same_seed_gives_the_same_items(curriculum: Curriculum) -> None:
    module = curriculum.modules["mixing"]
    first, second = (
        draw_paper(curriculum, module, name, False, name, seed="ab" * 16) for name in ("A", "B")
    )
    assert first.items == second.items


def test_no_two_papers_of_a_class_are_alike(curriculum: Curriculum) -> None:
    papers = draw_papers(curriculum, curriculum.modules["mixing"], [""] * 12, True)
    asks = {tuple((i.ask, tuple(o.text for o in i.options)) for i in p.items) for p in papers}
    assert len(asks) == len({p.code for p in papers}) == 12


def test_too_many_papers_of_too_few_items_are_refused(curriculum: Curriculum) -> None:
    """One question in three options can stand in six ways only."""
    module = curriculum.modules["debris"]
    question = next(q for q in module.questions if not q.order)
    lesson = next(le for le in module.lessons if le.id == question.lesson)
    rule = replace(module.blueprint, write_in=0, choice=1, cut=1, must=())
    tiny = replace(
        module,
        problems=(),
        lessons=(replace(lesson, questions=(question,)),),
        blueprint=rule,
    )
    with pytest.raises(Refusal, match="too few items for 9 papers"):
        draw_papers(curriculum, tiny, [""] * 9, True)


def test_a_return_paper_is_short_and_has_every_must_get(curriculum: Curriculum) -> None:
    for module in curriculum.modules.values():
        paper = draw_paper(curriculum, module, "Juno", False, "X", back=True)
        full = module.blueprint
        assert len(paper.items) == min(full.items, 12 + len(full.must)), module.id
        assert set(full.must) <= {item.id for item in paper.items}, module.id
        assert paper.cut * full.items >= full.cut * len(paper.items)  # no easier than the full one
        assert (paper.cut - 1) * full.items < full.cut * len(paper.items)
        assert paper.back


def test_practice_is_done_from_the_practice_cut_on_but_a_short_paper_is_too_short_for_that(
    curriculum: Curriculum,
) -> None:
    mixing = curriculum.modules["mixing"]
    for practice, back, cut in (
        (True, False, mixing.blueprint.practice_cut),
        (True, True, 0),
        (False, False, 0),
    ):
        assert draw_paper(curriculum, mixing, "Juno", practice, "X", back=back).practice_cut == cut
