"""The never-mix chart by family: which two must never meet, and what comes of it."""

from __future__ import annotations

from generator.printing.figures.pen import (
    FINE,
    INK,
    PALE,
    PAPER,
    Numbers,
    label,
    shape,
    sheet,
)

FAMILIES = (
    "Bleach",
    "Acids",
    "Fluoride acids",
    "Lye",
    "Peroxide, percarbonate",
    "Ammonia, animal waste",
    "Quats",
    "Citrus, solvents",
    "Pool chlorine",
    "Neutralizer",
    "Bare aluminum, zinc",
    "Fuel, oil",
    "Glass",
)
NEVER = {
    ("Bleach", "Acids"): "G",
    ("Bleach", "Fluoride acids"): "G",
    ("Bleach", "Lye"): "X",
    ("Bleach", "Peroxide, percarbonate"): "PF",
    ("Bleach", "Ammonia, animal waste"): "G",
    ("Bleach", "Quats"): "G",
    ("Bleach", "Citrus, solvents"): "GF",
    ("Bleach", "Neutralizer"): "F",
    ("Bleach", "Bare aluminum, zinc"): "GC",
    ("Bleach", "Fuel, oil"): "F",
    ("Acids", "Fluoride acids"): "G",
    ("Lye", "Peroxide, percarbonate"): "PF",
    ("Lye", "Ammonia, animal waste"): "G",
    ("Lye", "Quats"): "X",
    ("Lye", "Bare aluminum, zinc"): "GF",
    ("Lye", "Fuel, oil"): "X",
    ("Lye", "Glass"): "C",
    ("Fluoride acids", "Glass"): "C",
    ("Peroxide, percarbonate", "Ammonia, animal waste"): "X",
    ("Peroxide, percarbonate", "Quats"): "X",
    ("Peroxide, percarbonate", "Citrus, solvents"): "F",
    ("Peroxide, percarbonate", "Bare aluminum, zinc"): "C",
    ("Peroxide, percarbonate", "Fuel, oil"): "F",
    **{
        (acid, other): what
        for acid in ("Acids", "Fluoride acids")
        for other, what in (
            ("Lye", "F"),
            ("Peroxide, percarbonate", "F"),
            ("Ammonia, animal waste", "GF"),
            ("Quats", "X"),
            ("Citrus, solvents", "X"),
            ("Neutralizer", "G"),
            ("Bare aluminum, zinc", "GC"),
            ("Fuel, oil", "F"),
        )
    },
    **{(other, "Pool chlorine"): "GFP" for other in FAMILIES[:12] if other != "Pool chlorine"},
}
"""Two families and the letters of what comes; a pair that is not here has no letter."""

_LEFT, _TOP, _CELL = 158.0, 24.0, 25.4
_RULE = "#909090"  # shows on black cells and on white ones
_KEY = (
    ("G", "gas that poisons or burns"),
    ("F", "fire or strong heat"),
    ("P", "a jug may burst"),
    ("C", "eats metal or glass"),
    ("X", "never, unless the crew chief has read both sheets"),
)


def letters(one: str, other: str) -> str:
    """What comes when two families meet; "" where the chart has no letter."""
    return NEVER.get((one, other)) or NEVER.get((other, one)) or ""


def draw(numbers: Numbers) -> str:
    """Needs no numbers: thirteen families, each against each."""
    bottom = _TOP + _CELL * len(FAMILIES)
    return sheet(bottom + 84, [*_heads(), *_cells(), *_legend(bottom + 20)])


def _heads() -> list[str]:
    drawn = []
    for n, family in enumerate(FAMILIES):
        middle = _CELL * (n + 0.5)
        drawn += [
            label(_LEFT + middle, _TOP - 8, str(n + 1), anchor="middle", bold=True),
            label(1, _TOP + middle + 4.5, f"{n + 1}"),
            label(22, _TOP + middle + 4.5, family),
        ]
    return drawn


def _cells() -> list[str]:
    return [
        part
        for row, one in enumerate(FAMILIES)
        for column, other in enumerate(FAMILIES)
        for part in _cell(_LEFT + column * _CELL, _TOP + row * _CELL, one, other)
    ]


def _cell(x: float, y: float, one: str, other: str) -> list[str]:
    """Gas is white on black, the rest black on grey; no letter leaves the cell white."""
    if one == other:
        return [_frame(x, y, PAPER), shape("path", d=_diagonal(x, y), stroke=INK)]
    what = letters(one, other)
    fill = INK if "G" in what else PALE if what else PAPER
    ink = PAPER if "G" in what else INK
    words = label(x + _CELL / 2, y + 17, what, size=11, bold=True, anchor="middle", fill=ink)
    return [_frame(x, y, fill), *([words] if what else [])]


def _frame(x: float, y: float, fill: str) -> str:
    where = {"x": x, "y": y, "width": _CELL, "height": _CELL}
    return shape("rect", **where, fill=fill, stroke=_RULE, stroke_width=FINE)


def _diagonal(x: float, y: float) -> str:
    return f"M{x:.2f} {y:.2f}l{_CELL} {_CELL}"


def _legend(y: float) -> list[str]:
    drawn = []
    for n, (letter, words) in enumerate(_KEY):
        x = (1, 198, 350)[n % 3] if n < 3 else (1, 198)[n - 3]
        row = y + 22 * (n // 3)
        drawn += [label(x, row, letter, bold=True), label(x + 16, row, words)]
    drawn.append(label(1, y + 50, "White: no letter, and still not together. One family a day."))
    return drawn
