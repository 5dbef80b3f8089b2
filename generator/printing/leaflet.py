"""The leaflet of the first day: eight pages of half the size, mostly pictures."""

from __future__ import annotations

from collections.abc import Sequence

from generator.model.handout import LeafletPage
from generator.model.shop import Shop
from generator.printing import figures
from generator.printing.environment import picture, render
from generator.printing.pictograms import pictogram


def leaflet_html(shop: Shop, pages: Sequence[LeafletPage], spanish_read: bool = False) -> str:
    """The leaflet as HTML. Raises Refusal for a figure or sign that can't be drawn."""
    drawn = [
        [(picture(figures.draw(each.figure, each.numbers)), each.alt) for each in page.pictures]
        for page in pages
    ]
    worn = [[(name, pictogram(name)) for name in page.wear] for page in pages]
    return render(
        "leaflet.html",
        shop,
        half=True,
        pages=list(zip(pages, drawn, worn, strict=True)),
        spanish_read=spanish_read,
    )
