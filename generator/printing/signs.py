"""Drawn signs, since the font has none: the safety alert triangle, the gauge, the code."""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache

import segno

from generator.printing.environment import picture
from generator.printing.figures.pen import ACCENT, GREY, INK, label, line, shape, sheet

# ANSI Z535.4: the triangle stands beside DANGER, WARNING and CAUTION, never beside NOTICE.
_TRIANGLE = {
    "danger": ("#ffffff", "#b3121d"),
    "warning": ("#000000", "#ff8200"),
    "caution": ("#000000", "#ffd100"),
}


@lru_cache(maxsize=8)
def alert(signal: str) -> str:
    """The alert triangle of a signal word as an image address, or "" for a notice."""
    if signal not in _TRIANGLE:
        return ""
    field, mark = _TRIANGLE[signal]
    return picture(
        sheet(
            36,
            [
                shape(
                    "path",
                    d="M20 3L37 33H3Z",
                    fill=field,
                    stroke=field,
                    stroke_width=4,
                    stroke_linejoin="round",
                ),
                shape("rect", x=18, y=12, width=4, height=12, fill=mark),
                shape("circle", cx=20, cy=28.5, r=2.4, fill=mark),
            ],
            width=40,
        )
    )


@lru_cache(maxsize=256)
def gauge(done: int, total: int) -> str:
    """A sight glass with a mark for each lesson, filled up to the lesson at hand."""
    tall, top = 84.0, 6.0
    each = tall / total
    drawn = [
        shape("rect", x=3, y=top + tall - each * done, width=16, height=each * done, fill=ACCENT),
        _glass(3, top, 16, tall),
        *(
            line(19, top + tall - each * n, 27, top + tall - each * n, thick=1.6)
            for n in range(1, total + 1)
        ),
    ]
    return picture(sheet(top + tall + 4, drawn, width=30))


def lesson_gauge(titles: Sequence[str], how: str) -> str:
    """An empty sight glass, the lessons' titles at its marks, first one lowest; `how` to use it."""
    each, top = min(72.0, 300 / len(titles)), 22.0
    tall = each * len(titles)
    drawn = [_glass(3, top, 26, tall)]
    for n, title in enumerate(titles, 1):
        y = top + tall - each * n
        drawn += [
            line(29, y, 44, y, thick=1.8),
            *(
                line(29, y + each * quarter / 4, 36, y + each * quarter / 4)
                for quarter in (1, 2, 3)
            ),
            label(54, y + 5, f"{n}", size=16, bold=True, fill=ACCENT),
            label(76, y + 5, title, size=16),
        ]
    drawn.append(label(54, top + tall - 4, how, fill=GREY))
    return picture(sheet(top + tall + 6, drawn))


def _glass(x: float, y: float, width: float, height: float) -> str:
    return shape(
        "rect", x=x, y=y, width=width, height=height, rx=3, fill="none", stroke=INK, stroke_width=2
    )


def code_square(code: str) -> str:
    """The code alone as a QR symbol (ISO/IEC 18004), with its quiet zone."""
    symbol = segno.make(code, micro=False, error="m")
    return str(symbol.svg_data_uri(scale=4, border=4, dark=INK, omitsize=False))
