"""Bars of time for bare ears: each step louder takes half of what was left."""

from __future__ import annotations

from fractions import Fraction

from generator.maths.exact import down
from generator.printing.figures.pen import (
    HEAD,
    STOCK,
    Numbers,
    box,
    label,
    line,
    path,
    positive,
    said,
    sheet,
)

NEEDS = ("dba", "minutes", "step")
_BARS, _LEFT, _GAP, _WIDE = 6, 8.0, 80.0, 54.0
_TALL, _GROUND = 150.0, 190.0


def draw(numbers: Numbers) -> str:
    """The level of a full day in dBA, its minutes, and how many dBA halve the time."""
    dba, minutes, step = positive("noise-halving", numbers, *NEEDS)
    bars = [part for n in range(_BARS) for part in _bar(n, dba + n * step, minutes / 2**n)]
    return sheet(
        234,
        [
            label(1, 14, f"{said(step, 'dBA')} more: half the time", size=HEAD, bold=True),
            *bars,
            line(2, _GROUND, 488, _GROUND),
            label(1, 230, "level at your ear, and the time for bare ears in one day"),
        ],
    )


def _bar(place: int, dba: Fraction, minutes: Fraction) -> list[str]:
    x, tall = _LEFT + place * _GAP, _TALL / 2**place
    middle = x + _WIDE / 2
    halves = path(f"M{x + _WIDE + 6} {_GROUND - tall}q14 0 14 {tall / 2 - 6}m-4 -6l4 6l5 -5")
    return [
        box(x, _GROUND - tall, _WIDE, tall, STOCK),
        label(middle, _GROUND - tall - 6, _time(minutes), anchor="middle", bold=True),
        label(middle, _GROUND + 18, said(dba, "dBA"), anchor="middle"),
        halves if place < 2 else "",
    ]


def _time(minutes: Fraction) -> str:
    whole_hours = minutes >= 60 and (minutes / 60).denominator <= 2
    if whole_hours:
        return said(minutes / 60, "h")
    return said(down(minutes) or minutes, "min")
