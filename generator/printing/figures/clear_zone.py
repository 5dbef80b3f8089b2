"""The clear zone from above: a ring of cones, people outside of it, a watcher who looks out."""

from __future__ import annotations

from generator.printing.figures.pen import (
    BIG,
    BOLD,
    GREY,
    INK,
    PALE,
    PAPER,
    Numbers,
    arrow,
    disc,
    label,
    on_circle,
    path,
    positive,
    said,
    sheet,
    undrawable,
)
from generator.printing.figures.pictures import cone, person, tick

NEEDS = ("people_ft", "cone_ft", "cones")
_X, _Y, _RADIUS = 132.0, 128.0, 104.0
_MOST = 60


def draw(numbers: Numbers) -> str:
    """The distance of people and between cones in ft, and the cones of a full ring."""
    people, apart, cones = positive("clear-zone", numbers, *NEEDS)
    if cones > _MOST or cones.denominator != 1:
        raise undrawable("clear-zone", f"cones is {cones}", f"give a whole number up to {_MOST}")
    return sheet(
        264,
        [
            disc(_X, _Y, _RADIUS, PALE),
            *_cones(int(cones)),
            *_work(),
            arrow(_X, _Y, _X + _RADIUS - 9, _Y),
            label(_X + 54, _Y - 8, said(people, "ft"), anchor="middle", bold=True),
            *_outside(),
            label(264, 40, f"{cones} cones", size=BIG, bold=True),
            label(264, 62, f"no farther apart than {said(apart, 'ft')}"),
            label(288, 112, "watcher looks outward"),
            label(264, 222, f"people stay {said(people, 'ft')} from the work"),
            label(264, 239, "First the cones, then the water."),
        ],
    )


def _cones(count: int) -> list[str]:
    return [cone(*on_circle(_X, _Y, _RADIUS, 360 * n / count + 90)) for n in range(count)]


def _work() -> list[str]:
    """The hood on the ground and the one who runs it."""
    return [
        disc(_X, _Y, 15, PAPER, thick=BOLD),
        path(f"M{_X - 10} {_Y - 10}l20 20m0 -20l-20 20"),
        path(f"M{_X - 4} {_Y + 14}l-14 34", thick=BOLD),
        disc(_X - 20, _Y + 54, 7, INK),
        label(_X - 34, _Y + 58, "you", anchor="end", fill=GREY),
    ]


def _outside() -> list[str]:
    return [
        person(258, 156, 52),
        arrow(268, 110, 282, 100),
        person(330, 204, 56),
        person(372, 204, 40),
        tick(414, 176, 9),
    ]
