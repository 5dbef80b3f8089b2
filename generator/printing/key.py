"""The trainer's key: one line an item, then the working behind it."""

from __future__ import annotations

from collections.abc import Sequence

from generator.marking.ticks import MOST_SLIPS
from generator.model.paper import Paper
from generator.model.shop import Shop
from generator.printing.answers import accepted, key_text, slip_marks, spelled_out
from generator.printing.environment import render


def key_html(shop: Shop, papers: Sequence[Paper]) -> str:
    """The keys of the papers as HTML, each starting on a page of its own."""
    return render(
        "key.html",
        shop,
        landscape=True,
        papers=papers,
        key_text=key_text,
        spelled_out=spelled_out,
        accepted=accepted,
        slip_marks=slip_marks,
        most_slips=MOST_SLIPS,
    )
