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
from generator.workflows.drawing import draw_paper
from generator.workflows.grade import Graded, keep, mark, paper_to_mark
from generator.workflows.paper import Order, issue, issued_event
from generator.workflows.place import Place
from generator.workflows.record import enter, history
from generator.workflows.runs import print_again

MODULE = "debris"


def test_a_run_comes_out_again_to_the_last_byte(
    shop: Place, curriculum: Curriculum, printer: Printer
) -> None:
    order = Order(MODULE, ("Juno", "Teo"), spare=1, practice=True, script=True)
    done = issue(shop, curriculum, order, printer)
    assert [paper.person for paper in done.papers] == ["Juno", "Teo", ""]
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
    assert (again.bundle.papers, again.asked) == (done.papers, done.papers[2])
    assert not {*again.bundle.files} & {*bundle.files}
    assert len(bundle.files) == 3
    bytes_of = [[file.read_bytes() for file in each.files] for each in (bundle, again.bundle)]
    assert bytes_of[0] == bytes_of[1]
    assert again.bundle.run == again.first
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
    assert again.first.made_with == "Rigprimer 0.0" != again.bundle.run.made_with


def test_a_paper_without_a_kept_run_is_printed_but_not_compared(
    shop: Place, curriculum: Curriculum, printer: Printer
) -> None:
    paper = draw_paper(curriculum, curriculum.modules[MODULE], "Juno", True, "4B3-FCM")
    enter(shop, curriculum, [issued_event(paper)])
    again = print_again(shop, curriculum, paper.code, False, printer)
    assert (again.bundle.papers, again.same) == ((paper,), (None, None))
    assert again.bundle.script_file is None


def test_a_code_that_was_never_printed_is_refused(
    shop: Place, curriculum: Curriculum, printer: Printer
) -> None:
    with pytest.raises(Refusal, match="no paper 4B3-FCM was printed"):
        print_again(shop, curriculum, "4B3-FCM", False, printer)
    assert not shop.out.exists()


def test_a_return_paper_is_for_those_who_passed_before(
    shop: Place, curriculum: Curriculum, printer: Printer
) -> None:
    module = curriculum.modules[MODULE]
    with pytest.raises(Refusal, match="done 0 of"):
        issue(shop, curriculum, Order(MODULE, ("Juno",), back=True), printer)
    assert not list(shop.out.rglob("*.pdf"))
    days = iter((date.today() - timedelta(days=left)).isoformat() for left in range(300, 200, -10))
    codes = iter(("222-22E", "333-33D", "444-44C", "555-55B"))
    for practice in [True] * module.blueprint.practice + [False]:
        day = next(days)
        paper = draw_paper(curriculum, module, "Juno", practice, next(codes), day=day)
        enter(shop, curriculum, [issued_event(paper)])
        right = [item.answer.text for item in paper.items]
        keep(shop, curriculum, Graded(mark(paper, right, {}), seen=day), "Mara", None)
    done = issue(shop, curriculum, Order(MODULE, ("Juno",), back=True), printer)
    (paper,) = done.papers
    assert history(shop.records)[-1].data["paper"]["back"] is True
    assert "return" in done.bundles[0].paper_file.path.name
    sheet = paper_to_mark(shop, paper.code, None)
    result = mark(sheet, [item.answer.text for item in sheet.items], {})
    assert keep(shop, curriculum, Graded(result), "Mara", None).result.passed


def test_large_print_comes_out_large_again(
    shop: Place, curriculum: Curriculum, printer: Printer
) -> None:
    order = Order(MODULE, ("Juno",), practice=True, large=True)
    done = issue(shop, curriculum, order, printer)
    again = print_again(shop, curriculum, done.papers[0].code, False, printer)
    assert again.same == (True, True)
    with pikepdf.open(again.bundle.paper_file.path) as pdf:
        assert len(pdf.pages) > 5
