"""The three valves of a head as parts of one bar: stock, water, soap."""

from __future__ import annotations

from fractions import Fraction

from generator.printing.figures.pen import (
    BOLD,
    HEAD,
    SOAP,
    STOCK,
    WATER,
    WIDTH,
    Numbers,
    box,
    label,
    line,
    parts,
    positive,
    said,
    sheet,
    zero_or_more,
)

NEEDS = ("stock", "bleach", "water", "soap")
_MOST_CELLS = 40  # more than this can't be told apart


def draw(numbers: Numbers) -> str:
    """Stock in %, and the parts of bleach, water and soap (soap may be 0)."""
    stock, bleach, water = positive("head-parts", numbers, "stock", "bleach", "water")
    soap = zero_or_more("head-parts", numbers, "soap")
    shares = (
        (STOCK, bleach, f"{parts(bleach)} stock of {said(stock, '%')}"),
        (WATER, water, f"{parts(water)} water"),
        (SOAP, soap, f"{parts(soap)} soap" if soap else "no soap"),
    )
    total = bleach + water + soap
    return sheet(166, [*_bar(shares, total), *_key(shares), *_result(stock, bleach, total)])


def _bar(shares: tuple[tuple[str, Fraction, str], ...], total: Fraction) -> list[str]:
    drawn, x = [], 1.0
    unit = (WIDTH - 2) / float(total)
    for fill, count, _ in shares:
        width = float(count) * unit
        if width:
            drawn.append(box(x, 2, width, 52, fill))
        drawn += _cells(x, unit, count, total)
        x += width
    return drawn


def _cells(x: float, unit: float, count: Fraction, total: Fraction) -> list[str]:
    if total > _MOST_CELLS:
        return []
    inner = range(1, -(-count.numerator // count.denominator))
    return [line(x + unit * n, 2, x + unit * n, 54, thick=BOLD) for n in inner]


def _key(shares: tuple[tuple[str, Fraction, str], ...]) -> list[str]:
    drawn = []
    for row, (fill, _, words) in enumerate(shares):
        y = 72 + 32 * row
        drawn += [box(1, y, 34, 20, fill), label(46, y + 15, words)]
    return drawn


def _result(stock: Fraction, bleach: Fraction, total: Fraction) -> list[str]:
    share = f"{said(bleach, '1')} of {said(total, '1')}"
    return [
        line(262, 70, 262, 160),
        label(276, 87, f"All the parts: {said(total, '1')}"),
        label(276, 119, f"Stock is {share} parts"),
        label(276, 151, f"On the wall: {said(stock * bleach / total, '%')}", size=HEAD, bold=True),
    ]
