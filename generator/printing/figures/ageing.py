"""How stock weakens in store: quickly at first, then more slowly."""

from __future__ import annotations

from fractions import Fraction

from generator.printing.figures.chart import Chart
from generator.printing.figures.pen import Numbers, label, positive, said, sheet

NEEDS = ("new", "half")
_STEPS = 48


def draw(numbers: Numbers) -> str:
    """`new` is the strength on delivery in %, `half` the days until half of it is left."""
    new, half = positive("ageing", numbers, *NEEDS)
    end = 3 * half
    chart = Chart(left=62, top=40, width=400, height=160, x_end=float(end), y_end=float(new))
    days = [end * step / _STEPS for step in range(_STEPS + 1)]
    marks = [half * times for times in range(1, 4)]
    return sheet(
        250,
        [
            *chart.axes("days in store", "% chlorine"),
            chart.curve([(float(day), float(_left(new, half, day))) for day in days]),
            *(chart.guide(float(day), float(_left(new, half, day))) for day in marks),
            *(chart.y_mark(float(_left(new, half, d)), _percent(new, half, d)) for d in marks),
            *(chart.x_mark(float(day), said(day, "1")) for day in marks),
            chart.y_mark(float(new), said(new, "%")),
            chart.x_mark(0, "new"),
            label(
                470, 30, "The label stays. The stock gets weaker: test it.", anchor="end", bold=True
            ),
        ],
    )


def _left(new: Fraction, half: Fraction, days: Fraction) -> Fraction:
    return new / (1 + days / half)


def _percent(new: Fraction, half: Fraction, days: Fraction) -> str:
    return said(_left(new, half, days), "%")
