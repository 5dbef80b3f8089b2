"""The van's weights one behind the other, against the most the plate allows."""

from __future__ import annotations

from fractions import Fraction

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

NEEDS = ("gvwr_lb", "empty_lb", "water_lb", "stock_lb", "crew_lb")


def draw(numbers: Numbers) -> str:
    """The plate's limit, then what it weighs empty, its water, its stock and its people, in lb."""
    limit, empty, water, stock, crew = positive("van-weights", numbers, *NEEDS)
    loads = (
        (PALE, empty, "empty, with gear"),
        (WATER, water, "water"),
        (STOCK, stock, "stock"),
        (MIX, crew, "people"),
    )
    total = sum((load for _, load, _ in loads), Fraction(0))
    scale = (WIDTH - 60) / float(max(limit, total))
    return sheet(
        228,
        [
            *truck(1, 74, 150),
            *_verdict(limit - total),
            *_bar(loads, scale),
            *_plate(2 + float(limit) * scale, said(limit, "lb")),
            *_key(loads),
        ],
    )


def _verdict(left: Fraction) -> list[str]:
    words = "overloaded by" if left < 0 else "left to load"
    sign = cross if left < 0 else tick
    return [
        sign(190, 46, 12),
        label(214, 38, words),
        label(214, 62, said(abs(left), "lb") if left else "0 lb", size=BIG, bold=True),
    ]


def _bar(loads: tuple[tuple[str, Fraction, str], ...], scale: float) -> list[str]:
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


def _key(loads: tuple[tuple[str, Fraction, str], ...]) -> list[str]:
    drawn = []
    for n, (fill, load, words) in enumerate(loads):
        x, y = 2.0 + 245 * (n % 2), 176 + 26.0 * (n // 2)
        drawn += [box(x, y, 30, 18, fill), label(x + 38, y + 14, f"{words} {said(load, 'lb')}")]
    return drawn
