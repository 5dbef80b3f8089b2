"""One cup of stock and acid in a closed van, against the level that is dangerous at once."""

from __future__ import annotations

from fractions import Fraction

from generator.printing.figures.pen import (
    BIG,
    BOLD,
    GAS,
    HEAVY,
    STOCK,
    WIDTH,
    Numbers,
    arrow,
    box,
    label,
    path,
    percents,
    positive,
    said,
    sheet,
)
from generator.printing.figures.pictures import truck

NEEDS = ("stock", "van_cuft", "ppm", "danger_ppm")


def draw(numbers: Numbers) -> str:
    """Stock in %, the van's air in cu ft, the gas one cup can make and the danger mark in ppm."""
    (stock,) = percents("closed-van", numbers, "stock")
    air, ppm, danger = positive("closed-van", numbers, *NEEDS[1:])
    return sheet(
        210,
        [
            *_cup(said(stock, "%")),
            arrow(104, 72, 150, 72),
            *truck(160, 108, 210, GAS),
            label(382, 40, said(air, "cuft")),
            label(382, 57, "of air, closed"),
            *_bar(ppm, danger),
        ],
    )


def _cup(stock: str) -> list[str]:
    return [
        path("M20 48h40l-6 46h-28Z", fill=STOCK, thick=BOLD),
        path("M58 56q18 0 14 16t-18 8", thick=BOLD),
        label(1, 16, "1 cup of stock"),
        label(1, 33, f"at {stock}, with acid"),
    ]


def _bar(ppm: Fraction, danger: Fraction) -> list[str]:
    """The gas as a bar; the mark lies where the danger begins."""
    scale = (WIDTH - 4) / float(max(ppm, danger))
    mark = 2 + float(danger) * scale
    return [
        label(1, 138, "gas in the air:"),
        label(96, 138, said(ppm, "ppm"), size=BIG, bold=True),
        box(2, 148, float(ppm) * scale, 24, GAS),
        path(f"M{mark} 144v34", thick=HEAVY),
        _danger(mark, f"{said(danger, 'ppm')}: dangerous to life at once"),
    ]


def _danger(mark: float, words: str) -> str:
    """The words of the mark, on the side where there is room for them."""
    side = 1 if mark < WIDTH / 2 else -1
    leader = path(f"M{mark} 178l{6 * side} 10", thick=BOLD)
    anchor = "start" if side > 0 else "end"
    return leader + label(mark + 10 * side, 200, words, bold=True, anchor=anchor)
