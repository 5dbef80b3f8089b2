"""Papers in one go, printed again from the record: the same bytes, or it is said why not."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from hashlib import sha256

import pikepdf
import pytest

from generator.errors import Refusal
from generator.model.course import Curriculum
from generator.printing.pdf import Printer
from generator.workflows.grade import keep, mark, paper_to_mark
from generator.workflows.paper import draw_paper, draw_papers, issue, issued_event
from generator.workflows.place import Place
from generator.workflows.record import enter, history
from generator.workflows.runs import print_again

MODULE = "debris"


def test_a_run_comes_out_again_to_the_last_byte(
    shop: Place, curriculum: Curriculum, printer: Printer
) -> None:
    module = curriculum.modules[MODULE]
    done = issue(shop, curriculum, module, ["Juno", "Teo"], 2, True, printer, script=True)
    assert [paper.person for paper in done.papers] == ["Juno", "Teo", "", ""]
    (bundle,) = done.bundles
    first = [file.path.read_bytes() for file in (bundle.paper_file, bundle.key_file)]
    runs = [e.data["run"] for e in history(shop.records) if e.kind == "issued"]
    for run in runs:
        assert [run["paper_hash"], run["key_hash"]] == [sha256(b).hexdigest() for b in first]
        assert "WeasyPrint" in run["made_with"]
    before = history(shop.records)
    renamed = replace(curriculum, shop=replace(curriculum.shop, name="Another Name", page="a4"))
    again = print_again(shop, renamed, done.papers[2].code.lower(), True, printer)
    assert again.same == (True, True)
    assert (again.papers, again.asked) == (done.papers, done.papers[2])
    assert again.paper_file.path != bundle.paper_file.path
    assert [f.path.read_bytes() for f in (again.paper_file, again.key_file)] == first
    assert again.script_file
    assert bundle.script_file
    assert again.script_file.path.read_bytes() == bundle.script_file.path.read_bytes()
    assert history(shop.records) == before


def test_a_page_that_differs_is_told(shop: Place, curriculum: Curriculum, printer: Printer) -> None:
    paper = draw_paper(curriculum, curriculum.modules[MODULE], "Juno", True, "4B3-FCM")
    kept = issued_event(paper)
    run = {"first": paper.code, "strip": [], "shop": "X", "page": "letter", "checked": "",
           "language": "en", "large": False, "made_with": "Rigprimer 0.0",
           "paper_hash": "0" * 64, "key_hash": ""}  # fmt: skip
    enter(shop, curriculum, [kept._replace(data={**kept.data, "run": run})])
    again = print_again(shop, curriculum, paper.code, False, printer)
    assert again.same == (False, None)
    assert again.made_with == "Rigprimer 0.0" != again.made_with_now


def test_a_paper_without_a_kept_run_is_printed_but_not_compared(
    shop: Place, curriculum: Curriculum, printer: Printer
) -> None:
    paper = draw_paper(curriculum, curriculum.modules[MODULE], "Juno", True, "4B3-FCM")
    enter(shop, curriculum, [issued_event(paper)])
    again = print_again(shop, curriculum, paper.code, False, printer)
    assert (again.papers, again.same, again.script_file) == ((paper,), (None, None), None)


def test_a_code_that_was_never_printed_is_refused(
    shop: Place, curriculum: Curriculum, printer: Printer
) -> None:
    with pytest.raises(Refusal, match="no paper 4B3-FCM was printed"):
        print_again(shop, curriculum, "4B3-FCM", False, printer)
    assert not shop.out.exists()


def test_no_two_papers_of_a_class_are_alike(curriculum: Curriculum) -> None:
    papers = draw_papers(curriculum, curriculum.modules["mixing"], [""] * 12, True)
    asks = {tuple((i.ask, tuple(o.text for o in i.options)) for i in p.items) for p in papers}
    assert len(asks) == len({p.code for p in papers}) == 12


def test_too_many_papers_of_too_few_items_are_refused(curriculum: Curriculum) -> None:
    """One question in three options can stand in six ways only."""
    module = curriculum.modules[MODULE]
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


def test_a_return_paper_is_for_those_who_passed_before(
    shop: Place, curriculum: Curriculum, printer: Printer
) -> None:
    module = curriculum.modules[MODULE]
    with pytest.raises(Refusal, match="done 0 of"):
        issue(shop, curriculum, module, ["Juno"], 0, False, printer, back=True)
    assert not list(shop.out.rglob("*.pdf"))
    days = iter((date.today() - timedelta(days=left)).isoformat() for left in range(300, 200, -10))
    codes = iter(("222-22E", "333-33D", "444-44C", "555-55B"))
    for practice in [True] * module.blueprint.practice + [False]:
        day = next(days)
        paper = draw_paper(curriculum, module, "Juno", practice, next(codes), day=day)
        enter(shop, curriculum, [issued_event(paper)])
        right = [item.answer.text for item in paper.items]
        keep(shop, curriculum, mark(paper, right, {}), "Mara", day, None)
    done = issue(shop, curriculum, module, ["Juno"], 0, False, printer, back=True)
    (paper,) = done.papers
    assert history(shop.records)[-1].data["paper"]["back"] is True
    assert "return" in done.bundles[0].paper_file.path.name
    sheet = paper_to_mark(shop, paper.code, None)
    result = mark(sheet, [item.answer.text for item in sheet.items], {})
    assert keep(shop, curriculum, result, "Mara", None, None).result.passed


def test_large_print_comes_out_large_again(
    shop: Place, curriculum: Curriculum, printer: Printer
) -> None:
    module = curriculum.modules[MODULE]
    done = issue(shop, curriculum, module, ["Juno"], 0, True, printer, large=True)
    again = print_again(shop, curriculum, done.papers[0].code, False, printer)
    assert again.same == (True, True)
    with pikepdf.open(again.paper_file.path) as pdf:
        assert len(pdf.pages) > 5
