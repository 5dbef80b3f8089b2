"""What is kept from a power line, and the circle in which a raised ladder may fall."""

from __future__ import annotations

from generator.printing.figures.pen import (
    BOLD,
    HEAD,
    HEAVY,
    INK,
    PAPER,
    Numbers,
    arrow,
    disc,
    half_disc,
    label,
    on_circle,
    path,
    positive,
    said,
    sheet,
)
from generator.printing.figures.pictures import earth, hand_of, person

NEEDS = ("line_ft", "ladder_ft")
_GROUND = 224.0


def draw(numbers: Numbers) -> str:
    """The distance kept from any line, and the ladder's length as it is raised, both in ft."""
    keep, ladder = positive("power-line", numbers, *NEEDS)
    return sheet(
        262,
        [
            *earth(2, _GROUND, 226),
            *_kept(said(keep, "ft")),
            *earth(256, _GROUND, 232),
            *_circle(float(ladder), float(keep)),
            label(256, 14, "fall circle, on all sides", size=HEAD, bold=True),
            label(
                256,
                254,
                f"{said(ladder, 'ft')} ladder + {said(keep, 'ft')} = {said(ladder + keep, 'ft')}",
                bold=True,
            ),
        ],
    )


def _kept(keep: str) -> list[str]:
    """A line seen from its end, its zone, and three things that stay outside it."""
    x, y, radius = 116.0, 84.0, 56.0
    hand, up = hand_of(186, _GROUND, 58, "up")
    return [
        label(1, 14, f"keep {keep} off any line", size=HEAD, bold=True),
        disc(x, y, radius, thick=BOLD, dashed=True),
        disc(x, y, 5, INK),
        path(f"M{x - 3} {y - 16}l7 -2l-5 9l7 -2l-9 16l2 -11l-5 1Z", fill=PAPER),
        arrow(x, y + 8, x, y + radius - 2),
        label(x + 6, y + 36, keep, bold=True),
        *_ladder(14, 42, 118),
        person(116, _GROUND, 58),
        person(186, _GROUND, 58, "up", left=True),
        path(f"M{186 * 2 - hand} {up + 6}L152 138", thick=BOLD),
        label(2, 254, "ladder"),
        label(116, 254, "you", anchor="middle"),
        label(228, 254, "lance and spray", anchor="end"),
    ]


def _ladder(foot: float, top_x: float, top: float) -> list[str]:
    run, rise = top_x - foot, _GROUND - top
    rungs = "".join(f"M{foot + run * n / 9 - 1} {_GROUND - rise * n / 9}h10" for n in range(1, 9))
    rails = f"M{foot} {_GROUND}L{top_x} {top}M{foot + 9} {_GROUND}L{top_x + 9} {top}"
    return [path(rails, thick=BOLD), path(rungs)]


def _circle(ladder: float, keep: float) -> list[str]:
    foot, radius = 356.0, 98.0
    tall = radius * ladder / (ladder + keep)
    reach = [on_circle(0, 0, tall, degrees) for degrees in (35, 62, 118, 145)]
    falls = "".join(f"M{foot} {_GROUND}l{x} {y}" for x, y in reach)
    return [
        half_disc(foot, _GROUND, radius, dashed=True),
        path(falls, dashed=True),
        path(f"M{foot} {_GROUND}v{-tall}", thick=HEAVY),
        disc(foot, _GROUND, 4, INK),
        *_pole(474),
    ]


def _pole(x: float) -> list[str]:
    return [
        path(f"M{x} {_GROUND}V60", thick=HEAVY),
        path(f"M{x - 9} 70h18", thick=HEAVY),
        disc(x - 9, 66, 3, INK),
        disc(x + 7, 66, 3, INK),
    ]
