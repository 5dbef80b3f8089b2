"""Marking by eye: ticks read, verdicts as if the ticked answers had been typed in."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.errors import Refusal
from generator.marking.result import mark
from generator.marking.ticks import mark_by_eye, parse_ticks, wrong_ways
from generator.model.course import Curriculum
from generator.model.paper import Paper
from generator.workflows.drawing import draw_paper


@pytest.fixture(scope="module")
def paper(curriculum: Curriculum) -> Paper:
    """A paper of choices, an order and numbers."""
    return draw_paper(curriculum, curriculum.modules["mixing"], "Juno", True, "X", seed="7" * 32)


@pytest.mark.parametrize(
    ("text", "ticks"),
    [
        ("1a 5b 7x", {1: "a", 5: "b", 7: "x"}),
        ("1A,5 b; 9-", {1: "a", 5: "b", 9: "-"}),
        ("0", {}),
        ("none", {}),
    ],
)
def test_ticks_are_read_as_they_are_typed(text: str, ticks: dict[int, str]) -> None:
    assert parse_ticks(text, 10) == ticks


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("  ", "there are no ticks"),
        ("11a", "there is no item 11"),
        ("0a", "there is no item 0"),
        ("1a 1b", "item 1 is ticked twice"),
        ("a1", '"a1" is not a tick'),
        ("3", '"3" is not a tick'),
        ("1ab", "is not a tick"),
    ],
)
def test_what_is_no_tick_is_refused(text: str, says: str) -> None:
    with pytest.raises(Refusal, match=says):
        parse_ticks(text, 10)


@given(st.dictionaries(st.integers(1, 30), st.sampled_from("abcx-"), min_size=1))
def test_ticks_come_back_as_written(ticks: dict[int, str]) -> None:
    assert parse_ticks(" ".join(f"{n}{tick}" for n, tick in ticks.items()), 30) == ticks


def test_a_tick_is_the_verdict_of_the_answer_on_the_key(paper: Paper) -> None:
    """Each slip of each item gives the same slip, by eye and typed in."""
    right = [item.answer.text for item in paper.items]
    seen = 0
    for position, item in enumerate(paper.items, 1):
        for way in wrong_ways(item):
            typed = [*right]
            typed[position - 1] = way.written
            eye = mark_by_eye(paper, {position: way.letter})
            verdict = eye.verdicts[position - 1]
            assert (verdict.written, verdict.slip) == (way.written, way.slip)
            assert not verdict.counts
            assert eye.right == len(paper.items) - 1
            by_typing = mark(paper, typed).verdicts[position - 1]
            assert by_typing.counts is False
            if by_typing.kind == "slip":
                assert (verdict.kind, verdict.slip) == ("slip", by_typing.slip)
                assert verdict.tell == by_typing.tell
                seen += 1
    assert seen > 20


def test_another_wrong_answer_and_a_blank_have_no_slip(paper: Paper) -> None:
    result = mark_by_eye(paper, {2: "x", 3: "-"})
    kinds = [(v.kind, v.counts, v.slip, v.written) for v in result.verdicts[1:3]]
    assert kinds == [("wrong", False, "", ""), ("blank", False, "", "")]
    assert result.right == len(paper.items) - 2


def test_a_must_get_ticked_is_missed(paper: Paper) -> None:
    place = next(n for n, item in enumerate(paper.items, 1) if item.must)
    result = mark_by_eye(paper, {place: "x"})
    assert (result.must_missed, result.passed) == ((place,), False)
    assert mark_by_eye(paper, {}).passed


def test_a_letter_that_the_key_does_not_have_is_refused(paper: Paper) -> None:
    choice = next(n for n, item in enumerate(paper.items, 1) if item.form == "choose")
    order = next(n for n, item in enumerate(paper.items, 1) if item.form == "order")
    with pytest.raises(Refusal, match="the key has no c") as raised:
        mark_by_eye(paper, {choice: "c"})
    assert f"{choice}a, {choice}b or {choice}x" in raised.value.next
    with pytest.raises(Refusal, match="the key has no a"):
        mark_by_eye(paper, {order: "a"})
