"""The three valves of a head: three streams flow together, and stock is a share of all of it."""

from __future__ import annotations

from fractions import Fraction

from generator.printing.figures.pen import (
    BIG,
    BOLD,
    PAPER,
    SOAP,
    STOCK,
    WATER,
    Numbers,
    arrow,
    box,
    label,
    line,
    parts,
    path,
    percents,
    positive,
    rows,
    said,
    sheet,
    undrawable,
    zero_or_more,
)
from generator.printing.figures.pictures import valve

NEEDS = ("stock", "bleach", "water", "soap")
_BAND = 60.0  # height of the three streams together


def draw(numbers: Numbers) -> str:
    """Stock in %, and the measured parts of bleach, water and soap (soap may be 0)."""
    (stock,) = percents("head-valves", numbers, "stock")
    bleach, water = positive("head-valves", numbers, "bleach", "water")
    soap = zero_or_more("head-valves", numbers, "soap")
    total = bleach + water + soap
    if max(bleach, water) > 40 * min(bleach, water):
        raise undrawable("head-valves", "one stream is a hair", "use parts nearer to each other")
    streams = (
        (34.0, STOCK, bleach, f"stock {said(stock, '%')}"),
        (94.0, WATER, water, "water"),
        (154.0, SOAP, soap, "soap"),
    )
    drawn: list[str] = []
    top = 80.0
    for y, fill, count, name in streams:
        thick = _BAND * float(count / total)
        drawn += [*_stream(y, top, thick, fill), *_tank(y, fill, name, count)]
        top += thick
    return sheet(194, [*drawn, *_outflow(stock * bleach / total, total)])


def _tank(y: float, fill: str, name: str, count: Fraction) -> list[str]:
    return [
        box(86, y - 22, 54, 44, fill),
        path(f"M86 {y - 26}V{y + 22}H140V{y - 26}", thick=BOLD),
        *rows(78, y - 3, name, parts(count) if count else "shut", anchor="end"),
        line(140, y, 172, y, thick=BOLD),
        valve(172, y, shut=not count),
    ]


def _stream(y: float, top: float, thick: float, fill: str) -> list[str]:
    """From a valve into its share of the band; as thick as its part."""
    if not thick:
        return []
    half, low = thick / 2, top + thick
    bend = (
        f"M182 {y - half}C226 {y - half} 226 {top} 262 {top}H352V{low}H262"
        f"C226 {low} 226 {y + half} 182 {y + half}Z"
    )
    return [path(bend, fill=fill)]


def _outflow(wall: Fraction, total: Fraction) -> list[str]:
    return [
        box(352, 80, 6, _BAND, PAPER),
        arrow(364, 110, 392, 110),
        label(402, 94, "on the wall"),
        label(402, 118, said(wall, "%"), size=BIG, bold=True),
        label(390, 138, f"of {said(total, '1')} parts"),
        *rows(262, 164, "Parts are gallons that ran out.", "Marks on a dial are not parts."),
    ]
