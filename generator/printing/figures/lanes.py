"""Lanes of a surface cleaner across a drive, seen from above, with what overlaps."""

from __future__ import annotations

from fractions import Fraction
from math import ceil

from generator.printing.figures.pen import (
    BOLD,
    HEAD,
    INK,
    PAPER,
    STOCK,
    WIDTH,
    Numbers,
    arrow,
    box,
    label,
    line,
    positive,
    said,
    shape,
    sheet,
    undrawable,
)

NEEDS = ("width_ft", "disc_in", "overlap")
_MOST_LANES = 40


def draw(numbers: Numbers) -> str:
    """Width of the drive in ft, of the cleaner in inches; overlap is a share from 0 to 1."""
    width, disc_in, overlap = positive("lanes", numbers, *NEEDS)
    if overlap >= 1:
        raise undrawable("lanes", f"overlap is {overlap}", "give a share below 1")
    disc = disc_in / 12
    step = disc * (1 - overlap)
    count = 1 + max(ceil((width - disc) / step), 0)
    if count > _MOST_LANES:
        raise undrawable("lanes", f"it takes {count} lanes", f"use at most {_MOST_LANES}")
    scale = (WIDTH - 4) / float(disc + step * (count - 1))
    return sheet(
        236,
        [
            *_drive(float(width) * scale, said(width, "ft")),
            *_lanes(count, float(disc) * scale, float(step) * scale),
            box(2, 196, 30, 18, STOCK),
            label(42, 210, f"washed twice: {said(overlap * 100, '%')} of each lane"),
            label(WIDTH - 2, 210, _passes(count, disc_in), anchor="end", size=HEAD, bold=True),
        ],
    )


def _passes(count: int, disc_in: Fraction) -> str:
    return f"{count} {'pass' if count == 1 else 'passes'}, {said(disc_in, 'in')} wide"


def _drive(width: float, words: str) -> list[str]:
    return [
        shape("rect", x=2, y=34, width=width, height=150, fill=PAPER),
        line(2, 12, 2, 188),
        line(2 + width, 12, 2 + width, 188),
        arrow(width / 2 - 46, 18, 4, 18),
        arrow(width / 2 + 46, 18, width, 18),
        label(2 + width / 2, 23, f"{words} wide", anchor="middle"),
    ]


def _lanes(count: int, disc: float, step: float) -> list[str]:
    """Every second lane lies a little lower, so that each can be followed."""
    doubled = [
        box(2 + lane * step, 44, disc - step, 130, STOCK) for lane in range(1, count) if disc > step
    ]
    outlines = [
        shape(
            "rect",
            x=2 + lane * step,
            y=36 + 8 * (lane % 2),
            width=disc,
            height=138,
            fill="none",
            stroke=INK,
            stroke_width=BOLD,
        )
        for lane in range(count)
    ]
    return [*doubled, *outlines]
