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

_GROUND = 150.0


def draw(numbers: Numbers) -> str:
    """Needs no numbers: the tap of that day is the measure."""
    return sheet(
        204,
        [
            *_cup(40, "the tap", PALE, SOAP, ()),
            *_cup(206, "rinse water", PALE, SOAP, ("Both as the tap:", "go on, if you may.")),
            tick(318, 52, 11),
            *_cup(372, "rinse water", PALE, STOCK, ("More chlorine", "than the tap: stop.")),
            cross(474, 52, 11),
            label(1, 184, "Test the tap first."),
        ],
    )


def _cup(x: float, name: str, acid: str, chlorine: str, words: tuple[str, ...]) -> list[str]:
    """A cup of water with a pH strip and a chlorine strip in it."""
    return [
        label(x - 34 if name == "the tap" else x - 40, 16, name, size=HEAD, bold=True),
        *_strip(x, acid, "pH"),
        *_strip(x + 40, chlorine, "chlorine"),
        path(f"M{x - 30} 92l8 {_GROUND - 92}h76l8 {92 - _GROUND}Z", fill=WATER, thick=BOLD),
        *rows(x - 40, 184, *words),
    ]


def _strip(x: float, fill: str, name: str) -> list[str]:
    return [
        box(x - 7, 44, 14, 92, PAPER),
        box(x - 7, 50, 14, 22, fill),
        label(x + 16 if name == "chlorine" else x, 38, name, anchor="middle"),
    ]
