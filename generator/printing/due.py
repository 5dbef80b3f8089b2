"""The due list on paper."""

from __future__ import annotations

from generator.model.file import DueList
from generator.model.shop import Shop
from generator.printing.environment import render
from generator.words import WRITTEN_IN


def due_html(shop: Shop, due: DueList) -> str:
    """The list as HTML, the overdue first, with a box to tick."""
    return render("due.html", shop, due=due, language=WRITTEN_IN)
