"""Marking from the printed paper to the event: right, wrong, and everything that is refused."""

from __future__ import annotations

from datetime import date, timedelta

import pikepdf
import pytest

from generator.errors import Refusal
from generator.model.course import Curriculum
from generator.model.item import Item
from generator.model.paper import Paper
from generator.papers.codes import new_code
from generator.printing.pdf import Printer
from generator.records.papers_kept import find_result
from generator.workflows.drawing import draw_paper
from generator.workflows.grade import Graded, keep, mark, paper_to_mark
from generator.workflows.oral import oral_event
from generator.workflows.paper import issued_event
from generator.workflows.place import Place
from generator.workflows.record import enter, history
from generator.workflows.slip import lessons_to_read, missed_items


def right(item: Item) -> str:
    return item.answer.text


def all_right(paper: Paper) -> list[str]:
    return [right(item) for item in paper.items]


@pytest.fixture
def paper(shop: Place, curriculum: Curriculum) -> Paper:
    """A practice paper for Juno, in the record."""
    return issued(shop, curriculum, "Juno")


def issued(shop: Place, curriculum: Curriculum, person: str, practice: bool = True) -> Paper:
    module = curriculum.modules["surface-cleaner"]
    paper = draw_paper(curriculum, module, person, practice, new_code(()), seed="5" * 32)
    enter(shop, curriculum, [issued_event(paper)])
    return paper


def test_a_paper_all_right_is_passed_and_recorded_with_a_slip(
    shop: Place, curriculum: Curriculum, paper: Paper, printer: Printer
) -> None:
    typed = paper.code.lower().replace("-", " ")
    sheet = paper_to_mark(shop, typed, None)
    assert sheet == paper
    result = mark(sheet, all_right(sheet), {})
    assert (result.passed, result.right) == (True, len(paper.items))
    done = keep(shop, curriculum, Graded(result), "mara", printer)
    assert done.slip
    with pikepdf.open(done.slip.path) as pdf:
        assert len(pdf.pages) >= 1
    last = history(shop.records)[-1]
    assert (last.kind, last.person, last.data["passed"]) == ("marked", "Juno", True)
    kept = find_result(history(shop.records), paper.code)
    assert kept
    assert kept.verdicts == result.verdicts


def test_wrong_answers_name_what_to_read_and_one_fresh_problem_each(
    shop: Place, curriculum: Curriculum, paper: Paper, printer: Printer
) -> None:
    result = mark(paper, [""] * len(paper.items), {})
    assert (result.passed, result.right) == (False, 0)
    assert len(missed_items(result)) == len(paper.items)
    module = curriculum.modules[paper.module]
    lessons = lessons_to_read(module, missed_items(result))
    asked = {item.lesson for item in paper.items}
    places = [n for n, lesson in enumerate(module.lessons, 1) if lesson.id in asked]
    assert len(places) > 1
    assert {where for _, where in lessons} == {f"lesson {n}" for n in places}
    done = keep(shop, curriculum, Graded(result), "Mara", printer)
    assert done.slip
    assert history(shop.records)[-1].data["passed"] is False


def test_a_must_get_missed_is_no_pass_however_many_are_right(paper: Paper) -> None:
    answers = [
        next(letter for letter in "ABC" if letter != right(item))
        if item.id == "hood-down-first"
        else right(item)
        for item in paper.items
    ]
    result = mark(paper, answers, {})
    assert result.right == len(paper.items) - 1
    assert len(result.must_missed) == 1
    assert not result.passed


def test_a_spare_paper_is_named_when_it_is_marked(shop: Place, curriculum: Curriculum) -> None:
    spare = issued(shop, curriculum, "")
    with pytest.raises(Refusal, match="printed without a name") as raised:
        paper_to_mark(shop, spare.code, None)
    assert "--for" in raised.value.next
    sheet = paper_to_mark(shop, spare.code, "teo")
    assert sheet.person == "Teo"
    keep(shop, curriculum, Graded(mark(sheet, all_right(sheet), {})), "Mara", None)
    assert history(shop.records)[-1].person == "Teo"


def test_a_paper_is_marked_for_its_own_person_only(shop: Place, paper: Paper) -> None:
    with pytest.raises(Refusal, match="is Juno's"):
        paper_to_mark(shop, paper.code, "Teo")


def test_a_paper_is_marked_once(shop: Place, curriculum: Curriculum, paper: Paper) -> None:
    result = mark(paper, all_right(paper), {})
    keep(shop, curriculum, Graded(result), "Mara", None)
    before = history(shop.records)
    with pytest.raises(Refusal, match=f"marked already.* rigprimer void {before[-1].number}"):
        paper_to_mark(shop, paper.code, None)
    with pytest.raises(Refusal):
        keep(shop, curriculum, Graded(result), "Mara", None)  # two trainers at the same time
    assert history(shop.records) == before


@pytest.mark.parametrize("more", [-1, 1])
def test_too_few_or_too_many_answers_are_refused(more: int, paper: Paper) -> None:
    answers = all_right(paper)
    answers = answers[:more] if more < 0 else [*answers, "A"]
    with pytest.raises(Refusal, match=f"{len(answers)} answers for the {len(paper.items)} items"):
        mark(paper, answers, {})


def test_an_answer_that_cannot_be_read_is_decided_by_the_trainer(paper: Paper) -> None:
    answers = all_right(paper)
    place = next(n for n, item in enumerate(paper.items, 1) if item.form == "write")
    answers[place - 1] = "maybe 3 or 4 or so?"
    with pytest.raises(Refusal, match=f"item {place}") as raised:
        mark(paper, answers, {})
    assert "--right N or --wrong N" in raised.value.next
    assert mark(paper, answers, {place: True}).right == len(paper.items)
    assert mark(paper, answers, {place: False}).right == len(paper.items) - 1
    with pytest.raises(Refusal, match="needs no decision"):
        mark(paper, answers, {place: True, place % len(paper.items) + 1: True})


@pytest.mark.parametrize("by", ["Juno", "Teo", "Nobody"])
def test_only_a_trainer_marks_a_paper_that_counts(
    by: str, shop: Place, curriculum: Curriculum, paper: Paper
) -> None:
    keep(shop, curriculum, Graded(mark(paper, all_right(paper), {})), "Mara", None)
    paper = issued(shop, curriculum, "Juno", practice=False)
    before = history(shop.records)
    with pytest.raises(Refusal):
        keep(shop, curriculum, Graded(mark(paper, all_right(paper), {})), by, None)
    assert history(shop.records) == before
    assert not shop.out.exists()


def test_a_day_to_come_is_refused(shop: Place, curriculum: Curriculum, paper: Paper) -> None:
    tomorrow = (date.today() + timedelta(days=1)).isoformat()
    result = mark(paper, all_right(paper), {})
    for day in (tomorrow, "30/04/2026", "2026-02-30"):
        with pytest.raises(Refusal):
            keep(shop, curriculum, Graded(result, seen=day), "Mara", None)


def test_an_oral_re_check_needs_a_marked_paper(
    shop: Place, curriculum: Curriculum, paper: Paper
) -> None:
    with pytest.raises(Refusal, match="has not been marked"):
        oral_event(shop, curriculum, paper.code, "hood-down-first", "Mara", 2, None)
