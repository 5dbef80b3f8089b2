"""A tank seen from the side, filled in layers, each with its words at its upper line."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from generator.printing.figures.pen import INK, box, label, line, said, shape

_LEFT, _TOP, _WIDTH, _HEIGHT = 70.0, 46.0, 112.0, 186.0
_RIGHT, _BOTTOM = _LEFT + _WIDTH, _TOP + _HEIGHT
_GAP = 19.0  # between two lines of words

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
    level, lowest = Fraction(0), _BOTTOM + 20
    for layer in (each for each in layers if each.gal):
        bottom = _line_of(level, full)
        level += layer.gal
        top = _line_of(level, full)
        lowest = min(top + 5, lowest - _GAP)  # two close levels: the words are pushed apart
        drawn.append(box(_LEFT, top, _WIDTH, bottom - top, layer.fill))
        drawn += _words(layer.words, said(level, "gal"), top, lowest)
    walls = f"M{_LEFT} {_TOP}V{_BOTTOM}H{_RIGHT}V{_TOP}"
    return [*drawn, shape("path", d=walls, fill="none", stroke=INK, stroke_width=3)]


def _line_of(level: Fraction, full: Fraction) -> float:
    return _TOP + 12 + (_HEIGHT - 12) * float(1 - level / full)


def _words(words: str, level: str, top: float, y: float) -> list[str]:
    return [
        line(_LEFT - 18, y - 4, _LEFT, top, thick=0.9),
        label(_LEFT - 22, y, level, anchor="end"),
        line(_RIGHT, top, _RIGHT + 18, y - 4, thick=0.9),
        label(_RIGHT + 24, y, words, size=14),
    ]
