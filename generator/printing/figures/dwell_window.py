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
    return _sheet(*positive("dwell-same", numbers, *NEEDS), back=False)


def draw_reverse(numbers: Numbers) -> str:
    """Rinsed back from the far end: the first patch wetted is the last one rinsed."""
    return _sheet(*positive("dwell-reverse", numbers, *NEEDS), back=True)


def _sheet(
    area: Fraction,
    apply: Fraction,
    rinse: Fraction,
    wait: Fraction,
    least: Fraction,
    longest: Fraction,
    *,
    back: bool,
) -> str:
    up, down = area / apply, area / rinse
    begun, done = up + wait, up + wait + down
    first = _Patch("first wetted", Fraction(0), done if back else begun)
    last = _Patch("last wetted", up, begun if back else done)
    scale = (WIDTH - _LEFT - 4) / float(max(up + longest, done))
    return sheet(
        190,
        [
            *_ways(back=back),
            *_stages((up, wait, down), scale),
            *_bar(44, first, (least, longest), scale),
            *_bar(104, last, (least, longest), scale),
            label(_LEFT, 166, "hatched: the patch is wet"),
            label(
                _LEFT,
                184,
                f"grey: rinse it here, from {said(least, 'min')} to {said(longest, 'min')}",
            ),
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
