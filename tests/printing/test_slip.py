"""The result slip: the score in words, what went wrong, what one may do today."""

from __future__ import annotations

from collections.abc import Callable
from types import ModuleType
from typing import Any

from generator.printing.slip import slip_html

Pages = Callable[[str], Any]


def test_half_a_page_says_it_all(pages: Pages) -> None:
    slip = pages("slip")
    (half,) = slip.boxes("half")

    assert len(slip) == 1
    assert half.bottom < 0.55 * slip.sizes[0][1]
    for words in (
        "Ada, crew",
        "20 of 24. Needed 22.",
        "A pass needs every must-get (◆) as well.",
        "Not yet",
        "2 4 1/4 gal You used the label strength.",
        "12 nothing You left it blank.",
        "◆ You must get this one.",
        "Read again: Ratios and fractions (page 3)",
        "Today: Wash, rinse, fill water and help. Do not mix alone.",
    ):
        assert words in half.text


def test_fresh_items_stand_below_the_fold_with_their_answers(pages: Pages) -> None:
    slip = pages("slip")
    (half,), (solutions,) = slip.boxes("half"), slip.boxes("solutions")

    assert [box.text.split()[0] for box in slip.boxes("practice")] == ["1", "2"]
    assert min(box.top for box in slip.boxes("practice")) > half.bottom
    assert solutions.text == "Answers: 1: 2 3/4 gal; 2: 4 1/2 gal"


def test_a_pass_says_so_and_lists_nothing(pages: Pages) -> None:
    text = pages("slip-passed").text(1)

    assert "24 of 24. Needed 22." in text
    assert "✓ Passed" in text
    assert "You wrote" not in text
    assert "Try these" not in text


def test_practice_is_never_a_pass(pages: Pages) -> None:
    text = pages("slip-practice").text(1)

    assert "Mixing: practice" in text
    assert "Passed" not in text
    assert "Do not mix alone" in text


def test_today_is_what_the_record_allows(samples: ModuleType) -> None:
    html = slip_html(
        samples.SHOP, samples.MODULE, samples.result(passed=True), "Ada", (), (), "Mix on Rig 1."
    )

    assert "<b>Today:</b> Mix on Rig 1." in html
