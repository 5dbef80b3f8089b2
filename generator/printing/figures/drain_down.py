"""Gallons in the tank against minutes, with the machine running and the tap open."""

from __future__ import annotations

from fractions import Fraction

from generator.maths.exact import down
from generator.printing.figures.chart import Chart
from generator.printing.figures.pen import (
    HEAD,
    PAPER,
    Numbers,
    label,
    positive,
    said,
    shape,
    sheet,
)

NEEDS = ("gal", "out_gpm", "in_gpm")
_LOOK_EVERY = 10  # minutes between two looks at the tank


def draw(numbers: Numbers) -> str:
    """Usable gallons, what the machine takes and what the tap gives, both in gpm."""
    gal, out, into = positive("drain-down", numbers, *NEEDS)
    flows = f"out {said(out, 'gpm')}, in {said(into, 'gpm')}"
    if into >= out:
        return _never(gal, flows)
    return _falling(gal, gal / (out - into), f"{flows}: falls {said(out - into, 'gpm')}")


def _falling(gal: Fraction, minutes: Fraction, flows: str) -> str:
    chart = _chart(gal, float(minutes))
    half = float(minutes) / 2
    return sheet(
        250,
        [
            *chart.axes("minutes", "usable gallons"),
            chart.curve([(0, float(gal)), (float(minutes), 0)]),
            chart.guide(half, float(gal) / 2),
            chart.y_mark(float(gal), said(gal, "1")),
            chart.y_mark(float(gal) / 2, said(gal / 2, "1")),
            chart.x_mark(0, "0"),
            chart.x_mark(half, _whole(minutes / 2)),
            chart.x_mark(float(minutes), _whole(minutes)),
            label(470, 30, flows, anchor="end"),
            label(470, 50, f"dry after {_whole(minutes)} min", anchor="end", size=HEAD, bold=True),
        ],
    )


def _never(gal: Fraction, flows: str) -> str:
    chart = _chart(gal, 6 * _LOOK_EVERY)
    return sheet(
        250,
        [
            *chart.axes("minutes", "usable gallons"),
            chart.curve([(0, float(gal)), (chart.x_end, float(gal))]),
            chart.y_mark(float(gal), said(gal, "1")),
            *(chart.x_mark(at, str(at)) for at in range(0, 61, 2 * _LOOK_EVERY)),
            shape("rect", x=150, y=88, width=280, height=76, fill=PAPER),
            label(290, 112, "never runs dry", anchor="middle", size=HEAD, bold=True),
            label(290, 133, flows, anchor="middle"),
            label(290, 154, "Taps fade: look every ten minutes.", anchor="middle"),
        ],
    )


def _chart(gal: Fraction, minutes: float) -> Chart:
    return Chart(left=62, top=40, width=400, height=160, x_end=minutes, y_end=float(gal))


def _whole(minutes: Fraction) -> str:
    """Rounded down, so that nobody plans past the end."""
    return said(down(minutes) or minutes, "1")
