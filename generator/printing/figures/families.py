"""The never-mix chart by family: which two must never meet, and what comes of it.

It is drawn from the chart of the rig card: a name for each family by its id, and the letters of
what comes of a pair under `one/other`.
"""

from __future__ import annotations

from textwrap import wrap

from generator.printing.figures.pen import (
    FINE,
    INK,
    PALE,
    PAPER,
    Numbers,
    label,
    shape,
    sheet,
    undrawable,
)

MOST = 16
"""Families on one chart: more, and the letters leave their cells."""

_LEFT, _TOP, _WHOLE = 158.0, 24.0, 330.2
_WIDE, _SMALL = 22, 24  # letters of a name on one line, and on each of two in small type
_RULE = "#909090"  # shows on black cells and on white ones
_KEY = (  # where each letter stands below the chart, and what it means
    (1, 20, "G", "gas that poisons or burns"),
    (198, 20, "F", "fire or strong heat"),
    (350, 20, "P", "a jug may burst"),
    (1, 42, "C", "eats metal or glass"),
    (198, 42, "X", "never, unless the crew chief has read both sheets"),
)


def draw(numbers: Numbers) -> str:
    """Needs the chart. Raises Refusal when there is none, or it has too many families."""
    names = {key: str(name) for key, name in numbers.items() if "/" not in key}
    if not 2 <= len(names) <= MOST:
        raise undrawable("families", f"the chart has {len(names)} families", f"give 2 to {MOST}")
    cell = _WHOLE / len(names)
    drawn = [*_heads(list(names.values()), cell), *_cells(list(names), numbers, cell)]
    return sheet(_TOP + _WHOLE + 84, [*drawn, *_legend(_TOP + _WHOLE)])


def letters(one: str, other: str, numbers: Numbers) -> str:
    """What comes when two families meet, as `GFP`; "" where the chart has no letter."""
    told = numbers.get(f"{one}/{other}") or numbers.get(f"{other}/{one}") or ""
    return str(told).replace(" ", "")


def _heads(names: list[str], cell: float) -> list[str]:
    drawn = []
    for n, name in enumerate(names):
        middle = cell * (n + 0.5)
        drawn += [
            label(_LEFT + middle, _TOP - 8, str(n + 1), anchor="middle", bold=True),
            label(1, _TOP + middle + 4.5, f"{n + 1}"),
            *_name(name, _TOP + middle),
        ]
    return drawn


def _name(name: str, middle: float) -> list[str]:
    """A name on one line, or in smaller type on two."""
    if len(name) <= _WIDE:
        return [label(22, middle + 4.5, name)]
    lines = wrap(name, _SMALL)
    if len(lines) > 2:
        raise undrawable("families", f'"{name}" is too long', f"{2 * _SMALL} letters at most")
    top = middle + 10 - 6 * len(lines)
    return [label(22, top + 12 * n, line, size=11) for n, line in enumerate(lines)]


def _cells(ids: list[str], numbers: Numbers, cell: float) -> list[str]:
    return [
        part
        for row, one in enumerate(ids)
        for column, other in enumerate(ids)
        for part in _cell(
            _LEFT + column * cell,
            _TOP + row * cell,
            cell,
            None if one == other else letters(one, other, numbers),
        )
    ]


def _cell(x: float, y: float, cell: float, what: str | None) -> list[str]:
    """Gas is white on black, the rest black on grey; no letter leaves the cell white."""
    if what is None:
        return [_frame(x, y, cell, PAPER), shape("path", d=_diagonal(x, y, cell), stroke=INK)]
    fill = INK if "G" in what else PALE if what else PAPER
    ink = PAPER if "G" in what else INK
    where = (x + cell / 2, y + cell / 2 + 4.3)
    words = label(*where, what, size=11, bold=True, anchor="middle", fill=ink)
    return [_frame(x, y, cell, fill), *([words] if what else [])]


def _frame(x: float, y: float, cell: float, fill: str) -> str:
    where = {"x": x, "y": y, "width": cell, "height": cell}
    return shape("rect", **where, fill=fill, stroke=_RULE, stroke_width=FINE)


def _diagonal(x: float, y: float, cell: float) -> str:
    return f"M{x:.2f} {y:.2f}l{cell:.2f} {cell:.2f}"


def _legend(y: float) -> list[str]:
    drawn = []
    for x, below, letter, words in _KEY:
        drawn += [label(x, y + below, letter, bold=True), label(x + 16, y + below, words)]
    drawn.append(label(1, y + 70, "White: no letter, and still not together. One family a day."))
    return drawn
