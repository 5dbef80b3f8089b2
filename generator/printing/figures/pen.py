"""The pen all figures are drawn with: shapes, labels, patterns that survive grey printing.

Lengths are SVG units (96 to the inch). Floats are fine here: they place ink, they judge nothing.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from fractions import Fraction
from html import escape
from math import cos, radians, sin

from generator.errors import Refusal
from generator.maths.amounts import amount_text
from generator.maths.exact import half_up
from generator.maths.units import parse_unit

Numbers = Mapping[str, Fraction | str]

WIDTH = 490  # as wide as the text column of a booklet
INK = "#1a1a1a"
GREY = "#4a4a4a"
PALE = "#e8e8e8"
PAPER = "#ffffff"
ACCENT = "#0e4d5c"  # of the pages; figures are drawn without it

NOTE, HEAD, BIG = 13.0, 15.0, 22.0
"""Sizes of type in a figure: what is said of a thing, a head, the one number that counts."""
FINE, LINE, BOLD, HEAVY = 0.9, 1.2, 1.8, 3.0
"""Weights of strokes: leaders, outlines, what moves, ground and walls."""

_RIM = f'fill="none" stroke="{INK}" stroke-width="0.9"'
_TILES = {  # of each pattern: the size of its tile, and what stands on it
    "stock": (6, 6, f'<path d="M-1 7L7 -1M-1 1L1 -1M5 7L7 5" stroke="{INK}" stroke-width="1.3"/>'),
    "mix": (7, 7, f'<path d="M-1 -1L8 8M-1 6L1 8M6 -1L8 1" stroke="{INK}" stroke-width="0.8"/>'),
    "soap": (
        8,
        8,
        f'<circle cx="2" cy="2" r="1.3" fill="{INK}"/><circle cx="6" cy="6" r="1.3" fill="{INK}"/>',
    ),
    "water": (
        14,
        9,
        f'<path d="M0 5Q3.5 2 7 5T14 5" fill="none" stroke="{INK}" stroke-width="0.8"/>',
    ),
    "gas": (
        12,
        12,
        f'<path d="M2 3.5a2 2 0 0 0 4 0a2 2 0 0 0-4 0M8 9.5a2 2 0 0 0 4 0a2 2 0 0 0-4 0" {_RIM}/>',
    ),
    "soil": (
        9,
        9,
        f'<path d="M1 3H4M5.5 7.5H8.5" stroke="{INK}" stroke-width="1"/>',
    ),
}
_LONG = re.compile(r"\d+\.\d{3,}(e-\d+)?")  # a number with more places than ink can show
STOCK, MIX, SOAP, WATER, GAS, SOIL = (f"url(#{name})" for name in _TILES)


def positive(figure: str, numbers: Numbers, *names: str) -> tuple[Fraction, ...]:
    """The numbers of those names. Raises Refusal unless each is a number above zero."""
    values = []
    for name in names:
        value = numbers[name]
        if not isinstance(value, Fraction) or value <= 0:
            raise undrawable(figure, f"{name} is {value}", "give a number above zero")
        values.append(value)
    return tuple(values)


def percents(figure: str, numbers: Numbers, *names: str) -> tuple[Fraction, ...]:
    """The numbers of those names. Raises Refusal unless each is above 0 and at most 100."""
    values = positive(figure, numbers, *names)
    for name, value in zip(names, values, strict=True):
        if value > 100:
            raise undrawable(figure, f"{name} is {value}%", "a share is at most 100%")
    return values


def zero_or_more(figure: str, numbers: Numbers, name: str) -> Fraction:
    """The number of that name. Raises Refusal unless it is 0 or above."""
    value = numbers[name]
    if not isinstance(value, Fraction) or value < 0:
        raise undrawable(figure, f"{name} is {value}", "give 0 or a number above it")
    return value


def undrawable(figure: str, what: str, next: str) -> Refusal:
    """The refusal of a figure to draw such numbers."""
    return Refusal(f'the figure "{figure}" can\'t be drawn: {what}', next)


def said(value: Fraction, unit: str) -> str:
    """`value` with its unit, to two decimals: nobody measures finer from a figure.

    >>> said(Fraction(31, 7), "gal")
    '4.43 gal'
    """
    shown = half_up(value, Fraction(1, 100)) if value >= Fraction(1, 10) else value
    return amount_text(shown, parse_unit(unit))


def parts(count: Fraction) -> str:
    """`3 parts`, `1 part`."""
    return f"{said(count, '1')} {'part' if count == 1 else 'parts'}"


def shape(tag: str, /, *inside: str, **attributes: float | str) -> str:
    """One SVG element; `stroke_width` becomes `stroke-width`. `inside` is SVG already."""
    written = "".join(
        f' {name.rstrip("_").replace("_", "-")}="{_attribute(value)}"'
        for name, value in attributes.items()
    )
    return f"<{tag}{written}>{''.join(inside)}</{tag}>" if inside else f"<{tag}{written}/>"


def _attribute(value: float | str) -> str:
    return escape(value) if isinstance(value, str) else f"{value:.2f}".rstrip("0").rstrip(".")


def label(
    x: float,
    y: float,
    words: str,
    /,
    *,
    size: float = NOTE,
    bold: bool = False,
    anchor: str = "start",
    fill: str = INK,
) -> str:
    """A line of text whose baseline begins (or ends, or is centred) at the point."""
    return shape(
        "text",
        escape(words),
        x=x,
        y=y,
        font_family="Source Sans Pro",
        font_size=size,
        font_weight=600 if bold else 400,
        text_anchor=anchor,
        fill=fill,
    )


def box(x: float, y: float, width: float, height: float, fill: str = "none") -> str:
    """An outlined rectangle. A pattern is laid over white."""
    frame = {"x": x, "y": y, "width": width, "height": height}
    under = shape("rect", **frame, fill=PAPER) if fill.startswith("url") else ""
    return under + shape("rect", **frame, fill=fill, stroke=INK, stroke_width=LINE)


def line(
    x1: float, y1: float, x2: float, y2: float, *, dashed: bool = False, thick: float = LINE
) -> str:
    """A straight stroke."""
    where = {"x1": x1, "y1": y1, "x2": x2, "y2": y2}
    return shape("line", **where, stroke=INK, stroke_width=thick, **_dashes(dashed))


def _dashes(dashed: bool) -> dict[str, str]:
    return {"stroke_dasharray": "5 4"} if dashed else {}


def arrow(x1: float, y1: float, x2: float, y2: float, *, dashed: bool = False) -> str:
    """A stroke with a head at its second end."""
    length = ((x2 - x1) ** 2 + (y2 - y1) ** 2) ** 0.5
    along, across = (x2 - x1) / length, (y2 - y1) / length
    back_x, back_y = x2 - 9 * along, y2 - 9 * across
    head = (
        f"{x2:.2f},{y2:.2f} {back_x - 4 * across:.2f},{back_y + 4 * along:.2f} "
        f"{back_x + 4 * across:.2f},{back_y - 4 * along:.2f}"
    )
    stroke = line(x1, y1, back_x, back_y, dashed=dashed, thick=BOLD)
    return stroke + shape("polygon", points=head, fill=INK)


def path(d: str, *, fill: str = "none", thick: float = LINE, dashed: bool = False) -> str:
    """A path of any shape, outlined; round at its corners and ends."""
    style = {"stroke_linecap": "round", "stroke_linejoin": "round"} | _dashes(dashed)
    d = _LONG.sub(lambda number: f"{float(number[0]):.2f}", d)
    drawn = shape("path", d=d, fill=fill, stroke=INK, stroke_width=thick, **style)
    return shape("path", d=d, fill=PAPER) + drawn if fill.startswith("url") else drawn


def disc(
    x: float,
    y: float,
    radius: float,
    fill: str = PAPER,
    *,
    thick: float = LINE,
    dashed: bool = False,
) -> str:
    """An outlined circle."""
    where = {"cx": x, "cy": y, "r": radius}
    return shape("circle", **where, fill=fill, stroke=INK, stroke_width=thick, **_dashes(dashed))


def half_disc(x: float, y: float, radius: float, fill: str = "none", *, dashed: bool) -> str:
    """The upper half of a circle, outlined but for its level side."""
    arc = f"M{x - radius} {y}A{radius} {radius} 0 0 1 {x + radius} {y}"
    return path(arc, fill=fill, thick=BOLD, dashed=dashed)


def on_circle(x: float, y: float, radius: float, degrees: float) -> tuple[float, float]:
    """The point of a circle so many degrees from its right, turning upwards."""
    return x + radius * cos(radians(degrees)), y - radius * sin(radians(degrees))


def rows(x: float, y: float, *words: str, gap: float = 17, anchor: str = "start") -> list[str]:
    """Lines of text one below the other."""
    return [label(x, y + gap * n, each, anchor=anchor) for n, each in enumerate(words)]


def numbered(x: float, y: float, number: int) -> str:
    """A number in a black disc, for the steps of an order."""
    words = label(x, y + 4.5, str(number), bold=True, anchor="middle", fill=PAPER)
    return shape("circle", cx=x, cy=y, r=9, fill=INK) + words


def sheet(height: float, drawn: Iterable[str], width: float = WIDTH) -> str:
    """The whole drawing as an SVG document, with the patterns it uses."""
    inside = "".join(drawn)
    patterns = "".join(_pattern(name) for name in _TILES if f"url(#{name})" in inside)
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{width:g}" height="{height:g}" '
        f'viewBox="0 0 {width:g} {height:g}"><defs>{patterns}</defs>{inside}</svg>'
    )


def _pattern(name: str) -> str:
    wide, tall, tile = _TILES[name]
    return (
        f'<pattern id="{name}" width="{wide}" height="{tall}" '
        f'patternUnits="userSpaceOnUse">{tile}</pattern>'
    )
