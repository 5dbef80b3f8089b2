"""The board: first who may, then what is missing; a word and a shape, never a colour alone."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from types import ModuleType
from typing import Any

import pytest

from generator.model.board import Board, Cell, Duty, Row
from generator.model.standing import STATES, WORKING
from generator.printing.board import board_html, heads, label, mark, weight

Pages = Callable[[str], Any]


def test_the_first_thing_it_says_is_who_may_mix(pages: Pages) -> None:
    text = pages("board").text(1)
    duty_1, duty_2 = pages("board").boxes("duty")

    assert duty_1.text == "Rig 1 ✓ Ada and Teo may mix today."
    assert duty_2.text == "Rig 2 ■ Nobody may mix today."
    assert text.index("Nobody may mix today.") < text.index("Marisol")


def test_every_cell_says_the_state_since_when_and_until_when(pages: Pages) -> None:
    text = pages("board").text(1)

    assert "✓ soon May 20 ’25 May 20 ’26" in text
    assert "✓ yes Nov 30 ’25 Nov 30 ’26 E1" in text
    assert "■ over Apr 30 ’26" in text
    assert "E1 Ada, ladders: Odile opened a try early on 2025-11-30: job next day." in text


def test_beneath_stands_what_each_person_lacks(pages: Pages) -> None:
    text = pages("board").text(1)

    assert "Marisol gear: re-brief; card, Rig 2: data sheets, sign-off; mix, both rigs" in text
    assert "Nothing is missing for Ada" in text


def crowd(names: Sequence[str], modules: int) -> Board:
    """A board of so many modules, four of them by rig, and those people."""
    heads = [f"mod{n}, Rig {rig}" for n in range(4) for rig in (1, 2)]
    heads += [f"mod{n}" for n in range(4, modules)]
    kinds = [
        Cell("cleared", "2027-03-02", (), "2026-03-03", "2027-03-02"),
        Cell("suspended", "2026-05-02", (), "2026-05-02"),
        Cell("passed paper", "2026-04-30", (), "2026-04-30"),
        Cell("not started"),
    ]
    wants = ("mod0, mod1 on Rig 2: 3 lessons, paper, sign-off", "data sheets on both rigs")
    rows = tuple(
        Row(name, "crew", tuple(kinds[(n + m) % 4] for m in range(len(heads))), wants)
        for n, name in enumerate(names)
    )
    duties = (
        Duty("Rig 1", "Ada, Teo and Marisol may mix today. By the card: Ike and Juno.", True),
        Duty("Rig 2", "Nobody may mix today.", False),
    )
    return Board("2026-05-04", tuple(heads), duties, rows, "The board wins.", "b3f1-90c2")


def test_thirteen_modules_two_rigs_and_twelve_people_fit_one_page(
    samples: ModuleType, lay_out: Callable[[str], Any]
) -> None:
    names = ["Mara", "Cal", "Juno", "Teo", "Bram", "Pia", "Ike", "Odessa", "Nuri", "Wen", "Lupe"]
    board = lay_out(board_html(samples.SHOP, crowd([*names, "Marisol-Beatriz"], 13)))

    assert len(board) == 1
    text = board.text(1)
    assert "Page 1 of 1" in text
    assert "b3f1-90c2" in text
    assert len(board.boxes("state")) == 12 * 17


def test_a_crew_too_large_for_one_page_keeps_its_heads(
    samples: ModuleType, lay_out: Callable[[str], Any]
) -> None:
    board = lay_out(board_html(samples.SHOP, crowd([f"Crew {n}" for n in range(40)], 13)))

    assert len(board) > 1
    assert "mod0" in board.text(1)
    assert "mod0" in board.text(2)


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


def test_every_state_has_a_word_of_its_own() -> None:
    words = [label(state) for state in STATES]
    assert len(set(words)) == len(words)


def test_rigs_of_a_module_share_its_head() -> None:
    names = ("mix, Rig 1", "mix, Rig 2", "gear", "road, Big Blue")
    found = [("mix", ["Rig 1", "Rig 2"]), ("gear", [""]), ("road", ["Big Blue"])]
    assert heads(names) == found
