"""The result slip: what is still to do, slips counted, fresh problems to try."""

from __future__ import annotations

from dataclasses import replace

import pytest

from generator.items.build import draw_item
from generator.model.course import Curriculum
from generator.model.paper import Paper, Verdict
from generator.papers.codes import new_code
from generator.workflows.drawing import draw_paper
from generator.workflows.grade import mark
from generator.workflows.place import Place
from generator.workflows.record import standing_of
from generator.workflows.slip import (
    fresh_items,
    may_today,
    missed_items,
    slip_of,
    slips_made,
    to_do,
)


def right(paper: Paper) -> list[str]:
    return [item.answer.text for item in paper.items]


def practice(curriculum: Curriculum, module: str = "debris") -> Paper:
    return draw_paper(curriculum, curriculum.modules[module], "Juno", True, new_code(()))


def test_the_slip_says_what_is_still_to_do_in_the_language_of_the_paper(
    shop: Place, curriculum: Curriculum
) -> None:
    paper = practice(curriculum, "surface-cleaner")
    lacking = {
        language: to_do(paper, standing_of(shop, curriculum, ["Juno"], language))
        for language in ("en", "es")
    }
    assert lacking["en"][-2:] == ("pass the written paper", "be signed off")
    assert lacking["es"][-2:] == ("aprobar el examen escrito", "obtener la firma del instructor")
    assert len(lacking["es"]) == len(lacking["en"])
    result = mark(replace(paper, language="es"), [""] * len(paper.items), {})
    html = slip_of(curriculum, result, may_today(curriculum, paper, ()), lacking["es"])
    for words in ("Todavía falta:", "<li>aprobar el examen escrito</li>", "Sin respuesta."):
        assert words in html


@pytest.mark.parametrize(
    ("slips", "kinds", "en", "es"),
    [
        ("aab", "", "Two slips made three misses.", "Dos errores: tres fallas."),
        ("a", "", "One slip made one miss.", "Un mismo error: una falla."),
        ("aa", "", "One slip made two misses.", "Un mismo error: dos fallas."),
        ("", ("no-unit", "no-unit"), "One slip made two misses.", "Un mismo error: dos fallas."),
        ("", ("blank", "wrong"), "", ""),
    ],
)
def test_slips_and_misses_in_words(
    slips: str, kinds: tuple[str, ...], en: str, es: str, curriculum: Curriculum
) -> None:
    """The same slip of the same problem is one slip, however often it was made."""
    problem = next(p for p in curriculum.modules["mixing"].problems if len(p.slips) > 1)
    items = tuple(draw_item(problem, seed) for seed in range(6))
    paper = replace(practice(curriculum, "mixing"), items=items)
    result = mark(paper, right(paper), {})
    wrong = [("slip", items[0].slips["ab".index(each)].id) for each in slips]
    wrong += [(kind, "") for kind in kinds]
    bad = [Verdict(n, "", kind, False, slip) for n, (kind, slip) in enumerate(wrong, 1)]
    result = replace(result, verdicts=(*bad, *result.verdicts[len(bad) :]))
    assert slips_made(result) == en
    assert slips_made(result, "es") == es


def test_fresh_problems_have_other_numbers_and_their_working(curriculum: Curriculum) -> None:
    paper = practice(curriculum)
    module = curriculum.modules[paper.module]
    missed = missed_items(mark(paper, [""] * len(paper.items), {}))
    fresh = fresh_items(module, paper.code, missed)
    problems = {item.id for item in paper.items if item.form == "write"}
    assert {item.id for item in fresh} == problems
    assert len(fresh) == len(problems)
    assert not {item.ask for item in fresh} & {item.ask for item in missed}
    assert all(len(item.working) > 0 for item in fresh)
    assert fresh == fresh_items(module, paper.code, missed)
    other = fresh_items(module, new_code([paper.code]), missed)
    assert [item.ask for item in fresh] != [item.ask for item in other]
