"""A ladder at a quarter: its support length, its foot, and what stands past the edge."""

from __future__ import annotations

from fractions import Fraction

from generator.maths.exact import half_up
from generator.printing.figures.pen import (
    BOLD,
    HEAD,
    HEAVY,
    PALE,
    PAPER,
    Numbers,
    box,
    label,
    line,
    path,
    positive,
    said,
    sheet,
    undrawable,
)
from generator.printing.figures.pictures import earth

NEEDS = ("support_ft", "foot_in", "past_ft")
_GROUND, _WALL = 236.0, 152.0
_LEAN = 168.0  # the drawn support length


def draw(numbers: Numbers) -> str:
    """Support length and what stands past the edge in ft, how far the foot is out in inches."""
    support, foot, past = positive("ladder-triangle", numbers, *NEEDS)
    share = foot / 12 / support
    if share >= 1:
        raise undrawable(
            "ladder-triangle",
            "the foot is farther out than the ladder is long",
            "check support_ft and foot_in",
        )
    over = min(float(past / support) * _LEAN, 40.0)
    lengths = (said(support, "ft"), said(half_up(foot, Fraction(1)), "in"))  # the nearest inch
    return sheet(
        284,
        [
            *_scene(0, float(share), 0, lengths, "you lean: none past"),
            *_scene(245, float(share), over, lengths, "you step off"),
            label(_WALL + 245 + 14, 30, f"{said(past, 'ft')} past"),
            label(_WALL + 245 + 14, 47, "the edge"),
        ],
    )


def _scene(x: float, share: float, over: float, lengths: tuple[str, str], head: str) -> list[str]:
    run, rise = share * _LEAN, (1 - share**2) ** 0.5 * _LEAN
    wall, top = x + _WALL, _GROUND - rise
    foot = wall - run
    return [
        label(x + 1, 14, head, size=HEAD, bold=True),
        *earth(x + 2, _GROUND, 232),
        *_building(wall, top, over),
        *_rails(foot, wall, top, over),
        line(foot, _GROUND + 22, wall, _GROUND + 22, thick=BOLD),
        path(f"M{foot} {_GROUND + 16}v12M{wall} {_GROUND + 16}v12", thick=BOLD),
        label((foot + wall) / 2, _GROUND + 44, f"foot out {lengths[1]}", anchor="middle"),
        label(x + 1, _GROUND - rise / 2 - 14, "support length"),
        label(x + 1, _GROUND - rise / 2 + 4, lengths[0], bold=True),
    ]


def _building(wall: float, top: float, over: float) -> list[str]:
    """A wall to lean on, or a roof's edge to step off at."""
    if over:
        return [
            box(wall + 4, top + 8, 74, _GROUND - top - 8, PALE),
            path(f"M{wall} {top}h82v8h-82Z", fill=PAPER, thick=BOLD),
        ]
    return [box(wall, top - 44, 78, _GROUND - top + 44, PALE)]


def _rails(foot: float, wall: float, top: float, over: float) -> list[str]:
    run, rise = wall - foot, _GROUND - top
    end_x, end_y = wall + run * over / _LEAN, top - rise * over / _LEAN
    rungs = "".join(f"M{foot + run * n / 14 - 4} {_GROUND - rise * n / 14}h8" for n in range(1, 14))
    return [
        path(f"M{foot} {_GROUND}L{end_x} {end_y}", thick=HEAVY),
        path(rungs, thick=BOLD),
        *_quarters(foot - 12, run, rise),
    ]


def _quarters(foot: float, run: float, rise: float) -> list[str]:
    """A tape beside the ladder, cut in four; the foot is one of the four out."""
    up_x, up_y = run / 4, rise / 4
    marks = "".join(f"M{foot + up_x * n - 5} {_GROUND - 3 - up_y * n}h10" for n in range(5))
    return [path(f"M{foot} {_GROUND - 3}l{run} {-rise}{marks}", thick=BOLD)]
