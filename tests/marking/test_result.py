"""A whole paper marked: what counts, must-gets, the cut and the trainer's decisions."""

from __future__ import annotations

from fractions import Fraction

import pytest

from generator.errors import Refusal
from generator.marking.result import decide, mark, waiting
from generator.model.item import Answer, Item
from generator.model.paper import Paper


def item(value: int, must: bool = False) -> Item:
    number = Fraction(value)
    answer = Answer(number, number, "gal", low=number, high=number, text=f"{value} gal")
    return Item(f"item-{value}", "write", 1, "How much?", answer, must=must)


def paper(cut: int) -> Paper:
    """Four items with the answers 1 to 4 gal; the second is a must-get."""
    items = tuple(item(value, must=value == 2) for value in range(1, 5))
    return Paper("AB12", "00", "mix", "Mixing", 1, "d", "Ana", "2025-03-01", items, cut)


def test_enough_right_answers_and_every_must_get_pass() -> None:
    result = mark(paper(3), ["1", "2 gal", "12 qt", "9"])
    assert (result.right, result.must_missed, result.passed) == (3, (), True)
    assert [verdict.position for verdict in result.verdicts] == [1, 2, 3, 4]


def test_one_too_few_fails() -> None:
    assert not mark(paper(3), ["1", "2", "9", "9"]).passed


def test_a_missed_must_get_fails_whatever_the_count() -> None:
    result = mark(paper(3), ["1", "9", "3", "4"])
    assert (result.right, result.must_missed, result.passed) == (3, (2,), False)


def test_blanks_do_not_count() -> None:
    result = mark(paper(0), ["", "", "", ""])
    assert (result.right, result.must_missed, result.passed) == (0, (2,), False)


def test_an_answer_that_cannot_be_read_waits_and_does_not_count() -> None:
    result = mark(paper(3), ["1", "two or 3", "3", "see back"])
    assert (waiting(result), result.right, result.must_missed) == ((2, 4), 2, (2,))
    assert not result.passed


def test_the_trainer_decides_in_favour() -> None:
    result = decide(mark(paper(3), ["1", "two or 3", "3", "9"]), 2, True)
    assert (result.right, result.must_missed, result.passed) == (3, (), True)
    assert result.verdicts[1].tell == "The trainer decided: right."
    assert result.verdicts[1].written == "two or 3"
    assert not waiting(result)


def test_the_trainer_decides_against() -> None:
    result = decide(mark(paper(3), ["1", "2", "3", "see back"]), 4, False)
    assert (result.right, result.verdicts[3].kind, result.passed) == (3, "wrong", True)


@pytest.mark.parametrize("position", [0, 1, 5, -1])
def test_what_was_read_is_not_decided_again(position: int) -> None:
    result = mark(paper(3), ["9", "2", "3", "see back"])
    with pytest.raises(Refusal, match=rf"item {position} needs no decision — decide one of: 4"):
        decide(result, position, True)


def test_nothing_is_left_to_decide() -> None:
    with pytest.raises(Refusal, match="every answer of this paper is decided"):
        decide(mark(paper(3), ["9", "2", "3", "4"]), 1, True)


def test_answers_and_items_must_be_as_many() -> None:
    with pytest.raises(Refusal, match="3 answers for the 4 items of paper AB12"):
        mark(paper(3), ["1", "2", "3"])
