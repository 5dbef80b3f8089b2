"""Which way a drop runs: cuffs for low and for high hands, and trousers over boots."""

from __future__ import annotations

from generator.printing.figures.panels import WIDE, left_of
from generator.printing.figures.pen import (
    BOLD,
    HEAD,
    INK,
    PALE,
    PAPER,
    STOCK,
    Numbers,
    arrow,
    box,
    label,
    path,
    rows,
    sheet,
)
from generator.printing.figures.pictures import hand


def draw(numbers: Numbers) -> str:
    """Needs no numbers: a drop runs down, and must find the outside."""
    return sheet(
        222,
        [
            *_panel(0, "hands low", "sleeve over the glove:", "the drop runs off outside"),
            *_low(left_of(0)),
            *_panel(1, "hands high", "glove over the sleeve,", "cuff turned: a gutter"),
            *_high(left_of(1)),
            *_panel(2, "legs, always", "trousers over the boots,", "or boots are buckets"),
            *_leg(left_of(2)),
        ],
    )


def _panel(place: int, name: str, *words: str) -> list[str]:
    x = left_of(place)
    return [
        box(x, 1, WIDE, 176, PAPER),
        label(x + 8, 20, name, size=HEAD, bold=True),
        *rows(x, 196, *words),
    ]


def _drop(x: float, y: float) -> str:
    return path(f"M{x} {y - 8}q-7 9 0 13q7 -4 0 -13", fill=INK)


def _low(x: float) -> list[str]:
    middle = x + 78
    glove = path(f"M{middle - 15} 128V96h30v32Z", fill=STOCK)
    sleeve = path(
        f"M{middle - 18} 34L{middle - 25} 112h50L{middle + 18} 34Z", fill=PALE, thick=BOLD
    )
    return [
        glove,
        hand(middle, 122, 1),
        sleeve,
        _drop(middle + 33, 62),
        arrow(middle + 33, 74, middle + 37, 150),
    ]


def _high(x: float) -> list[str]:
    middle = x + 78
    sleeve = path(
        f"M{middle - 18} 170L{middle - 14} 92h28L{middle + 18} 170Z", fill=PALE, thick=BOLD
    )
    glove = path(f"M{middle - 19} 70h38v58h-38Z", fill=STOCK, thick=BOLD)
    gutter = path(f"M{middle - 19} 128h-14v-15m0 15m52 0h14v-15", thick=BOLD)
    return [
        sleeve,
        hand(middle, 72, -1),
        glove,
        gutter,
        _drop(middle + 27, 84),
        arrow(middle + 27, 94, middle + 27, 122),
    ]


def _leg(x: float) -> list[str]:
    middle = x + 70
    boot = path(
        f"M{middle - 16} 84V160H{middle + 44}v-8q-2 -14 -26 -16V84Z", fill=STOCK, thick=BOLD
    )
    leg = path(f"M{middle - 18} 34L{middle - 24} 130h48L{middle + 18} 34Z", fill=PALE, thick=BOLD)
    return [
        boot,
        path(f"M{middle - 20} 164h70", thick=BOLD),
        leg,
        _drop(middle + 32, 62),
        arrow(middle + 32, 74, middle + 35, 126),
    ]
