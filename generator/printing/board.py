"""The board on the wall: who may do what today, and what is missing for the others."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from itertools import groupby

from generator.model.board import Board
from generator.model.shop import Shop
from generator.model.standing import WORKING
from generator.words import WRITTEN_IN, words

_STOPPED = ("lapsed", "suspended")

_WORDS = {
    "cleared": "yes",
    "due soon": "soon",
    "re-brief": "news",
    "passed paper": "paper",
    "learning": "learns",
    "lapsed": "over",
    "suspended": "STOP",
    "left": "left",
    "not started": "–",
}

MEANS = (
    ("cleared", "may do it alone, until the date"),
    ("due soon", "may, renew before the date"),
    ("re-brief", "may until the date, tell what changed"),
    ("passed paper", "paper passed, not yet all"),
    ("learning", "begun"),
    ("lapsed", "may not any more"),
    ("suspended", "may not until the owner says so"),
    ("not started", "not begun"),
)
CROWDED = 9
"""With more columns the print is small."""
FEW = 8
"""With more people as well, whoever may work has one date only: the day it is next due."""
ROOMY = 5
"""With no more people than that the sentences and what is missing are larger."""


def board_html(shop: Shop, board: Board) -> str:
    """The board as HTML, on its side."""
    from generator.printing.environment import render  # templates: the screen needs none

    return render(
        "board.html",
        shop,
        landscape=True,
        board=board,
        heads=heads(board.modules),
        with_rigs=any(", " in name for name in board.modules),
        crowded=len(board.modules) > CROWDED,
        roomy=len(board.rows) <= ROOMY,
        tight=len(board.modules) > CROWDED and len(board.rows) > FEW,
        means=MEANS,
        label=label,
        weight=weight,
        short_day=short_day,
        language=WRITTEN_IN,
    )


def heads(modules: Sequence[str]) -> list[tuple[str, list[str]]]:
    """Modules with the rigs under them: `mix, Rig 1` and `mix, Rig 2` share a head."""
    parts = [name.partition(", ") for name in modules]
    return [(name, [rig for _, _, rig in group]) for name, group in groupby(parts, lambda p: p[0])]


def label(state: str) -> str:
    """The state as a mark and a short word, to be told apart from across the yard."""
    return f"{mark(state)} {_WORDS[state]}".strip()


def mark(state: str) -> str:
    """A shape beside the word."""
    return "✓" if state in WORKING else "■" if state in _STOPPED else ""


def weight(state: str) -> str:
    """How strongly the word is printed: may, may not, or on the way."""
    return "may" if state in WORKING else "may-not" if state in _STOPPED else "on-the-way"


def short_day(iso: str) -> str:
    """A day in few letters.

    >>> short_day("2027-03-01")
    'Mar 1 ’27'
    """
    when, months = date.fromisoformat(iso), words(WRITTEN_IN)["months"]
    return f"{months[str(when.month)]} {when.day} ’{when:%y}"
