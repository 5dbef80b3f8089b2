"""Marking fast: by eye, a day's papers from one table, and what the slip says of the misses."""

from __future__ import annotations

from pathlib import Path

import pikepdf
import pytest

from generator.errors import Faults, Refusal
from generator.marking.ticks import wrong_ways
from generator.model.course import Curriculum
from generator.model.paper import Paper
from generator.papers.codes import new_code
from generator.printing.pdf import Printer
from generator.records.papers_kept import find_result
from generator.workflows.drawing import draw_paper
from generator.workflows.grade import Graded, help_in_words, keep
from generator.workflows.grade_day import by_eye, grade_table
from generator.workflows.paper import issued_event
from generator.workflows.person import person_file
from generator.workflows.place import Place
from generator.workflows.record import enter, history
from generator.workflows.today import today


@pytest.fixture
def papers(shop: Place, curriculum: Curriculum) -> list[Paper]:
    """Practice papers for Juno and Teo, and a spare one."""
    module = curriculum.modules["debris"]
    made = [
        draw_paper(curriculum, module, name, True, new_code(()), seed=f"{n}" * 32)
        for n, name in enumerate(("Juno", "Teo", ""), 1)
    ]
    enter(shop, curriculum, [issued_event(paper) for paper in made])
    return made


def right(paper: Paper) -> list[str]:
    return [item.answer.text for item in paper.items]


def write_in(paper: Paper) -> int:
    return next(n for n, item in enumerate(paper.items, 1) if item.form == "write" and item.slips)


def test_marked_by_eye_is_recorded_as_that_with_the_slip(
    shop: Place, curriculum: Curriculum, papers: list[Paper]
) -> None:
    paper = papers[0]
    place = write_in(paper)
    done = keep(shop, curriculum, Graded(by_eye(paper, f"{place}a 1x"), "by eye"), "Mara", None)
    data = history(shop.records)[-1].data
    assert data["how"] == "by eye"
    (first, ticked) = [v for v in data["verdicts"] if not v["counts"]]
    way = wrong_ways(paper.items[place - 1])[0]
    assert (first["position"], first["kind"], first["slip"]) == (1, "wrong", "")
    assert (ticked["position"], ticked["kind"]) == (place, "slip")
    assert (ticked["slip"], ticked["written"]) == (way.slip, way.written)
    kept = find_result(history(shop.records), paper.code)
    assert kept == done.result


def test_help_that_was_given_stands_in_the_file_of_the_person(
    shop: Place, curriculum: Curriculum, papers: list[Paper], tmp_path: Path
) -> None:
    table = tmp_path / "day.csv"
    codes = [paper.code for paper in papers]
    table.write_text(
        "paper,name,ticks,help\n"
        f"{codes[0]},,0,\n{codes[1]},,0,=read  aloud; by Mara\n{codes[2]},Teo,0,\n",
        "utf-8",
    )
    grade_table(shop, curriculum, table, "Mara", None, None, help_in_words(True, "ES"))
    past = history(shop.records)
    told = [
        sitting.how
        for name in ("Juno", "Teo")
        for module in person_file(curriculum, past, name, today(), "").modules
        for sitting in module.sittings
    ]
    aloud = "written, marked by eye; read aloud in Spanish"
    assert told == [aloud, "written, marked by eye; =read aloud; by Mara", aloud]


def test_a_table_marks_a_days_papers_in_one_go(
    shop: Place, curriculum: Curriculum, papers: list[Paper], printer: Printer, tmp_path: Path
) -> None:
    table = tmp_path / "day.csv"
    answers = ";".join(right(papers[1]))
    table.write_text(
        "Code,Name,Ticks,Answers\n"
        f"{papers[0].code.lower()},,1a 2b,\n\n"
        f'{papers[1].code},Teo,,"{answers}"\n'
        f"{papers[2].code},juno,0,\n",
        "utf-8-sig",
    )
    done = grade_table(shop, curriculum, table, "Mara", None, printer)
    count = len(papers[0].items)
    assert [m.person for m in done] == ["Juno", "Teo", "Juno"]
    assert [m.result.right for m in done] == [count - 2, count, count]
    marks = [e for e in history(shop.records) if e.kind == "marked"]
    assert [e.data["how"] for e in marks] == ["by eye", "answers", "by eye"]
    for each in done:
        assert each.slip
        with pikepdf.open(each.slip.path) as pdf:
            assert len(pdf.pages) >= 1


def test_one_bad_row_and_nothing_is_recorded(
    shop: Place, curriculum: Curriculum, papers: list[Paper], tmp_path: Path
) -> None:
    before = history(shop.records)
    table = tmp_path / "day.csv"
    place = write_in(papers[1])
    unread = ";".join([*right(papers[1])[: place - 1], "maybe 3 or 4?", *right(papers[1])[place:]])
    table.write_text(
        "paper,name,ticks,answers\n"
        f"{papers[0].code},,1a,\n"
        f"{papers[0].code},,1a,\n"
        f'{papers[1].code},,,"{unread}"\n'
        f"{papers[2].code},,0,\n"
        "222-222,,0,\n"
        f"{papers[1].code},,1z,\n"
        f"{papers[1].code},,,\n",
        "utf-8",
    )
    with pytest.raises(Faults) as raised:
        grade_table(shop, curriculum, table, "Mara", None, None)
    said = {fault.line: f"{fault.what}: {fault.next}" for fault in raised.value.faults}
    assert set(said) == {3, 4, 5, 6, 7, 8}
    for line, words in (
        (3, "stands here twice"),
        (4, f"mark it alone: rigprimer grade {papers[1].code}"),
        (5, "printed without a name"),
        (7, "the key has no z"),
        (8, "ticks or answers, one of the two"),
    ):
        assert words in said[line]
    assert history(shop.records) == before


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("", "the columns are not named"),
        ("paper,name\n", "the columns are not named"),
        ("paper,ticks\n", "the table names no paper"),
        ("paper,ticks\n,1a\n", "the row names no paper"),
        ("paper,ticks\nK7M-2QF,1a,5b\n", "longer than the first one"),
        ("paper,ticks,answers\nK7M-2QF,1a,3\n", "ticks or answers, one of the two"),
    ],
)
def test_a_table_that_is_none_is_refused(
    text: str, says: str, shop: Place, curriculum: Curriculum, tmp_path: Path
) -> None:
    table = tmp_path / "day.csv"
    table.write_text(text, "utf-8")
    with pytest.raises(Faults) as raised:
        grade_table(shop, curriculum, table, "Mara", None, None)
    assert says in raised.value.faults[0].what


def test_a_table_that_is_not_there_is_refused(shop: Place, curriculum: Curriculum) -> None:
    with pytest.raises(Refusal, match="can't be read"):
        grade_table(shop, curriculum, Path("none.csv"), "Mara", None, None)
