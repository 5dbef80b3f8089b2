"""A truck that carries bleach, acid and fuel in three places, and people in a fourth."""

from __future__ import annotations

from generator.printing.figures.pen import (
    BOLD,
    HEAD,
    HEAVY,
    MIX,
    PAPER,
    SOAP,
    STOCK,
    Numbers,
    box,
    disc,
    label,
    line,
    path,
    sheet,
)
from generator.printing.figures.pictures import cross, jug, person

_FLOOR = 158.0


def draw(numbers: Numbers) -> str:
    """Needs no numbers: as far apart as the truck is long."""
    return sheet(
        226,
        [
            *_truck(),
            *_bin(16, STOCK, "bleach"),
            *_bin(148, MIX, "fuel"),
            *_bin(276, SOAP, "acid"),
            person(410, _FLOOR - 8, 56),
            label(424, 216, "people, food", anchor="middle"),
            *_apart(),
        ],
    )


def _truck() -> list[str]:
    return [
        path(f"M6 {_FLOOR}H482V104l-34 -44h-58V{_FLOOR}", thick=HEAVY),
        path("M446 70l26 34h-44v-34Z", thick=BOLD),
        path(f"M6 {_FLOOR}V118", thick=HEAVY),
        disc(84, _FLOOR + 16, 18, PAPER, thick=HEAVY),
        disc(430, _FLOOR + 16, 18, PAPER, thick=HEAVY),
    ]


def _bin(x: float, fill: str, words: str) -> list[str]:
    """A bin with a rim, two jugs in it."""
    return [
        jug(x + 12, _FLOOR - 6, 32, 58, fill),
        jug(x + 52, _FLOOR - 6, 32, 58, fill),
        path(f"M{x} {_FLOOR - 26}v22h96v-22", thick=BOLD),
        label(x + 48, 216, words, anchor="middle", size=HEAD, bold=True),
    ]


def _apart() -> list[str]:
    """The two that make gas, at the two ends."""
    return [
        line(64, 40, 324, 40, dashed=True, thick=BOLD),
        path("M64 40V84M324 40V84", thick=BOLD, dashed=True),
        box(176, 26, 36, 28, PAPER),
        cross(194, 40, 9),
        label(194, 16, "together they make a gas that kills", anchor="middle"),
    ]
