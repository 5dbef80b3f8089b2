"""Gas lies low and goes with the wind: people leave upwind and uphill."""

from __future__ import annotations

from generator.printing.figures.pen import (
    BOLD,
    GAS,
    HEAD,
    HEAVY,
    PAPER,
    SOIL,
    Numbers,
    arrow,
    label,
    path,
    shape,
    sheet,
)
from generator.printing.figures.pictures import cloud, cross, jug, person, tick, truck


def draw(numbers: Numbers) -> str:
    """Needs no numbers: the wind and the slope show the way."""
    hill = "M2 92C92 96 122 186 230 188H360C410 190 430 206 488 208"
    return sheet(
        232,
        [
            cloud(232, 212, 250, 66, GAS),  # into the hollow: what is below the ground is covered
            shape("path", d=hill + "V222H2Z", fill=PAPER),
            shape("path", d=hill + "V222H2Z", fill=SOIL),
            path(hill, thick=HEAVY),
            *_wind(),
            *truck(264, 188, 96),
            jug(212, 188, 18, 26),
            *_people(),
            label(352, 98, "gas lies low", anchor="middle", size=HEAD, bold=True),
        ],
    )


def _wind() -> list[str]:
    """Arrows of the wind, and the ribbon that shows it."""
    flag = "M196 187V84m0 0q14 -8 26 0t26 0v12q-12 8 -26 0t-26 0Z"
    return [
        label(272, 40, "wind", size=HEAD, bold=True),
        arrow(316, 26, 410, 26),
        arrow(316, 42, 430, 42),
        path(flag, fill=PAPER, thick=BOLD),
        label(204, 74, "ribbon"),
    ]


def _people() -> list[str]:
    return [
        person(40, 94, 54, left=True),
        person(112, 132, 54, left=True),
        arrow(172, 140, 128, 98),
        arrow(92, 66, 60, 50),
        label(1, 20, "leave upwind and uphill", size=HEAD, bold=True),
        tick(20, 44, 9),
        person(462, 206, 54),
        cross(462, 128, 9),
    ]
