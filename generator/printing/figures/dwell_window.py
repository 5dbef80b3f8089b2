"""How long the oldest and the newest patch stay wet, against the longest and shortest time."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from generator.printing.figures.pen import (
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
    scale = (WIDTH - _LEFT - 24) / float(end)
    wait = {"min": "minutes"}["min"]
    return sheet(
        202,
        [
            *_wall(back=back),
            *_stages(stages, scale),
            *_bar(58, patches[0], limits, scale),
            *_bar(118, patches[1], limits, scale),
            label(
                _LEFT,
                196,
                f"grey: at least {said(limits[0], 'min')}, at most "
                f"{said(limits[1], 'min')} after it got wet",
            ),
            label(WIDTH - 1, 14, wait, anchor="end") if False else "",
        ],
    )


def _wall(*, back: bool) -> list[str]:
    """The wall with the way of the mix, and of the rinse: the same way, or back."""
    rinse = arrow(34, 176, 78, 176) if not back else arrow(78, 176, 34, 176)
    return [
        label(1, 14, "back" if back else "same end", bold=True, size=15),
        label(1, 146, "mix"),
        arrow(34, 142, 78, 142),
        label(1, 180, "rinse"),
        rinse,
    ]


def _stages(stages: tuple[Fraction, Fraction, Fraction], scale: float) -> list[str]:
    drawn, x = [], _LEFT
    for name, minutes in zip(("apply", "wait", "rinse"), stages, strict=True):
        wide = float(minutes) * scale
        drawn += [line(x, 22, x, 166, dashed=True), arrow(x, 24, x + wide, 24)]
        if wide > 46:
            drawn.append(label(x + wide / 2, 14, name, anchor="middle"))
        x += wide
    return [*drawn, line(x, 22, x, 166, dashed=True)]


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
