"""The board: first who may, then what is missing; a word and a shape, never a colour alone."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

from generator.model.standing import STATES, WORKING
from generator.printing.board import mark, weight

Pages = Callable[[str], Any]


def test_the_first_thing_it_says_is_who_may_mix(pages: Pages) -> None:
    text = pages("board").text(1)
    duty_1, duty_2 = pages("board").boxes("duty")

    assert duty_1.text == "Rig 1 ✓ Ada and Teo may mix today."
    assert duty_2.text == "Rig 2 ■ Nobody may mix today."
    assert text.index("Nobody may mix today.") < text.index("Marisol")


def test_every_cell_says_the_state_the_day_and_what_is_missing(pages: Pages) -> None:
    text = pages("board").text(1)

    assert "✓ due soon May 20, 2026 paper before May 20" in text
    assert "passed paper observed mix on Rig 2 data sheets of Rig 2 shown" in text
    assert "■ lapsed Apr 30, 2026 paper" in text


def test_it_fits_one_page_with_note_and_chain_head(pages: Pages) -> None:
    board = pages("board")

    assert len(board) == 1
    assert board.sizes[0][0] > board.sizes[0][1]
    assert "Two exceptions by the owner stand until May 9." in board.text(1)
    assert "b3f1 90c2 77ae 10d4" in board.text(1)


@pytest.mark.parametrize("state", STATES)
def test_whoever_may_has_a_tick_and_nobody_else(state: str) -> None:
    assert (mark(state) == "✓") == (state in WORKING)
    assert (weight(state) == "may") == (state in WORKING)
