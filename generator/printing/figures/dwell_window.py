"""How long the oldest and the newest patch stay wet, against the longest and shortest time."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from generator.printing.figures.pen import (
    HEAD,
    HEAVY,
    MIX,
    PALE,
    WIDTH,
    Numbers,
    arrow,
    box,
    label,
    line,
    path,
    positive,
    said,
    sheet,
)
from generator.printing.figures.pictures import cross, tick

NEEDS = ("area", "apply", "rinse", "wait", "least", "longest")
_LEFT, _BAR = 112.0, 26.0


@dataclass(frozen=True)
class _Patch:
    """When a patch gets wet and when it is rinsed, in minutes."""

    name: str
    wet: Fraction
    rinsed: Fraction


def draw_same(numbers: Numbers) -> str:
    """Rinsed from the same end. Area in sq ft, speeds in sq ft a minute, times in minutes."""
    area, apply, rinse, wait, least, longest = positive("dwell-same", numbers, *NEEDS)
    up, down = area / apply, area / rinse
    first = _Patch("first wetted", Fraction(0), up + wait)
    last = _Patch("last wetted", up, up + wait + down)
    return _sheet((first, last), (up, wait, down), (least, longest), back=False)


def draw_reverse(numbers: Numbers) -> str:
    """Rinsed back from the far end: the first patch wetted is the last one rinsed."""
    area, apply, rinse, wait, least, longest = positive("dwell-reverse", numbers, *NEEDS)
    up, down = area / apply, area / rinse
    first = _Patch("first wetted", Fraction(0), up + wait + down)
    last = _Patch("last wetted", up, up + wait)
    return _sheet((first, last), (up, wait, down), (least, longest), back=True)


def _sheet(
    patches: tuple[_Patch, _Patch],
    stages: tuple[Fraction, Fraction, Fraction],
    limits: tuple[Fraction, Fraction],
    *,
    back: bool,
) -> str:
    end = max(*(patch.wet + limits[1] for patch in patches), sum(stages, Fraction(0)))
    scale = (WIDTH - _LEFT - 4) / float(end)
    least, longest = (said(limit, "min") for limit in limits)
    return sheet(
        190,
        [
            *_ways(back=back),
            *_stages(stages, scale),
            *_bar(44, patches[0], limits, scale),
            *_bar(104, patches[1], limits, scale),
            label(_LEFT, 166, "hatched: the patch is wet"),
            label(_LEFT, 184, f"grey: rinse it here, from {least} to {longest}"),
        ],
    )


def _ways(*, back: bool) -> list[str]:
    """Which way the mix goes along the wall, and which way the rinse."""
    ends = (82, 180, 40, 180) if back else (40, 180, 82, 180)
    return [
        label(1, 14, "rinsed back" if back else "same end", size=HEAD, bold=True),
        label(1, 166, "mix"),
        arrow(40, 162, 82, 162),
        label(1, 184, "rinse"),
        arrow(*ends),
    ]


def _stages(stages: tuple[Fraction, Fraction, Fraction], scale: float) -> list[str]:
    drawn, x = [], _LEFT
    for name, minutes in zip(("apply", "wait", "rinse"), stages, strict=True):
        wide = float(minutes) * scale
        drawn += [line(x, 22, x, 150, dashed=True), arrow(x, 24, x + wide, 24)]
        if wide > 46:
            drawn.append(label(x + wide / 2, 14, name, anchor="middle"))
        x += wide
    return [*drawn, line(x, 22, x, 150, dashed=True)]


def _bar(y: float, patch: _Patch, limits: tuple[Fraction, Fraction], scale: float) -> list[str]:
    least, longest = limits
    minutes = patch.rinsed - patch.wet
    x, wide = _LEFT + float(patch.wet) * scale, float(minutes) * scale
    window = x + float(least) * scale
    good = least <= minutes <= longest
    return [
        box(window, y - 12, float(longest - least) * scale, _BAR + 24, PALE),
        box(x, y, wide, _BAR, MIX),
        path(f"M{x + float(longest) * scale} {y - 14}v{_BAR + 28}", thick=HEAVY),
        label(1, y + 12, patch.name, bold=True),
        label(1, y + 29, f"wet {said(minutes, 'min')}"),
        (tick if good else cross)(_LEFT - 14, y + 13, 7),
    ]
