"""A fan of water on a wall: twice as far from the wall, twice as wide on it."""

from __future__ import annotations

from fractions import Fraction
from math import radians, tan

from generator.printing.figures.pen import (
    BOLD,
    HEAVY,
    INK,
    PALE,
    WATER,
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

NEEDS = ("angle", "near_in", "near_width_in", "far_in", "far_width_in")
_WALL, _TALL = 40.0, 116.0


def draw(numbers: Numbers) -> str:
    """The fan's angle in degrees; two distances from the wall, and the fan on it, in inches."""
    angle, near, near_wide, far, far_wide = positive("fan-width", numbers, *NEEDS)
    if angle > 80:
        raise undrawable("fan-width", f"angle is {angle}", "give the angle of a tip, up to 80")
    if near >= far:
        raise undrawable("fan-width", "near_in is not less than far_in", "swap the two")
    scale = min(_TALL / float(far), 110 / tan(radians(float(angle) / 2)) / float(far))
    return sheet(
        226,
        [
            box(2, 12, 486, _WALL - 12, PALE),
            line(2, _WALL, 488, _WALL, thick=HEAVY),
            label(245, 31, "wall", anchor="middle"),
            *_fan(122, angle, near, near_wide, scale),
            *_fan(367, angle, far, far_wide, scale),
        ],
    )


def _fan(x: float, angle: Fraction, away: Fraction, wide: Fraction, scale: float) -> list[str]:
    """The tip seen from above, its fan, and the two measures of it."""
    reach = float(away) * scale
    half = reach * tan(radians(float(angle) / 2))
    tip = _WALL + reach
    return [
        path(f"M{x} {tip}L{x - half} {_WALL}H{x + half}Z", fill=WATER),
        path(f"M{x - half} {_WALL - 5}v10M{x + half} {_WALL - 5}v10", thick=HEAVY),
        path(f"M{x - 4} {tip}h8l3 16h-14Z", fill=INK, thick=BOLD),
        label(x, 196, f"tip {said(away, 'in')} from the wall", anchor="middle"),
        label(x, 214, f"fan {said(wide, 'in')} wide", anchor="middle", bold=True),
    ]
