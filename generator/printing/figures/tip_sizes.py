"""Tips: how wide each fan is, and what the size number does to the pressure."""

from __future__ import annotations

from math import radians, tan

from generator.printing.figures.pen import (
    BOLD,
    HEAD,
    INK,
    WATER,
    Numbers,
    box,
    disc,
    label,
    line,
    path,
    positive,
    said,
    sheet,
    undrawable,
)

NEEDS = ("gpm", "psi", "size")
_FANS = ((0.0, "0° needle"), (15, "15°"), (25, "25°"), (40, "40°"), (60, "soap"))  # degrees
_REACH = 78.0


def draw(numbers: Numbers) -> str:
    """What the machine puts out in gpm, its psi, and the tip size that fits both."""
    gpm, psi, size = positive("tip-sizes", numbers, *NEEDS)
    if size > 100:
        raise undrawable("tip-sizes", f"size is {size}", "no tip is as large: check gpm and psi")
    fans = [part for n, fan in enumerate(_FANS) for part in _fan(49 + 98 * n, *fan)]
    sizes = (
        (82, 3.0, f"smaller than {said(size, '1')}", "more pressure"),
        (245, 6.0, f"size {said(size, '1')} fits", f"{said(gpm, 'gpm')}, {said(psi, 'psi')}"),
        (408, 11.0, f"larger than {said(size, '1')}", "softer jet"),
    )
    holes = [part for hole in sizes for part in _hole(*hole)]
    return sheet(
        266,
        [
            label(1, 14, "Angle: how wide the jet spreads", size=HEAD, bold=True),
            *fans,
            label(1, 166, "Size number: how big the hole is", size=HEAD, bold=True),
            *holes,
        ],
    )


def _fan(x: float, angle: float, name: str) -> list[str]:
    half = _REACH * tan(radians(angle / 2))
    jet = (
        path(f"M{x} 42L{x - half} {42 + _REACH}H{x + half}Z", fill=WATER)
        if angle
        else line(x, 42, x, 42 + _REACH, thick=BOLD)
    )
    return [
        jet,
        path(f"M{x - 7} 24h14l-3 18h-8Z", fill=INK),
        label(x, 140, name, anchor="middle", bold=True),
    ]


def _hole(x: float, radius: float, name: str, what: str) -> list[str]:
    return [
        box(x - 20, 178, 40, 40, "none"),
        disc(x, 198, radius, INK),
        label(x, 238, name, anchor="middle", bold=True),
        label(x, 256, what, anchor="middle"),
    ]
