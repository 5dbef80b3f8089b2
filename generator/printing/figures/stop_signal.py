"""The stop signal: arms crossed, trigger off first, and who may start again."""

from __future__ import annotations

from generator.printing.figures.panels import WIDE, left_of, numbered_panel
from generator.printing.figures.pen import (
    Numbers,
    rows,
    sheet,
)
from generator.printing.figures.pictures import cross, drops, earth, gun, hand, person, tick

_GROUND = 148.0


def draw(numbers: Numbers) -> str:
    """Needs no numbers: anyone may give it."""
    return sheet(
        214,
        [
            *_panel(0, "stop", "both arms up, crossed:", "anyone may do it"),
            person(left_of(0) + 78, _GROUND, 96, "crossed"),
            *_panel(1, "let go", "trigger off first,", "ask why after"),
            *_let_go(left_of(1)),
            *_panel(2, "start again", "only when the one who", "stopped you says so"),
            *_again(left_of(2)),
        ],
    )


def _panel(place: int, name: str, *words: str) -> list[str]:
    x = left_of(place)
    return [
        *numbered_panel(place, 168, name),
        *earth(x + 2, _GROUND, WIDE - 4, 18),
        *rows(x, 188, *words),
    ]


def _let_go(x: float) -> list[str]:
    return [
        gun(x + 30, 64),
        drops(x + 98, 58, 3, 18, 8),
        cross(x + 107, 68, 14),
        hand(x + 42, 126, -1),
    ]


def _again(x: float) -> list[str]:
    return [
        person(x + 42, _GROUND, 82, "up"),
        person(x + 116, _GROUND, 82),
        tick(x + 92, 48, 9),
    ]
