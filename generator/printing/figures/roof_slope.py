"""A roof is longer than its shadow: the footprint, the slope, and the area that gets wet."""

from __future__ import annotations

from fractions import Fraction

from generator.maths.exact import half_up
from generator.printing.figures.pen import (
    BOLD,
    HEAD,
    HEAVY,
    MIX,
    PALE,
    PAPER,
    Numbers,
    box,
    label,
    line,
    path,
    positive,
    said,
    sheet,
    undrawable,
)

NEEDS = ("footprint_sqft", "rise_in", "area_sqft")
_GROUND = 178.0


def draw(numbers: Numbers) -> str:
    """Footprint and roof area in sq ft, and the rise in inches for each 12 in of run."""
    footprint, rise, area = positive("roof-slope", numbers, *NEEDS)
    if area < footprint:
        raise undrawable("roof-slope", "the roof is smaller than its shadow", "check area_sqft")
    if rise > 18:
        raise undrawable("roof-slope", f"rise_in is {rise}", "give the rise for 12 in, up to 18")
    return sheet(
        226,
        [
            *_house(float(rise) / 12),
            label(1, 222, f"footprint, its shadow: {said(footprint, 'sqft')}"),
            label(1, 16, f"roof: {said(half_up(area, Fraction(1)), 'sqft')}", size=HEAD, bold=True),
            *_square(float(rise), said(rise, "in")),
        ],
    )


def _house(slope: float) -> list[str]:
    left, right, eave = 20.0, 260.0, 116.0
    half = (right - left) / 2
    top = eave - min(half * slope, 88)
    roof = f"M{left} {eave}L{left + half} {top}L{right} {eave}"
    return [
        box(left + 24, eave, right - left - 48, _GROUND - eave, PAPER),
        path(roof + "Z", fill=PALE),
        path(roof, thick=7),
        line(left, eave, left, 202, dashed=True),
        line(right, eave, right, 202, dashed=True),
        line(2, _GROUND, 280, _GROUND, thick=BOLD),
        box(left, 190, right - left, 12, MIX),
    ]


def _square(rise: float, words: str) -> list[str]:
    """The carpenter's square: 12 in along, and so many up."""
    x, y, run = 320.0, 132.0, 96.0
    up = run * rise / 12
    scale = min(1.0, 92 / up)
    run, up = run * scale, up * scale
    return [
        path(f"M{x} {y}h{run}v{-up}Z", fill=PALE),
        path(f"M{x} {y}l{run} {-up}", thick=HEAVY),
        label(x + run / 2, y + 18, "12 in along", anchor="middle"),
        label(x + run + 8, y - up / 2 + 4, f"{words} up"),
        label(320, 168, "The slope is longer than"),
        label(320, 185, "the line below it."),
    ]
