"""What a flush takes: minutes on a clock, gallons as jugs, and how little a bottle is."""

from __future__ import annotations

from fractions import Fraction
from math import ceil

from generator.maths.exact import down
from generator.printing.figures.pen import (
    BIG,
    BOLD,
    INK,
    PAPER,
    WATER,
    Numbers,
    arrow,
    disc,
    label,
    line,
    path,
    positive,
    rows,
    said,
    sheet,
    undrawable,
)
from generator.printing.figures.pictures import clock, cross, jug, tick

NEEDS = ("minutes", "gpm", "gal")
_BOTTLE = Fraction(1, 4)  # gal: a squeeze bottle of one quart
_MOST_JUGS = 20


def draw(numbers: Numbers) -> str:
    """How long the flush lasts, the eyewash's flow in gpm, and the gallons that makes."""
    minutes, flow, gal = positive("eyewash", numbers, *NEEDS)
    if gal > _MOST_JUGS:
        raise undrawable(
            "eyewash", f"{said(gal, 'gal')} are too many jugs", f"use at most {_MOST_JUGS} gal"
        )
    seconds = down(_BOTTLE / flow * 60)  # rounded down: nobody counts on more
    return sheet(
        218,
        [
            *_eye(),
            clock(172, 56, 30, min(float(minutes) / 60, 1)),
            label(212, 48, "at least"),
            label(212, 72, said(minutes, "min"), size=BIG, bold=True),
            label(330, 48, f"water at {said(flow, 'gpm')}"),
            label(330, 72, said(gal, "gal"), size=BIG, bold=True),
            *_jugs(gal),
            line(2, 152, 488, 152),
            jug(14, 206, 18, 42, WATER),
            cross(58, 184, 9),
            *rows(
                80,
                180,
                f"A bottle of one quart is empty after {said(seconds, 's')}.",
                "It bridges the walk to the eyewash. No more.",
            ),
        ],
    )


def _eye() -> list[str]:
    """An eye held open over two soft streams."""
    return [
        path("M14 46q44 -40 88 0q-44 32 -88 0Z", fill=PAPER, thick=BOLD),
        disc(58, 44, 14, PAPER, thick=BOLD),
        disc(58, 44, 6, INK),
        path("M40 104q2 -24 14 -34m22 34q-2 -24 -14 -34", thick=BOLD),
        arrow(53, 78, 56, 66),
        path("M28 106h60", thick=BOLD),
    ]


def _jugs(gal: Fraction) -> list[str]:
    """One jug a gallon; the last one may stand for a part."""
    count = ceil(gal)
    step = min(23.0, 440 / count)
    jugs = [jug(20 + step * n, 146, 18, 26, WATER) for n in range(count)]
    return [*jugs, tick(36 + step * count, 134, 8)]
