"""The river of water through the rig, stop by stop, with the way back past the pump."""

from __future__ import annotations

from generator.printing.figures.pen import (
    BOLD,
    PALE,
    WIDTH,
    Numbers,
    arrow,
    box,
    label,
    line,
    sheet,
)

_STOPS = ("tap", "filter", "tank", "strainer", "pump", "unloader", "hose", "gun", "tip")
_ROW = 5  # stops in the upper row; the others run back below it
_BOX, _TALL, _GAP = 76.0, 40.0, 27.0
_LOW = 120.0


def draw(numbers: Numbers) -> str:
    """Needs no numbers: every rig has these nine stops in this order."""
    return sheet(196, [*_upper(), *_lower(), *_bypass()])


def _left(stop: int) -> float:
    return 1 + (stop % _ROW) * (_BOX + _GAP)


def _stop(stop: int, y: float) -> list[str]:
    x = _left(stop)
    return [
        box(x, y, _BOX, _TALL, PALE),
        label(x + _BOX / 2, y + 25, f"{stop + 1} {_STOPS[stop]}", anchor="middle", bold=True),
    ]


def _upper() -> list[str]:
    drawn = []
    for stop in range(_ROW):
        drawn += _stop(stop, 12)
        if stop:
            drawn.append(arrow(_left(stop) - _GAP, 32, _left(stop), 32))
    return drawn


def _lower() -> list[str]:
    """The second row runs from left to right again, under the first."""
    turn = _LOW - 28
    right = WIDTH - 12
    drawn = [
        line(right, 12 + _TALL, right, turn, thick=BOLD),
        line(right, turn, 20, turn, thick=BOLD),
        arrow(20, turn, 20, _LOW),
    ]
    for stop in range(_ROW, len(_STOPS)):
        drawn += _stop(stop, _LOW)
        if stop > _ROW:
            drawn.append(arrow(_left(stop) - _GAP, _LOW + 20, _left(stop), _LOW + 20))
    return drawn


def _bypass() -> list[str]:
    """Dashed: with the trigger off the unloader sends the water back to the tank."""
    x, tank = _left(5) + _BOX - 16, _left(2) + _BOX / 2
    level = _LOW - 14
    return [
        line(x, _LOW, x, level, dashed=True, thick=BOLD),
        line(x, level, tank, level, dashed=True, thick=BOLD),
        arrow(tank, level, tank, 12 + _TALL, dashed=True),
        label(1, 184, "dashed: back to the tank while the trigger is off"),
    ]
