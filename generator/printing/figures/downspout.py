"""A downspout: left to dump on a bed, caught in a tub, or turned to where the owner said."""

from __future__ import annotations

from generator.printing.figures.panels import WIDE, left_of
from generator.printing.figures.pen import (
    BOLD,
    HEAD,
    HEAVY,
    MIX,
    PAPER,
    Numbers,
    arrow,
    box,
    label,
    path,
    rows,
    sheet,
)
from generator.printing.figures.pictures import cross, earth, plant, tick

_GROUND = 148.0


def draw(numbers: Numbers) -> str:
    """Needs no numbers: all that runs off the roof comes out at one point."""
    return sheet(
        216,
        [
            *_panel(0, "left to dump"),
            *_dumped(left_of(0)),
            *_panel(1, "caught"),
            *_caught(left_of(1)),
            *_panel(2, "turned"),
            *_turned(left_of(2)),
        ],
    )


def _panel(place: int, name: str) -> list[str]:
    """The frame, with the roof's edge, its gutter and the spout down the wall."""
    x = left_of(place)
    mark = tick if place else cross
    return [
        box(x, 1, WIDE, 170, PAPER),
        path(f"M{x} 26L{x + 52} 44", thick=HEAVY),
        path(f"M{x + 46} 44h20v8q-10 6 -20 0Z", fill=PAPER, thick=BOLD),
        path(f"M{x + 34} 40V{_GROUND}", thick=BOLD),
        path(f"M{x + 50} 54v66h14v-66Z", fill=MIX),
        *earth(x + 2, _GROUND, WIDE - 4, 21),
        label(x + 62, 22, name, bold=True, size=HEAD),
        mark(x + 136, 42, 9),
    ]


def _dumped(x: float) -> list[str]:
    puddle = path(f"M{x + 40} {_GROUND}q40 -14 92 0Z", fill=MIX)
    return [
        arrow(x + 57, 120, x + 57, _GROUND - 8),
        puddle,
        plant(x + 104, _GROUND - 4, 52, burnt=True),
        *rows(x, 190, "the whole roof on", "one bed: it dies"),
    ]


def _caught(x: float) -> list[str]:
    tub = path(f"M{x + 38} {_GROUND - 22}l4 22h40l4 -22Z", fill=MIX, thick=BOLD)
    return [
        tub,
        plant(x + 120, _GROUND, 52),
        *rows(x, 190, "a bag or a tub", "catches it"),
    ]


def _turned(x: float) -> list[str]:
    pipe = path(f"M{x + 57} 116q0 18 20 18H{x + 146}", thick=HEAVY)
    return [
        pipe,
        plant(x + 98, 118, 36),
        path(f"M{x + 76} 118h46l-6 14h-34Z", fill=PAPER),
        arrow(x + 118, 142, x + 150, 142),
        *rows(x, 190, "a pipe leads it where", "the owner settled"),
    ]
