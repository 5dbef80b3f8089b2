"""Water held on a slope is a wedge: half of the box that it seems to fill."""

from __future__ import annotations

from generator.printing.figures.pen import (
    BIG,
    BOLD,
    HEAVY,
    INK,
    WATER,
    Numbers,
    arrow,
    label,
    line,
    path,
    positive,
    said,
    sheet,
)

NEEDS = ("width_ft", "length_ft", "deep_in", "gal")
_LEFT, _RIGHT, _TOP, _DEEP = 20.0, 330.0, 66.0, 66.0


def draw(numbers: Numbers) -> str:
    """The puddle's width and length in ft, its depth at the dam in inches, and its gallons."""
    width, length, deep, gal = positive("dam", numbers, *NEEDS)
    return sheet(
        196,
        [
            *_wedge(),
            *_measures(said(length, "ft"), said(deep, "in")),
            label(1, 16, "what it looks like: a full box"),
            label(1, 190, f"{said(width, 'ft')} wide"),
            label(392, 82, "what it holds:"),
            label(392, 108, said(gal, "gal"), size=BIG, bold=True),
            label(392, 128, "half the box"),
        ],
    )


def _wedge() -> list[str]:
    low = _TOP + _DEEP
    box = f"M{_LEFT} {_TOP}H{_RIGHT}V{low}H{_LEFT}Z"
    return [
        path(box, dashed=True),
        path(f"M{_LEFT} {_TOP}H{_RIGHT}V{low}Z", fill=WATER),
        path(f"M2 {_TOP - 4}L{_RIGHT} {low}H{_RIGHT + 42}", thick=HEAVY),
        path(f"M{_RIGHT} {low}v-60q0 -14 18 -14t18 14v60Z", fill=INK, thick=BOLD),
        arrow(96, 30, 150, _TOP + 6),
        label(_RIGHT + 18, low + 20, "dam", anchor="middle", bold=True),
    ]


def _measures(length: str, deep: str) -> list[str]:
    low = _TOP + _DEEP
    return [
        line(_LEFT, low + 16, _RIGHT, low + 16, thick=BOLD),
        path(f"M{_LEFT} {low + 10}v12M{_RIGHT} {low + 10}v12", thick=BOLD),
        label((_LEFT + _RIGHT) / 2, low + 34, f"{length} long", anchor="middle"),
        label(_RIGHT - 4, _TOP - 26, f"{deep} deep", anchor="end"),
        label(_RIGHT - 4, _TOP - 10, "at the dam", anchor="end"),
    ]
