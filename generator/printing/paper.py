"""Quiz papers: one document for one or many, each with its own page numbers."""

from __future__ import annotations

from collections.abc import Sequence

from generator.model.paper import Paper
from generator.model.shop import Shop
from generator.printing import signs
from generator.printing.environment import render


def paper_html(
    shop: Shop, papers: Sequence[Paper], strip: Sequence[str] = (), large: bool = False
) -> str:
    """The papers as HTML. `strip` holds the formulas the person may look at.

    `large` print is 18 points and more, in one column, with room to write below each item.

    Nothing on a paper tells which items must be right.
    """
    return render(
        "paper.html",
        shop,
        papers=papers,
        strip=strip,
        large=large,
        square=signs.code_square,
        language=papers[0].language if papers else shop.language,
    )
