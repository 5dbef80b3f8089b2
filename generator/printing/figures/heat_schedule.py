"""Hours in the heat, day by day, for a new person and for one who comes back."""

from __future__ import annotations

from fractions import Fraction

from generator.printing.figures.pen import (
    HEAD,
    PAPER,
    STOCK,
    Numbers,
    box,
    label,
    line,
    positive,
    said,
    sheet,
    undrawable,
)

NEEDS = ("shift",)
NEW = tuple(Fraction(share, 100) for share in (20, 40, 60, 80, 100))
BACK = tuple(Fraction(share, 100) for share in (50, 60, 80, 100, 100))
"""Shares of a full shift on day 1, 2 … (NIOSH); the relations of the safety module say the same."""

_TALL, _WIDE, _STEP = 92.0, 32.0, 46.0


def draw(numbers: Numbers) -> str:
    """The length of a full shift in hours."""
    (shift,) = positive("heat-schedule", numbers, "shift")
    if shift > 24:
        raise undrawable("heat-schedule", f"shift is {shift}", "give the hours of one day")
    return sheet(
        196,
        [
            *_days(2, "new to the heat", NEW, shift),
            *_days(252, "did this work before", BACK, shift),
            box(2, 178, 26, 14, STOCK),
            label(36, 190, "hours in the heat"),
            box(170, 178, 26, 14, PAPER),
            label(204, 190, f"the rest of {said(shift, 'h')}: cool work, in the shade"),
        ],
    )


def _days(x: float, who: str, shares: tuple[Fraction, ...], shift: Fraction) -> list[str]:
    drawn = [label(x, 14, who, size=HEAD, bold=True), line(x, 146, x + 216, 146)]
    for day, share in enumerate(shares, 1):
        left, tall = x + 6 + (day - 1) * _STEP, _TALL * float(share)
        drawn += [
            box(left, 146 - _TALL, _WIDE, _TALL, PAPER),
            box(left, 146 - tall, _WIDE, tall, STOCK),
            label(left + 16, 46, said(shift * share, "h"), anchor="middle"),
            label(left + 16, 164, f"day {day}", anchor="middle"),
        ]
    return drawn
