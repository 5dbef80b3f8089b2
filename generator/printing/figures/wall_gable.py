"""Walls to wash: the straight walls rolled out, and a gable as half of its box."""

from __future__ import annotations

from generator.printing.figures.pen import (
    BOLD,
    MIX,
    PAPER,
    STOCK,
    Numbers,
    box,
    label,
    line,
    path,
    positive,
    said,
    sheet,
)

NEEDS = ("around_ft", "height_ft", "base_ft", "rise_ft")
_GROUND = 150.0


def draw(numbers: Numbers) -> str:
    """The way round and the height up to the eaves, the width and the height of a gable, in ft."""
    around, height, base, rise = positive("wall-gable", numbers, *NEEDS)
    scale = min(150 / float(base), 128 / float(height + rise), 134 / float(height))
    wide, wall, peak = float(base) * scale, float(height) * scale, float(rise) * scale
    return sheet(
        210,
        [
            *_gable(wide, wall, peak),
            label(2, 170, f"width {said(base, 'ft')}"),
            label(2, _GROUND - 10 - wall - peak, f"gable {said(rise, 'ft')} high", bold=True),
            label(2, 188, f"{said(base, 'ft')} × {said(rise, 'ft')} ÷ 2"),
            label(2, 205, f"= {said(base * rise / 2, 'sqft')}", bold=True),
            *_straight(wall),
            label(206, 170, f"all the way round {said(around, 'ft')}"),
            label(206, _GROUND - 10 - wall, f"straight walls {said(height, 'ft')} high", bold=True),
            label(206, 188, f"{said(around, 'ft')} × {said(height, 'ft')}"),
            label(206, 205, f"= {said(around * height, 'sqft')}", bold=True),
        ],
    )


def _gable(wide: float, wall: float, peak: float) -> list[str]:
    """The triangle in its box: the empty corners together are as big as the triangle."""
    eave = _GROUND - wall
    return [
        box(2, eave, wide, wall, STOCK),
        path(f"M2 {eave - peak}h{wide}v{peak}h{-wide}Z", fill=PAPER, dashed=True),
        path(f"M2 {eave}L{2 + wide / 2} {eave - peak}L{2 + wide} {eave}Z", fill=MIX, thick=BOLD),
    ]


def _straight(wall: float) -> list[str]:
    """Four walls unrolled into one long strip."""
    left, wide = 206.0, 280.0
    corners = [
        line(left + wide * at, _GROUND - wall, left + wide * at, _GROUND, dashed=True)
        for at in (0.31, 0.5, 0.81)
    ]
    return [box(left, _GROUND - wall, wide, wall, STOCK), *corners]
