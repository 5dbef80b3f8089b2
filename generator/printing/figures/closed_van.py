"""One cup of stock and acid in a closed van, against the level that is dangerous at once."""

from __future__ import annotations

from fractions import Fraction

from generator.printing.figures.pen import (
    BIG,
    BOLD,
    GAS,
    HEAD,
    HEAVY,
    INK,
    STOCK,
    WIDTH,
    Numbers,
    arrow,
    box,
    label,
    path,
    positive,
    said,
    sheet,
)
from generator.printing.figures.pictures import truck

NEEDS = ("stock", "van_cuft", "ppm", "danger_ppm")


def draw(numbers: Numbers) -> str:
    """Stock in %, the van's air in cu ft, the gas one cup can make and the danger mark in ppm."""
    stock, air, ppm, danger = positive("closed-van", numbers, *NEEDS)
    return sheet(
        210,
        [
            *_cup(said(stock, "%")),
            arrow(104, 72, 150, 72),
            *truck(160, 108, 210),
            box(160, 18, 159, 75, GAS),
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
    near = min(mark, WIDTH - 170)
    return [
        label(1, 138, "gas in the air:"),
        label(96, 138, said(ppm, "ppm"), size=BIG, bold=True),
        box(2, 148, float(ppm) * scale, 24, GAS),
        path(f"M{mark} 144v34", thick=HEAVY),
        path(f"M{mark} 178l{near + 6 - mark} 10", thick=BOLD),
        label(near + 10, 200, f"{said(danger, 'ppm')}: dangerous to life at once", bold=True),
    ]


_ = (HEAD, INK)
