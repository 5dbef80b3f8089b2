"""A hose full of old mix: what it holds, and how long the tip is behind the valve."""

from __future__ import annotations

from generator.maths.exact import up
from generator.printing.figures.pen import (
    BIG,
    BOLD,
    HEAVY,
    MIX,
    PAPER,
    WATER,
    Numbers,
    arrow,
    box,
    label,
    line,
    path,
    positive,
    said,
    sheet,
)
from generator.printing.figures.pictures import clock, gun, valve

NEEDS = ("gal", "gpm", "seconds")


def draw(numbers: Numbers) -> str:
    """What the hose holds in gal, the flow in gpm, and the seconds until a change arrives."""
    gal, gpm, seconds = positive("hose-lag", numbers, *NEEDS)
    wait = said(up(seconds), "s")  # rounded up: the old mix is out for sure
    return sheet(
        178,
        [
            *_hose(24, 1 / 12, "valve turned"),
            *_hose(124, 1, f"{wait} later"),
            label(255, 70, f"the hose still holds {said(gal, 'gal')} of old mix", anchor="middle"),
            arrow(255, 78, 255, 108),
            clock(286, 93, 12, min(float(seconds) / 60, 1)),
            label(306, 98, wait, size=BIG, bold=True),
            label(1, 98, f"flow {said(gpm, 'gpm')}"),
            label(255, 170, "now the new mix is at the tip", anchor="middle"),
        ],
    )


def _hose(y: float, new: float, words: str) -> list[str]:
    """A hose from the valve at the rig to the tip; `new` is the share that holds the new mix."""
    left, wide = 76.0, 360.0
    fresh = wide * new
    old = box(left + fresh, y, wide - fresh, 26, MIX) if new < 1 else ""
    return [
        line(14, y + 13, left, y + 13, thick=HEAVY),
        valve(38, y + 13),
        box(left, y, fresh, 26, WATER),
        old,
        path(f"M{left} {y}h{wide}v26h-{wide}Z", thick=BOLD),
        box(left - 6, y - 4, 6, 34, PAPER),
        gun(left + wide, y + 13),
        label(1, y + 46, words),
    ]
