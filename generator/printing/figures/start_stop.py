"""Five steps to start a machine and five to stop it, each with a small picture."""

from __future__ import annotations

from collections.abc import Callable

from generator.printing.figures.pen import (
    BOLD,
    HEAD,
    HEAVY,
    INK,
    PALE,
    PAPER,
    Numbers,
    arrow,
    box,
    disc,
    label,
    line,
    numbered,
    path,
    sheet,
)
from generator.printing.figures.pictures import drops, gun, house, valve

_WIDE, _TALL, _GAP = 90.0, 92.0, 9.0
Picture = Callable[[float, float], list[str]]


def draw(numbers: Numbers) -> str:
    """Needs no numbers: water first and engine last; engine off first and the hose last."""
    start = (
        (_smoke_away, "engine outside"),
        (_water_on, "water on"),
        (_air_out, "squeeze: no air"),
        (_fit_tip, "lock, fit tip"),
        (_engine_on, "engine on"),
    )
    stop = (
        (_engine_off, "engine off"),
        (_water_off, "water off"),
        (_dead, "squeeze dead"),
        (_lock, "lock"),
        (_undo, "only now undo"),
    )
    return sheet(
        266,
        [
            label(1, 14, "Start", size=HEAD, bold=True),
            *_row(22, start),
            label(1, 150, "Stop", size=HEAD, bold=True),
            *_row(158, stop),
        ],
    )


def _row(y: float, steps: tuple[tuple[Picture, str], ...]) -> list[str]:
    drawn: list[str] = []
    for n, (picture, words) in enumerate(steps):
        x = 1 + n * (_WIDE + _GAP)
        drawn += [
            box(x, y, _WIDE, _TALL, PAPER),
            *picture(x + _WIDE / 2, y + 44),
            numbered(x + 12, y + 12, n + 1),
            label(x + _WIDE / 2, y + _TALL - 7, words, anchor="middle"),
        ]
        if n:
            drawn.append(path(f"M{x - 8} {y + 40}l6 5l-6 5", thick=BOLD))
    return drawn


def _engine(x: float, y: float) -> list[str]:
    fins = "".join(f"M{x - 16} {y + 3 + 5 * n}h32" for n in range(4))
    return [box(x - 20, y - 4, 40, 27, PALE), path(fins), box(x - 8, y - 14, 16, 10, INK)]


def _smoke_away(x: float, y: float) -> list[str]:
    puffs = [disc(x + 29 + 4 * n, y + 8 - 7 * n, 3 + n) for n in range(3)]
    home = house(x - 38, y + 23, 24, 20, 12)
    return [*home, box(x - 4, y + 3, 24, 20, PALE), line(x + 20, y + 10, x + 27, y + 10), *puffs]


def _water_on(x: float, y: float) -> list[str]:
    return [*_pipe(x, y), valve(x, y), drops(x + 30, y + 6, 2, 8, 8)]


def _water_off(x: float, y: float) -> list[str]:
    return [*_pipe(x, y), valve(x, y, shut=True)]


def _pipe(x: float, y: float) -> list[str]:
    return [path(f"M{x - 34} {y}H{x + 28}q6 0 6 6", thick=HEAVY)]


def _air_out(x: float, y: float) -> list[str]:
    stream = path(f"M{x + 22} {y - 8}q8 4 10 23m-4 -23q8 3 11 20", thick=BOLD)
    return [gun(x - 36, y - 8, squeezed=True), stream, line(x + 8, y + 24, x + 40, y + 24)]


def _fit_tip(x: float, y: float) -> list[str]:
    tip = path(f"M{x + 36} {y - 13}v10l-8 -2v-6Z", fill=INK)
    return [gun(x - 37, y - 8, locked=True), tip, arrow(x + 32, y + 20, x + 32, y)]


def _engine_on(x: float, y: float) -> list[str]:
    run = path(f"M{x + 26} {y - 8}l7 -6m-7 16h9m-9 12l7 6", thick=BOLD)
    return [*_engine(x, y), run]


def _engine_off(x: float, y: float) -> list[str]:
    return [*_engine(x, y), path(f"M{x - 26} {y - 16}L{x + 26} {y + 26}", thick=HEAVY)]


def _dead(x: float, y: float) -> list[str]:
    drip = path(f"M{x + 30} {y + 2}q-4 6 0 8q4 -2 0 -8", fill=INK)
    soft = path(f"M{x - 42} {y + 22}q8 -7 16 0t16 0t16 0", thick=HEAVY)
    return [gun(x - 36, y - 8, squeezed=True), drip, soft]


def _lock(x: float, y: float) -> list[str]:
    body = box(x + 12, y + 10, 20, 15, INK)
    return [gun(x - 36, y - 8, locked=True), path(f"M{x + 16} {y + 10}v-5a6 6 0 0 1 12 0v5"), body]


def _undo(x: float, y: float) -> list[str]:
    return [
        path(f"M{x - 40} {y}h28", thick=HEAVY),
        path(f"M{x + 12} {y}h28", thick=HEAVY),
        box(x - 14, y - 8, 10, 16, INK),
        path(f"M{x + 12} {y - 9}h-9v18h9Z", fill=PAPER, thick=BOLD),
        arrow(x - 8, y + 20, x - 28, y + 20),
        arrow(x + 8, y + 20, x + 28, y + 20),
    ]
