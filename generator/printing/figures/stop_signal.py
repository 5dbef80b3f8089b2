"""The stop signal: arms crossed, trigger off first, and who may start again."""

from __future__ import annotations

from generator.printing.figures.pen import (
    HEAD,
    PAPER,
    Numbers,
    box,
    label,
    numbered,
    rows,
    sheet,
)
from generator.printing.figures.pictures import cross, drops, earth, gun, hand, person, tick

_WIDE, _GAP, _GROUND = 156.0, 10.0, 148.0


def draw(numbers: Numbers) -> str:
    """Needs no numbers: anyone may give it."""
    return sheet(
        214,
        [
            *_panel(0, "stop", "both arms up, crossed:", "anyone may do it"),
            person(79, _GROUND, 96, "crossed"),
            *_panel(1, "let go", "trigger off first,", "ask why after"),
            *_let_go(167),
            *_panel(2, "start again", "only when the one who", "stopped you says so"),
            *_again(333),
        ],
    )


def _panel(place: int, name: str, *words: str) -> list[str]:
    x = 1 + place * (_WIDE + _GAP)
    return [
        box(x, 1, _WIDE, 168, PAPER),
        numbered(x + 14, 15, place + 1),
        label(x + 30, 20, name, bold=True, size=HEAD),
        *earth(x + 2, _GROUND, _WIDE - 4, 18),
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
