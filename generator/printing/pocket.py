"""The pocket card: the size of a bank card, on a sheet to cut and fold."""

from __future__ import annotations

from generator.model.file import PocketCard
from generator.model.shop import Shop
from generator.printing.environment import render
from generator.printing.files import one_line
from generator.words import WRITTEN_IN


def pocket_html(shop: Shop, card: PocketCard) -> str:
    """The card as HTML, front and back side by side with a fold between them."""
    return render("pocket.html", shop, card=card, name=one_line(card.name), language=WRITTEN_IN)
