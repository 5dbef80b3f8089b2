"""Seen from above: how far stones fly, how far people and bare glass must be."""

from __future__ import annotations

from generator.printing.figures.pen import (
    FINE,
    GREY,
    HEAD,
    INK,
    PALE,
    PAPER,
    WIDTH,
    Numbers,
    arrow,
    box,
    disc,
    half_disc,
    label,
    line,
    on_circle,
    positive,
    said,
    sheet,
)
from generator.printing.figures.pictures import cone

NEEDS = ("radius_ft", "glass_ft")
_CENTRE, _BOTTOM = WIDTH / 2, 236.0


def draw(numbers: Numbers) -> str:
    """Feet to keep clear of people, and feet to keep from glass that is not covered."""
    radius, glass = positive("stones-windows", numbers, *NEEDS)
    scale = 186 / float(max(radius, glass))
    people, panes = float(radius) * scale, float(glass) * scale
    return sheet(
        262,
        [
            _half(max(people, panes), PALE),
            _half(people, "none"),
            _half(panes, "none", dashed=True),
            *_stones(people),
            *_worker(),
            *(cone(*_on_ring(people, 6 + 28 * n)) for n in range(7)),
            *_ring_words(people, f"people: {said(radius, 'ft')} off", left=True),
            *_ring_words(panes, f"bare glass: {said(glass, 'ft')} off", left=False),
            *_pane(panes),
            line(2, _BOTTOM, WIDTH - 2, _BOTTOM),
            label(_CENTRE, 256, "hood flat and down before the trigger", anchor="middle"),
        ],
    )


def _half(radius: float, fill: str, *, dashed: bool = False) -> str:
    return half_disc(_CENTRE, _BOTTOM, radius, fill, dashed=dashed)


def _on_ring(radius: float, degrees: float) -> tuple[float, float]:
    return on_circle(_CENTRE, _BOTTOM, radius, degrees)


def _stones(limit: float) -> list[str]:
    """They fly past bare glass, on the way to where people would be."""
    reach = max(limit * 0.72, 36)
    drawn = []
    for degrees in (58, 80, 103, 126):
        drawn.append(arrow(*_on_ring(24, degrees), *_on_ring(reach, degrees)))
        drawn.append(disc(*_on_ring(reach + 8, degrees), 3, INK))
    return drawn


def _worker() -> list[str]:
    return [
        disc(_CENTRE, _BOTTOM - 9, 9, INK),
        label(_CENTRE - 16, _BOTTOM - 6, "you", bold=True, anchor="end"),
    ]


def _ring_words(radius: float, words: str, *, left: bool) -> list[str]:
    x, y = _on_ring(radius, 152 if left else 28)
    side = 4.0 if left else WIDTH - 4
    row = 40.0 if left else 60.0
    return [
        line(x, y, side + (60 if left else -60), row + 8, thick=FINE),
        label(side, row, words, anchor="start" if left else "end", size=HEAD, bold=True),
    ]


def _pane(radius: float) -> list[str]:
    x, y = _on_ring(radius, 8)
    return [
        box(x + 3, y - 22, 10, 36, PAPER),
        line(x + 3, y - 4, x + 13, y - 4),
        label(x + 18, y + 2, "glass", fill=GREY),
    ]
