"""What the crew gets wrong, on one page: what to reteach first, a bar for each, the slips made."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from generator.model.shop import Shop
from generator.model.tally import Count, ItemTally, ModuleTally, season_words, worst_first
from generator.printing.environment import picture, render
from generator.printing.figures.pen import BOLD, FINE, INK, PAPER, shape, sheet

BARS = 7
SLIPS = 5
"""As many as one page holds, whatever they say."""

LENGTH, HEIGHT, RIM = 250.0, 22.0, 1.0
CELLS = 30
"""Up to so many papers each is a cell of its own that can be counted."""


@dataclass(frozen=True)
class Bar:
    """An item of the chart with its drawing."""

    item: ItemTally
    module: str
    drawing: str

    @property
    def missed(self) -> str:
        """What the bar shows, in words; also for those who can't see it."""
        missed = self.item.missed
        papers = "practice papers" if missed.kind else "first tries"
        return f"missed on {missed.main} {papers}"


def stats_html(shop: Shop, tallies: Sequence[ModuleTally], day: str, head: str) -> str:
    """The page as HTML, made on that day (ISO) from the record with that head."""
    bars = _bars(tallies)
    return render(
        "stats.html",
        shop,
        bars=bars,
        cells=_longest([bar.item for bar in bars]) <= CELLS,
        slips=worst_first(slip for tally in tallies for slip in tally.slips)[:SLIPS],
        counted=_counted(tallies),
        seasons=season_words(tuple(sorted({s for tally in tallies for s in tally.seasons}))),
        day=day,
        head=head,
    )


def _counted(tallies: Sequence[ModuleTally]) -> str:
    """What stands behind the page; of several modules only how many papers."""
    if len(tallies) == 1:
        return f"{tallies[0].title}, {tallies[0].papers}"
    first = sum(tally.papers.first for tally in tallies)
    practice = sum(tally.papers.practice for tally in tallies)
    return f"{first} first tries and {practice} practice papers in {len(tallies)} modules"


def _bars(tallies: Sequence[ModuleTally]) -> list[Bar]:
    titles = {id(item): tally.title for tally in tallies for item in tally.items}
    missed = [i for tally in tallies for i in tally.items if i.missed.main.count]
    worst = worst_first(missed)[:BARS]
    longest = _longest(worst)
    return [Bar(i, titles[id(i)], picture(bar(i.missed.main, longest))) for i in worst]


def _longest(items: Sequence[ItemTally]) -> int:
    return max((item.missed.main.of for item in items), default=1)


def bar(missed: Count, longest: int) -> str:
    """A bar as SVG: as long as papers had the item, filled as far as they missed it."""
    cell = (LENGTH - 2 * RIM) / longest
    frame = {"x": RIM, "y": RIM, "height": HEIGHT - 2 * RIM}
    parts = [
        shape("rect", **frame, width=cell * missed.of, fill=PAPER),
        shape("rect", **frame, width=cell * missed.count, fill=INK),
    ]
    if longest <= CELLS:
        parts += [_between(place, cell, missed) for place in range(1, missed.of)]
    edge = shape(
        "rect", **frame, width=cell * missed.of, fill="none", stroke=INK, stroke_width=BOLD
    )
    return sheet(HEIGHT, [*parts, edge], width=LENGTH)


def _between(place: int, cell: float, missed: Count) -> str:
    """The line between two papers: white where both are filled."""
    x = RIM + cell * place
    ink = PAPER if place < missed.count else INK
    return shape("line", x1=x, x2=x, y1=RIM, y2=HEIGHT - RIM, stroke=ink, stroke_width=FINE)
