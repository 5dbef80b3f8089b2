"""The re-brief sheet: a page a person with what changed; the reasons on the trainer's key alone."""

from __future__ import annotations

from collections.abc import Callable
from types import ModuleType
from typing import Any

import pytest

from generator.items.build import question_item
from generator.model.course import Change
from generator.model.item import Item
from generator.printing.brief import brief_html, brief_key_html

LayOut = Callable[[str], Any]
CHANGE = Change(3, ("The stock is tested **every** morning.",), ("ratios", "batch"))


@pytest.fixture
def items(samples: ModuleType) -> list[Item]:
    """A question to choose and one to put in order."""
    return [question_item(question, seed) for seed, question in enumerate(samples.QUESTIONS)]


def test_each_person_has_a_page_of_their_own(
    samples: ModuleType, items: list[Item], lay_out: LayOut
) -> None:
    people = ["Ada", "two\nlines\u202e <b>"]
    pages = lay_out(brief_html(samples.SHOP, samples.MODULE, CHANGE, items, people))

    assert len(pages) == 2
    for number, name in enumerate(("Ada", "two lines <b>"), 1):
        text = pages.text(number)
        assert f"Name {name} Signature" in text
        assert "The stock is tested every morning." in text
        assert "lesson 1, Ratios and fractions; lesson 2, A batch in a tank." in text
        for item in items:
            assert item.ask in text
            assert all(option.text in text for option in item.options)


def test_without_a_name_there_is_a_line_for_it(
    samples: ModuleType, items: list[Item], lay_out: LayOut
) -> None:
    named, blank = (
        lay_out(brief_html(samples.SHOP, samples.MODULE, CHANGE, items, people))
        for people in (["Ada"], [])
    )

    assert len(blank) == 1
    assert len(blank.boxes("wide")) == len(named.boxes("wide")) + 1


def test_answers_and_reasons_stand_on_the_key_alone(
    samples: ModuleType, items: list[Item], lay_out: LayOut
) -> None:
    sheet = lay_out(brief_html(samples.SHOP, samples.MODULE, CHANGE, items, [])).text(1)
    key = lay_out(brief_key_html(samples.SHOP, samples.MODULE, items)).text(1)

    choice, order = samples.QUESTIONS
    right = next(option for option in choice.options if option.right)
    for item, reason in zip(items, (right.reason, order.reason), strict=True):
        assert f"{item.answer.text} {reason}" in key
        assert reason not in sheet
