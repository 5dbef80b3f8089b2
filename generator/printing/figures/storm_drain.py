"""Where a drain leads: a sink to the plant that cleans it, the street straight to the river."""

from __future__ import annotations

from generator.printing.figures.pen import (
    BOLD,
    HEAD,
    HEAVY,
    INK,
    PALE,
    PAPER,
    WATER,
    Numbers,
    arrow,
    box,
    disc,
    label,
    path,
    sheet,
)
from generator.printing.figures.pictures import cross, house, tick


def draw(numbers: Numbers) -> str:
    """Needs no numbers: one pipe has a plant in it, the other has nothing."""
    return sheet(232, [*_sewer(), *_street(), *_river()])


def _sewer() -> list[str]:
    return [
        label(1, 16, "sink", size=HEAD, bold=True),
        *house(12, 84, 62, 36, 22),
        path("M58 84v14H196", thick=HEAVY),
        arrow(150, 98, 196, 98),
        box(200, 58, 92, 48, PALE),
        *(disc(224 + 44 * n, 82, 15, PAPER) for n in range(2)),
        path("M211 82h26m18 0h26", thick=BOLD),
        arrow(292, 98, 404, 98),
        label(246, 48, "plant cleans it", anchor="middle"),
        tick(350, 78, 9),
    ]


def _street() -> list[str]:
    bars = "".join(f"M{38 + 8 * n} 168v12" for n in range(6))
    return [
        label(1, 140, "storm drain in the street", size=HEAD, bold=True),
        path("M2 166H34m50 0H196", thick=HEAVY),
        box(34, 166, 50, 16, PAPER),
        path(bars, thick=BOLD),
        path("M59 182v20H400", thick=HEAVY),
        arrow(330, 202, 404, 202),
        path("M110 160q8 -12 16 0t16 0t16 0", thick=BOLD),
        arrow(104, 156, 74, 160),
        label(170, 222, "nothing in between"),
        cross(232, 184, 9),
    ]


def _river() -> list[str]:
    fish = "M428 180q14 -12 28 0l10 -7v14l-10 -7q-14 12 -28 0Z"
    return [
        box(408, 76, 80, 146, WATER),
        label(448, 66, "river", anchor="middle", size=HEAD, bold=True),
        path(fish, fill=PAPER, thick=BOLD),
        disc(436, 179, 1.5, INK),
    ]
