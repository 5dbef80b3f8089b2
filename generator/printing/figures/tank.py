"""A tank seen from the side, filled in layers, each with its words at its upper line."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from generator.printing.figures.pen import (
    FINE,
    HEAVY,
    box,
    label,
    line,
    path,
    said,
)

_LEFT, _TOP, _WIDTH, _HEIGHT = 96.0, 46.0, 112.0, 186.0
_RIGHT, _BOTTOM = _LEFT + _WIDTH, _TOP + _HEIGHT
_THIN = 4.0  # a sliver is drawn no thinner, or its pattern is lost
_GAP = 19.0  # between two lines of words
_FIRST = 42.0  # the highest line of words, under the head of the sheet

HEIGHT = _BOTTOM + 4
"""Of the whole sheet; what stands above the tank goes at 14 and 32."""


@dataclass(frozen=True)
class Layer:
    """So many gallons of one thing, and what is said of it."""

    gal: Fraction
    fill: str
    words: str


def tank(layers: Sequence[Layer], full: Fraction) -> list[str]:
    """The tank with its layers from below upwards; `full` gallons reach the upper line."""
    drawn: list[str] = []
    tops: list[float] = []
    level = Fraction(0)
    filled = [layer for layer in layers if layer.gal]
    for layer in filled:
        bottom = _line_of(level, full)
        level += layer.gal
        tops.append(_line_of(level, full))
        drawn.append(box(_LEFT, tops[-1], _WIDTH, max(bottom - tops[-1], _THIN), layer.fill))
    level = Fraction(0)
    for layer, top, y in zip(filled, tops, _apart(tops), strict=True):
        level += layer.gal
        drawn += _words(layer.words, said(level, "gal"), top, y)
    walls = f"M{_LEFT} {_TOP}V{_BOTTOM}H{_RIGHT}V{_TOP}"
    return [*drawn, path(walls, thick=HEAVY)]


def _apart(tops: Sequence[float]) -> list[float]:
    """Where the words of each line stand: at the line, or pushed off the words next to them."""
    placed: list[float] = []
    for n, top in enumerate(tops):
        above = len(tops) - 1 - n  # lines of words that still need room under the head
        lowest = placed[-1] - _GAP if placed else _BOTTOM
        placed.append(max(min(top + 5, lowest), _FIRST + above * _GAP))
    return placed


def _line_of(level: Fraction, full: Fraction) -> float:
    return _TOP + 12 + (_HEIGHT - 12) * float(1 - level / full)


def _words(words: str, level: str, top: float, y: float) -> list[str]:
    return [
        line(_LEFT - 18, y - 4, _LEFT, top, thick=FINE),
        label(_LEFT - 22, y, level, anchor="end"),
        line(_RIGHT, top, _RIGHT + 18, y - 4, thick=FINE),
        label(_RIGHT + 24, y, words),
    ]
