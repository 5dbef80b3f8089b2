"""The board on the wall: who may do what today, and what is missing for the others."""

from __future__ import annotations

from generator.model.board import Board
from generator.model.shop import Shop
from generator.model.standing import WORKING
from generator.printing.environment import render

_STOPPED = ("lapsed", "suspended")

MEANS = (
    ("cleared", "may do it alone"),
    ("due soon", "may do it alone, renew by the date"),
    ("re-brief", "may do it alone until the date, must be told what changed"),
    ("passed paper", "the trainer has not seen all of it yet"),
    ("lapsed", "may not, a renewal was missed"),
    ("suspended", "may not, until the owner says so"),
)


def board_html(shop: Shop, board: Board) -> str:
    """The board as HTML, on its side."""
    return render(
        "board.html", shop, landscape=True, board=board, mark=mark, means=MEANS, weight=weight
    )


def mark(state: str) -> str:
    """A shape beside the word, to be seen from across the yard."""
    return "✓" if state in WORKING else "■" if state in _STOPPED else ""


def weight(state: str) -> str:
    """How strongly the word is printed: may, may not, or on the way."""
    return "may" if state in WORKING else "may-not" if state in _STOPPED else "on-the-way"
