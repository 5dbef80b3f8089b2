"""A row of the mixing card: between two columns the higher number is the safe one."""

from __future__ import annotations

from fractions import Fraction

from generator.maths.amounts import amount_text, number_text
from generator.maths.exact import down, up
from generator.maths.units import parse_unit
from generator.model.handout import COLUMNS
from generator.printing.figures.pen import (
    BOLD,
    HEAD,
    HEAVY,
    INK,
    PALE,
    PAPER,
    Numbers,
    arrow,
    box,
    label,
    path,
    positive,
    said,
    sheet,
    undrawable,
)
from generator.printing.figures.pictures import cross, tick

NEEDS = ("tested", "target", "total", "mark")
_LEFT, _CELL, _TOP = 92.0, 56.0, 92.0


def draw(numbers: Numbers) -> str:
    """Today's test and the strength wanted in %, the fill mark and the jug's mark in gal."""
    tested, target, total, mark = positive("dilution-card", numbers, *NEEDS)
    if not COLUMNS[-1] <= tested <= COLUMNS[0]:
        raise undrawable("dilution-card", f"tested is {tested}", "the card goes from 7 to 13")
    if mark.denominator not in (1, 2, 4, 5, 8, 10):
        raise undrawable("dilution-card", f"mark is {mark}", "give the jug's mark, such as 1/4")
    amounts = [down(total * target / column, mark) for column in COLUMNS]
    if not all(amounts) or amounts[-1] >= 1000:
        raise undrawable("dilution-card", "a column has no gallons", "use a larger total")
    chosen = COLUMNS.index(up(tested))
    cells = [
        part
        for n in range(len(COLUMNS))
        for part in _column(n, number_text(amounts[n], mark), chosen=n == chosen)
    ]
    return sheet(
        204,
        [
            *_reading(tested, chosen),
            *_row_heads(),
            *cells,
            label(
                1,
                198,
                f"Fill mark {said(total, 'gal')}, wanted {said(target, '%')}. "
                f"Amounts go down to the jug's mark, {amount_text(mark, parse_unit('gal'), mark)}.",
            ),
        ],
    )


def _row_heads() -> list[str]:
    return [
        label(1, _TOP + 22, "stock tests"),
        label(1, _TOP + 60, "gal to measure"),
    ]


def _column(place: int, amount: str, *, chosen: bool) -> list[str]:
    x = _LEFT + place * _CELL
    frame = path(f"M{x} {_TOP}h{_CELL}v76h{-_CELL}Z", thick=HEAVY) if chosen else ""
    return [
        box(x, _TOP, _CELL, 34, PALE),
        box(x, _TOP + 34, _CELL, 42, PAPER),
        label(x + _CELL / 2, _TOP + 23, f"{COLUMNS[place]}%", anchor="middle", bold=chosen),
        label(x + _CELL / 2, _TOP + 60, amount, anchor="middle", bold=chosen, size=HEAD),
        frame,
    ]


def _reading(tested: Fraction, chosen: int) -> list[str]:
    """Where the reading lies, and the way to the higher column, with what the lower one does."""
    x = _LEFT + _CELL * (float(COLUMNS[0] - tested) + 0.5)
    column = _LEFT + _CELL * (chosen + 0.5)
    words = f"today's test: {said(tested, '%')}"
    head = label(max(x, 70), 16, words, anchor="middle", size=HEAD, bold=True)
    point = path(f"M{x} 44l-7 -14h14Z", fill=INK)
    if tested.denominator == 1:
        return [head, point, arrow(x, 46, x, _TOP - 4)]
    lower = column + _CELL
    return [
        head,
        point,
        arrow(x, 46, column + 8, _TOP - 6),
        tick(column - 10, 70, 7),
        label(column - 22, 66, "higher number:", anchor="end"),
        label(column - 22, 82, "less stock, safe", anchor="end"),
        path(f"M{x} 46L{lower - 8} {_TOP - 6}", dashed=True, thick=BOLD),
        cross(lower + 8, 72, 6),
        label(lower + 20, 77, "too strong"),
    ]
