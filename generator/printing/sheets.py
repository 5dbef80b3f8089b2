"""A sheet to fill in, or the sign-off sheet of a module alone, as HTML."""

from __future__ import annotations

from collections.abc import Mapping

from generator.model.course import Module, Source
from generator.model.season import Season
from generator.model.sheet import Block, Cut, Reviews, Sheet, Warn
from generator.model.shop import Shop
from generator.printing import signs
from generator.printing.environment import render


def sheet_html(
    shop: Shop, sheet: Sheet, sources: Mapping[str, Source], season: Season | None = None
) -> str:
    """The sheet as HTML. `season` sets the review days, where the sheet has any."""
    cited = cited_in(sheet, sources)
    place = {source.id: n for n, source in enumerate(cited, 1)}
    return render(
        "sheet.html",
        shop,
        landscape=sheet.sideways,
        sheet=sheet,
        cited=cited,
        numbers=lambda ids: sorted(place[id_] for id_ in ids),
        alert=signs.alert,
        season_of=lambda block: season or Season(block.days),
    )


def sign_off_html(shop: Shop, module: Module) -> str:
    """The sign-off sheet of a module as HTML, one page for a wet clipboard."""
    return render("signoff_page.html", shop, module=module)


def cited_in(sheet: Sheet, sources: Mapping[str, Source]) -> list[Source]:
    """The sources a sheet names, those of its cautions first, each once."""
    ids = [id_ for block in sheet.blocks for id_ in _cited(block)]
    return [sources[id_] for id_ in dict.fromkeys((*ids, *sheet.sources))]


def _cited(block: Block) -> tuple[str, ...]:
    if isinstance(block, Warn):
        return block.caution.sources
    if isinstance(block, Cut):
        return tuple(id_ for inner in block.blocks for id_ in _cited(inner))
    return ()


def has_reviews(sheet: Sheet) -> bool:
    """Whether the sheet prints review days."""
    return any(isinstance(block, Reviews) for block in sheet.blocks)
