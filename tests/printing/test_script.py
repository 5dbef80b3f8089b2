"""The read-aloud script: everything is said, units in words, and nothing gives an answer away."""

from __future__ import annotations

from collections.abc import Callable
from html import unescape
from types import ModuleType
from typing import Any

import pytest

from generator.maths.units import UNIT_NAMES
from generator.model.course import Curriculum
from generator.model.paper import Paper
from generator.printing.script import aloud, script_html, what_to_write
from generator.words import LANGUAGES, words
from generator.workflows.drawing import draw_paper


@pytest.fixture(scope="module")
def paper(curriculum: Curriculum) -> Paper:
    """A paper of choices, an order and numbers."""
    return draw_paper(curriculum, curriculum.modules["mixing"], "Juno", True, "X", seed="7" * 32)


@pytest.mark.parametrize(
    ("language", "printed", "said"),
    [
        ("en", "Fill 3 1/4 gal at 4 gpm.", "Fill 3 and 1/4 gallons at 4 gallons a minute."),
        ("en", "A 5-gal jug of 12.5% stock", "A 5-gallon jug of 12.5 percent stock"),
        (
            "en",
            "Drink 1 in the heat, 2 in from the wall",
            "Drink 1 in the heat, 2 inches from the wall",
        ),
        ("en", "1 gal, 1/4 in, 2,000 psi", "1 gallon, 1/4 inch, 2,000 P S I"),
        ("en", "8 fl oz/gal for $3.50", "8 fluid ounces per gallon for 3.50 dollars"),
        ("en", "100 sq ft in 30 min", "100 square feet in 30 minutes"),
        ("es", "Llene 3 1/4 gal a 4 gal/min", "Llene 3 y 1/4 galones a 4 galones por minuto"),
        ("es", "1 gal al 12.5%", "1 galón al 12.5 por ciento"),
    ],
)
def test_units_are_spoken(language: str, printed: str, said: str) -> None:
    assert aloud(printed, language) == said


@pytest.mark.parametrize("language", LANGUAGES)
def test_every_unit_said_is_a_unit_and_every_problem_unit_is_said(
    language: str, curriculum: Curriculum
) -> None:
    said = words(language)["aloud"]
    assert set(said) <= UNIT_NAMES
    assert set(words(language)["aloud_one"]) <= set(said)
    used = {problem.relation.quantity(problem.find).unit for problem in curriculum.problems
            if problem.relation.quantity(problem.find)}  # fmt: skip
    lone = {unit for unit in used if unit in UNIT_NAMES} - {"1", "fraction"}
    assert lone <= set(said)


def test_no_answer_slip_reason_or_working_is_on_a_script(
    curriculum: Curriculum, paper: Paper
) -> None:
    """Only the options of items to choose are read: those of numbers would give them away."""
    html = unescape(script_html(curriculum.shop, [paper]))
    for item in paper.items:
        if item.form == "write":
            texts = [*(slip.text for slip in item.slips), item.answer.text]
            asked = aloud(item.ask, "en")
            body = html.split(asked[:60], 1)[1].split("</div>\n</div>", 1)[0]
            assert 'class="said option"' not in body
            assert not [t for t in texts if f"> {t}" in body or f">{t}<" in body]
        else:
            for option in item.options:
                assert aloud(option.text, "en") in html
        for line in [*item.working, *(o.reason for o in item.options if o.reason)]:
            assert line not in html
    assert "must" not in html.split("<body", 1)[1]


def test_each_item_has_two_boxes_options_and_pauses(
    samples: ModuleType, lay_out: Callable[[str], Any]
) -> None:
    pages = lay_out(script_html(samples.SHOP, samples.PAPERS))
    boxes = pages.boxes("spoken")
    assert len(boxes) == sum(len(paper.items) for paper in samples.PAPERS)
    assert all(box.text.startswith("1 2 Item ") for box in boxes)
    fifth = next(box for box in boxes if samples.FIFTH.options[0].text in box.text)
    for words_ in ("A. ", "B. ", "C. ", "Pause.", "Choose A, B or C.", "Read it again."):
        assert words_ in fifth.text
    text = pages.text(1)
    assert "Read each item twice" in text
    assert "Give no hint" in text
    last = " ".join(pages.text(n) for n in range(1, len(pages) + 1))
    assert "Interpreter" in last


def test_what_to_write_names_the_unit_or_the_letters(samples: ModuleType) -> None:
    assert what_to_write(samples.FIFTH, "en") == "Choose A, B or C. Tick one box."
    assert what_to_write(samples.ORDER, "en") == "Write the letters in order."
    assert "gallons" in what_to_write(samples.BATCH[0], "en")
    assert "galones" in what_to_write(samples.BATCH[0], "es")
