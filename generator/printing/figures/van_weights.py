"""The van's weights one behind the other, against the most the plate allows."""

from __future__ import annotations

from fractions import Fraction

from generator.maths.exact import down, half_up, up
from generator.printing.figures.pen import (
    BIG,
    HEAVY,
    MIX,
    PALE,
    STOCK,
    WATER,
    WIDTH,
    Numbers,
    box,
    label,
    path,
    positive,
    said,
    sheet,
)
from generator.printing.figures.pictures import cross, tick, truck

NEEDS = ("gvwr_lb", "empty_lb", "water_gal", "stock_gal", "sg", "crew_lb")
GALLON = Fraction("8.34")
"""Pounds in a gallon of water, as the relation `weight` has it."""

Loads = tuple[tuple[str, Fraction, str], ...]


def draw(numbers: Numbers) -> str:
    """The plate, the empty van and its people in lb; water and stock in gal, sg of the stock."""
    limit, empty, water, stock, sg, crew = positive("van-weights", numbers, *NEEDS)
    loads = (
        (PALE, empty, "empty, with gear"),
        (WATER, water * GALLON, f"water, {said(water, 'gal')}:"),
        (STOCK, stock * sg * GALLON, f"stock, {said(stock, 'gal')}:"),
        (MIX, crew, "people"),
    )
    total = sum((load for _, load, _ in loads), Fraction(0))
    scale = (WIDTH - 4) / float(max(limit, total))
    return sheet(
        226,
        [
            *truck(1, 74, 150),
            *_verdict(limit - total),
            *_bar(loads, scale),
            *_plate(2 + float(limit) * scale, said(limit, "lb")),
            *_key(loads),
        ],
    )


def _verdict(left: Fraction) -> list[str]:
    """What may still come aboard, rounded down; or by how much it is too heavy, rounded up."""
    words = "overloaded by" if left < 0 else "left to load"
    sign = cross if left < 0 else tick
    pounds = up(-left) if left < 0 else down(left)
    return [
        sign(190, 46, 12),
        label(214, 38, words),
        label(214, 62, said(pounds, "lb"), size=BIG, bold=True),
    ]


def _bar(loads: Loads, scale: float) -> list[str]:
    drawn, x = [], 2.0
    for fill, load, _ in loads:
        drawn.append(box(x, 114, float(load) * scale, 40, fill))
        x += float(load) * scale
    return drawn


def _plate(x: float, words: str) -> list[str]:
    anchor = "end" if x > WIDTH / 2 else "start"
    return [
        path(f"M{x} 98V164", thick=HEAVY),
        label(x, 92, f"plate: {words} at most", anchor=anchor, bold=True),
    ]


def _key(loads: Loads) -> list[str]:
    drawn = []
    for n, (fill, load, words) in enumerate(loads):
        x, y = 2.0 + 245 * (n % 2), 176 + 26.0 * (n // 2)
        pounds = said(half_up(load, Fraction(1)), "lb") if load >= 1 else said(load, "lb")
        drawn += [box(x, y, 30, 18, fill), label(x + 38, y + 14, f"{words} {pounds}")]
    return drawn
