"""Two bars of one length: "1 to 4" has five parts, "one quarter" has four."""

from __future__ import annotations

from generator.printing.figures.pen import (
    HEAD,
    STOCK,
    WATER,
    WIDTH,
    Numbers,
    box,
    label,
    positive,
    sheet,
    undrawable,
)

NEEDS = ("water_parts",)


def draw(numbers: Numbers) -> str:
    """`water_parts` is the water to 1 part of stock, a whole number from 2 to 20."""
    (water,) = positive("ratio-fraction", numbers, "water_parts")
    if water.denominator != 1 or not 2 <= water <= 20:
        raise undrawable("ratio-fraction", f"water_parts is {water}", "use 2, 3 … up to 20")
    n = int(water)
    return sheet(
        172,
        [
            label(1, 16, f"1 to {n}", size=HEAD, bold=True),
            label(WIDTH, 16, f"1 + {n} = {n + 1} parts: 1/{n + 1} is stock", anchor="end"),
            *_cells(26, n + 1),
            label(1, 106, f"1/{n} of the mix", size=HEAD, bold=True),
            label(WIDTH, 106, f"1 + {n - 1} = {n} parts: 1/{n} is stock", anchor="end"),
            *_cells(116, n),
        ],
    )


def _cells(y: float, count: int) -> list[str]:
    width = (WIDTH - 2) / count
    return [box(1 + width * cell, y, width, 48, WATER if cell else STOCK) for cell in range(count)]
