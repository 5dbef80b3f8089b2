"""Figures: small drawings made from numbers, by name, with the numbers each one needs.

A figure is an SVG text. It must be legible in black and white: every area has a pattern and a
label of its own, and every number on it carries its unit.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from generator.errors import Refusal, nearest
from generator.printing.figures import (
    ageing,
    batch_bar,
    drain_down,
    head_parts,
    lanes,
    ratio_fraction,
    stones_windows,
    top_up,
    two_stage,
    water_side,
)
from generator.printing.figures.pen import Numbers


@dataclass(frozen=True)
class Figure:
    """What a figure needs, and the function that draws it."""

    needs: frozenset[str]
    draw: Callable[[Numbers], str]


FIGURES: Mapping[str, Figure] = {
    "head-parts": Figure(frozenset(head_parts.NEEDS), head_parts.draw),
    "drain-down": Figure(frozenset(drain_down.NEEDS), drain_down.draw),
    "lanes": Figure(frozenset(lanes.NEEDS), lanes.draw),
    "stones-windows": Figure(frozenset(stones_windows.NEEDS), stones_windows.draw),
    "water-side": Figure(frozenset(), water_side.draw),
    "batch-bar": Figure(frozenset(batch_bar.NEEDS), batch_bar.draw),
    "ratio-fraction": Figure(frozenset(ratio_fraction.NEEDS), ratio_fraction.draw),
    "two-stage": Figure(frozenset(two_stage.NEEDS), two_stage.draw),
    "top-up": Figure(frozenset(top_up.NEEDS), top_up.draw),
    "ageing": Figure(frozenset(ageing.NEEDS), ageing.draw),
}


def draw(name: str, numbers: Numbers) -> str:
    """The figure of that name as SVG.

    Raises Refusal for an unknown name, and for numbers that are missing or can't be drawn.
    """
    if name not in FIGURES:
        raise Refusal(f'the figure "{name}" is not known', nearest(name, FIGURES))
    figure = FIGURES[name]
    missing = sorted(figure.needs - numbers.keys())
    if missing:
        raise Refusal(f'the figure "{name}" lacks {", ".join(missing)}', 'add it under "with"')
    return figure.draw(numbers)
