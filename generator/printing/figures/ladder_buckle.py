"""On a ladder: the buckle between the rails, and the top three rungs for the hands."""

from __future__ import annotations

from generator.printing.figures.pen import (
    BOLD,
    HEAD,
    HEAVY,
    INK,
    PAPER,
    Numbers,
    box,
    disc,
    label,
    path,
    rows,
    sheet,
)
from generator.printing.figures.pictures import cross, earth, tick

_GROUND, _TOP, _RUNG = 232.0, 40.0, 17.0


def draw(numbers: Numbers) -> str:
    """Needs no numbers: the belt buckle and the rungs show it."""
    return sheet(
        246,
        [
            *_ladder(60),
            *_climber(84, 0),
            tick(36, 60, 10),
            label(150, 20, "buckle between", size=HEAD, bold=True),
            label(150, 38, "the rails", size=HEAD, bold=True),
            *_ladder(300),
            *_climber(324, 34),
            cross(404, 60, 10),
            label(390, 20, "past a rail:", size=HEAD, bold=True),
            *rows(412, 142, "come down,", "move it"),
            *rows(150, 98, "top three rungs:", "for your hands"),
            path("M142 40v50m-6 -50h6m0 50h-6", thick=BOLD),
        ],
    )


def _ladder(x: float) -> list[str]:
    rungs = "".join(f"M{x} {_TOP + 8 + _RUNG * n}h48" for n in range(11))
    rails = f"M{x} {_TOP}V{_GROUND}M{x + 48} {_TOP}V{_GROUND}"
    return [path(rungs, thick=BOLD), path(rails, thick=HEAVY), *earth(x - 30, _GROUND, 140)]


def _climber(x: float, lean: float) -> list[str]:
    """Seen from behind, feet on the fourth rung from the top or lower."""
    feet, hips, neck = _TOP + 8 + _RUNG * 7, 138.0, 100.0
    hold = _TOP + 8 + _RUNG * 2
    legs = f"M{x - 10} {feet}L{x + lean} {hips}L{x + 10} {feet}"
    far = f"l{40} {-14}" if lean else f"L{x + 16} {hold}"
    arms = f"M{x - 14} {hold}L{x + lean * 1.5} {neck + 4}{far}"
    return [
        path(legs, thick=8),
        path(f"M{x + lean} {hips}L{x + lean * 1.5} {neck}", thick=15),
        path(arms, thick=7),
        disc(x + lean * 1.6, neck - 18, 9, INK),
        box(x + lean - 5, hips - 8, 10, 8, PAPER),
    ]
