"""Two strips against the tap: pH the same, chlorine no more, or another day."""

from __future__ import annotations

from generator.printing.figures.pen import (
    BOLD,
    HEAD,
    PALE,
    PAPER,
    SOAP,
    STOCK,
    WATER,
    Numbers,
    box,
    label,
    path,
    rows,
    sheet,
)
from generator.printing.figures.pictures import cross, tick


def draw(numbers: Numbers) -> str:
    """Needs no numbers: the tap of that day is the measure."""
    return sheet(
        204,
        [
            *_cup(1, "the tap", SOAP, "Test the tap first."),
            *_cup(166, "rinse water", SOAP, "Both as the tap:", "go on, if you may."),
            tick(318, 52, 11),
            *_cup(332, "rinse water", STOCK, "More chlorine", "than the tap: stop."),
            cross(474, 52, 11),
        ],
    )


def _cup(x: float, name: str, chlorine: str, *words: str) -> list[str]:
    """A cup of water with a pH strip and a chlorine strip in it."""
    return [
        label(x, 16, name, size=HEAD, bold=True),
        *_strip(x + 40, "pH", PALE),
        *_strip(x + 80, "chlorine", chlorine),
        path(f"M{x + 10} 92l8 58h76l8 -58Z", fill=WATER, thick=BOLD),
        *rows(x, 184, *words),
    ]


def _strip(x: float, name: str, fill: str) -> list[str]:
    return [
        box(x - 7, 44, 14, 92, PAPER),
        box(x - 7, 50, 14, 22, fill),
        label(x + 16 if name == "chlorine" else x, 38, name, anchor="middle"),
    ]
