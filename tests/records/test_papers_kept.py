"""Papers and results go into the record and come out the same, fraction by fraction."""

from __future__ import annotations

import json
from collections.abc import Callable
from dataclasses import fields
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.errors import Refusal
from generator.model.event import Event
from generator.model.item import Answer, Item, Option, SlipValue
from generator.model.paper import Paper, Result, Verdict
from generator.records.papers_kept import (
    codes_used,
    find_paper,
    find_result,
    mark_of,
    paper_from_data,
    paper_to_data,
    result_from_data,
    result_to_data,
)
from generator.records.store import Records

History = Callable[[str], tuple[Event, ...]]

text = st.text(st.characters(exclude_categories=["Cs"]), max_size=12)
number = st.fractions()
some = st.none() | number
answers = st.builds(Answer, some, some, text, text, some, some, st.booleans(), text)
slips = st.builds(SlipValue, text, text, text, some, text, text)
given_numbers = st.dictionaries(text, number | st.lists(number, max_size=3).map(tuple), max_size=3)


def several(kind: st.SearchStrategy[Any], most: int = 3) -> st.SearchStrategy[tuple[Any, ...]]:
    return st.lists(kind, max_size=most).map(tuple)


items = st.builds(
    Item,
    id=text,
    form=st.sampled_from(("write", "choose", "order")),
    seed=st.integers(0, 2**64),
    ask=text,
    answer=answers,
    options=several(st.builds(Option, text, st.booleans(), text, text)),
    order=text,
    working=several(text),
    slips=several(slips, 2),
    given=given_numbers,
    lesson=text,
    must=st.booleans(),
    words=several(text),
    never_above=st.booleans(),
)
papers = st.builds(
    Paper,
    code=text,
    seed=text,
    module=text,
    module_title=text,
    edition=st.integers(1, 99),
    curriculum=text,
    person=text,
    printed=st.dates().map(str),
    items=several(items),
    cut=st.integers(0, 30),
    practice=st.booleans(),
    language=text,
)
verdicts = st.builds(Verdict, st.integers(1, 30), text, text, st.booleans(), slip=text, tell=text)
results = st.builds(
    Result, papers, several(verdicts), several(st.integers(1, 30)), passed=st.booleans()
)


@settings(deadline=None)
@given(papers)
def test_a_paper_comes_back_from_json_the_same(paper: Paper) -> None:
    data = json.loads(json.dumps(paper_to_data(paper)))
    assert paper_from_data(data) == paper


@settings(deadline=None)
@given(results, st.sampled_from(("answers", "by eye")))
def test_a_result_comes_back_from_json_the_same(result: Result, how: str) -> None:
    data = json.loads(json.dumps(result_to_data(result, how)))
    assert result_from_data(data, result.paper) == result
    assert list(data) == [
        "paper",
        "verdicts",
        "right",
        "items",
        "cut",
        "must_missed",
        "passed",
        "practice",
        "how",
    ]
    assert (data["right"], data["items"]) == (result.right, len(result.paper.items))


def test_every_field_of_the_model_is_kept() -> None:
    answer = Answer(Fraction(1, 3), None, "gal")
    paper = Paper(
        "C", "0", "m", "M", 1, "d", "", "2025-03-01", (Item("i", "write", 1, "?", answer),), 1
    )
    data = paper_to_data(paper)
    assert list(data) == [field.name for field in fields(Paper)]
    assert list(data["items"][0]) == [field.name for field in fields(Item)]
    assert data["items"][0]["answer"]["value"] == "1/3"
    assert data["items"][0]["answer"]["exact"] is None


def test_fields_with_defaults_may_be_missing_from_older_records() -> None:
    data = paper_to_data(paper_from_data(SMALL))
    del data["language"], data["practice"]
    assert paper_from_data(data) == paper_from_data(SMALL)


SMALL: dict[str, Any] = {
    "code": "C",
    "seed": "0",
    "module": "m",
    "module_title": "M",
    "edition": 1,
    "curriculum": "d",
    "person": "Ana",
    "printed": "2025-03-01",
    "items": [],
    "cut": 1,
}


@pytest.mark.parametrize(
    "change",
    [
        {"cut": "1"},
        {"cut": True},
        {"cut": None},
        {"items": "none"},
        {"items": [{"id": "a"}]},
        {"items": [[]]},
        {"person": 7},
    ],
)
def test_a_paper_that_cannot_be_one_is_refused(change: dict[str, Any]) -> None:
    with pytest.raises(Refusal, match="can't be read"):
        paper_from_data({**SMALL, **change})


def test_a_missing_field_is_refused() -> None:
    with pytest.raises(Refusal, match="can't be read"):
        paper_from_data({name: value for name, value in SMALL.items() if name != "cut"})


def test_a_field_of_a_newer_program_is_refused() -> None:
    with pytest.raises(Refusal, match='has "weight", not known here'):
        paper_from_data({**SMALL, "weight": 3})


def test_an_unkeepable_value_and_an_unknown_way_of_marking_are_bugs() -> None:
    paper = paper_from_data(SMALL)
    with pytest.raises(TypeError, match="float can't be kept"):
        paper_to_data(Paper(**{**paper.__dict__, "cut": 1.5}))
    with pytest.raises(ValueError, match="guess"):
        result_to_data(Result(paper, (), (), False), "guess")


def test_papers_and_results_are_found_by_code(starts: dict[str, str], history: History) -> None:
    events = history(starts["papered"] + "2025-01-09 issued Ana M2 mixing")
    paper = find_paper(events, "M1")
    assert paper
    assert (paper.code, paper.person, paper.items[0].answer.value) == ("M1", "Ana", Fraction(5, 2))
    assert find_paper(events, "M3") is None
    assert [bool(mark_of(events, code)) for code in ("M1", "M2", "M3")] == [True, False, False]
    assert codes_used(events) == {"G1", "M1", "M2"}
    result = find_result(events, "M1")
    assert result
    assert (result.paper, result.passed) == (paper, True)
    assert find_result(events, "M2") is None


def test_a_voided_paper_is_gone_but_its_code_is_spent(
    starts: dict[str, str], history: History
) -> None:
    events = history(
        starts["papered"]
        + """2025-01-09 voided Ana by Boss number=10 why=smudged
             2025-01-09 voided Ana by Boss number=11 why=smudged"""
    )
    assert find_paper(events, "M1") is None
    assert find_result(events, "M1") is None
    assert mark_of(events, "M1") is None
    assert "M1" in codes_used(events)


def test_a_result_of_another_paper_is_refused(starts: dict[str, str], history: History) -> None:
    events = history(starts["papered"])
    paper = find_paper(events, "G1")
    assert paper
    with pytest.raises(Refusal, match="is not of paper G1"):
        result_from_data(events[-1].data, paper)


def test_a_paper_survives_the_file(path: Path, starts: dict[str, str], history: History) -> None:
    events = history(starts["papered"])
    with Records(path, create=True) as records:
        records.append(events)
        assert find_paper(records.events(), "M1") == find_paper(events, "M1")
