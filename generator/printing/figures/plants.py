"""Plants before, during and after a wash: three panels of water."""

from __future__ import annotations

from generator.printing.figures.panels import WIDE, left_of, numbered_panel
from generator.printing.figures.pen import (
    BOLD,
    HEAVY,
    MIX,
    WATER,
    Numbers,
    box,
    path,
    rows,
    sheet,
)
from generator.printing.figures.pictures import drops, earth, hand_of, person, plant

_GROUND = 150.0


def draw(numbers: Numbers) -> str:
    """Needs no numbers: how long it takes is told by the leaves and the soil."""
    return sheet(218, [*_panel(0, "before"), *_panel(1, "during"), *_panel(2, "after")])


def _panel(place: int, when: str) -> list[str]:
    x = left_of(place)
    inside = {"before": _before, "during": _during, "after": _after}[when]
    picture, words = inside(x)
    return [
        *numbered_panel(place, 174, when),
        *earth(x + 2, _GROUND, WIDE - 4, 23),
        *picture,
        *rows(x, 193, *words),
    ]


def _gardener(x: float, tall: float = 62) -> list[str]:
    """Somebody with a plain hose, its shower to the right."""
    hand, up = hand_of(x, _GROUND, tall, "low")
    hose = path(f"M{x - 18} {_GROUND - 2}q2 -20 {hand - x + 18} {up - _GROUND + 2}", thick=BOLD)
    jet = path(f"M{hand} {up}q22 -20 42 0m-42 0q18 -12 34 6", thick=BOLD, dashed=True)
    return [hose, person(x, _GROUND, tall, "low"), jet]


def _soaked(x: float, wide: float) -> str:
    return box(x, _GROUND + 2, wide, 19, WATER)


def _before(x: float) -> tuple[list[str], tuple[str, str]]:
    drawn = [*_gardener(x + 36), plant(x + 112, _GROUND, 58), _soaked(x + 84, 58)]
    return drawn, ("soak leaves and soil,", "then spray")


def _during(x: float) -> tuple[list[str], tuple[str, str]]:
    wall = box(x + 128, 40, 26, _GROUND - 41, MIX)
    drawn = [wall, path(f"M{x + 124} 40h30", thick=HEAVY), *_gardener(x + 26)]
    return [*drawn, plant(x + 98, _GROUND, 50)], ("one person waters,", "leaves never dry")


def _after(x: float) -> tuple[list[str], tuple[str, str]]:
    both = [drops(x + 92, 64, 4, 42, 12), path(f"M{x + 76} 132q14 -2 16 -18", thick=BOLD)]
    drawn = [*_gardener(x + 30), *both, plant(x + 112, _GROUND, 58), _soaked(x + 70, 82)]
    return drawn, ("rinse both sides of", "leaves, soak again")
