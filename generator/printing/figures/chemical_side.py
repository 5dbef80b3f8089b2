"""The chemical river of a rig: tanks, valves, pump, hose, tip and shut-offs."""

from __future__ import annotations

from generator.printing.figures.pen import (
    BOLD,
    HEAVY,
    PAPER,
    SOAP,
    STOCK,
    WATER,
    Numbers,
    arrow,
    box,
    label,
    line,
    numbered,
    path,
    positive,
    said,
    sheet,
)
from generator.printing.figures.pictures import drops, gun, valve

NEEDS = ("stock_gal", "pump_gpm")
_TANKS = (6.0, 106.0, 182.0)
_PIPE = 150.0


def draw(numbers: Numbers) -> str:
    """What the stock tank holds in gal, and what the chemical pump puts out in gpm."""
    stock, pump = positive("chemical-side", numbers, *NEEDS)
    return sheet(
        236,
        [
            *_pipes(),
            *_tank(6, STOCK, f"stock {said(stock, 'gal')}"),
            *_tank(106, WATER, "water"),
            *_tank(182, SOAP, "soap"),
            *_pump(said(pump, "gpm")),
            *_tip(),
            *_shut_offs(),
        ],
    )


def _tank(x: float, fill: str, words: str) -> list[str]:
    middle = x + 33
    return [
        label(x - 5, 14, words, bold=True),
        box(x, 34, 66, 50, fill),
        path(f"M{x} 22V84H{x + 66}V22", thick=BOLD),
        valve(middle, 122, upright=True),
    ]


def _pipes() -> list[str]:
    """Down from each tank, then along to the tip."""
    down = [line(x + 33, 84, x + 33, _PIPE, thick=BOLD) for x in _TANKS]
    return [*down, line(39, _PIPE, 436, _PIPE, thick=BOLD)]


def _pump(flow: str) -> list[str]:
    return [
        arrow(218, _PIPE, 240, _PIPE),
        box(240, _PIPE - 14, 30, 28, PAPER),
        path(f"M246 {_PIPE - 14}v28m6 -28v28m6 -28v28m6 -28v28"),
        label(255, _PIPE - 24, "strainer", anchor="middle"),
        box(296, _PIPE - 24, 62, 48, PAPER),
        path(f"M313 {_PIPE - 13}L345 {_PIPE}L313 {_PIPE + 13}Z", thick=BOLD),
        label(327, _PIPE - 49, "pump, 12 volts", anchor="middle"),
        label(327, _PIPE - 32, flow, anchor="middle"),
    ]


def _tip() -> list[str]:
    return [
        path(f"M358 {_PIPE}q22 26 38 0", thick=HEAVY),
        gun(398, _PIPE),
        drops(462, _PIPE - 16, 3, 24, 10),
        label(488, _PIPE - 40, "wide tip", anchor="end"),
        label(377, _PIPE + 30, "hose", anchor="middle"),
    ]


def _shut_offs() -> list[str]:
    return [
        numbered(58, 122, 1),
        numbered(327, _PIPE + 38, 2),
        numbered(408, _PIPE + 38, 3),
        line(327, _PIPE + 24, 327, _PIPE + 29),
        label(1, 215, "Shut-offs:", bold=True),
        label(78, 215, "1 valve under the stock tank, 2 pump switch, 3 your trigger"),
        label(78, 232, "Handle along the pipe is open. Handle across is shut."),
    ]
