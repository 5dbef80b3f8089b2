"""The pen all figures are drawn with: shapes, labels, patterns that survive grey printing.

Lengths are SVG units (96 to the inch). Floats are fine here: they place ink, they judge nothing.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from fractions import Fraction
from html import escape

from generator.errors import Refusal
from generator.maths.amounts import amount_text
from generator.maths.exact import half_up
from generator.maths.units import parse_unit

Numbers = Mapping[str, Fraction | str]

WIDTH = 490  # as wide as the text column of a booklet
INK = "#16242b"
ACCENT = "#0e4d5c"
GREY = "#4a5a61"
PALE = "#e6eef0"

_PATTERNS = """<defs>\
<pattern id="stock" width="6" height="6" patternUnits="userSpaceOnUse">\
<path d="M-1 7L7 -1M-1 1L1 -1M5 7L7 5" stroke="#16242b" stroke-width="1.3"/></pattern>\
<pattern id="mix" width="7" height="7" patternUnits="userSpaceOnUse">\
<path d="M-1 -1L8 8M-1 6L1 8M6 -1L8 1" stroke="#0e4d5c" stroke-width="0.8"/></pattern>\
<pattern id="soap" width="8" height="8" patternUnits="userSpaceOnUse">\
<circle cx="2" cy="2" r="1.3" fill="#16242b"/><circle cx="6" cy="6" r="1.3" fill="#16242b"/>\
</pattern>\
<pattern id="water" width="14" height="9" patternUnits="userSpaceOnUse">\
<path d="M0 5Q3.5 2 7 5T14 5" fill="none" stroke="#0e4d5c" stroke-width="0.8"/></pattern>\
</defs>"""
STOCK, MIX, SOAP, WATER = "url(#stock)", "url(#mix)", "url(#soap)", "url(#water)"


def positive(figure: str, numbers: Numbers, *names: str) -> tuple[Fraction, ...]:
    """The numbers of those names. Raises Refusal unless each is a number above zero."""
    values = []
    for name in names:
        value = numbers[name]
        if not isinstance(value, Fraction) or value <= 0:
            raise undrawable(figure, f"{name} is {value}", "give a number above zero")
        values.append(value)
    return tuple(values)


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


def parts(count: Fraction, of: str) -> str:
    """`3 parts water`, `1 part soap`."""
    return f"{said(count, '1')} {'part' if count == 1 else 'parts'} {of}"


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
    size: float = 13,
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
    under = shape("rect", **frame, fill="#ffffff") if fill.startswith("url") else ""
    return under + shape("rect", **frame, fill=fill, stroke=INK, stroke_width=1.2)


def line(
    x1: float, y1: float, x2: float, y2: float, *, dashed: bool = False, thick: float = 1.2
) -> str:
    """A straight stroke."""
    dashes = {"stroke_dasharray": "5 4"} if dashed else {}
    return shape("line", x1=x1, y1=y1, x2=x2, y2=y2, stroke=INK, stroke_width=thick, **dashes)


def arrow(x1: float, y1: float, x2: float, y2: float, *, dashed: bool = False) -> str:
    """A stroke with a head at its second end."""
    length = ((x2 - x1) ** 2 + (y2 - y1) ** 2) ** 0.5
    along, across = (x2 - x1) / length, (y2 - y1) / length
    back_x, back_y = x2 - 9 * along, y2 - 9 * across
    head = (
        f"{x2:.2f},{y2:.2f} {back_x - 4 * across:.2f},{back_y + 4 * along:.2f} "
        f"{back_x + 4 * across:.2f},{back_y - 4 * along:.2f}"
    )
    stroke = line(x1, y1, back_x, back_y, dashed=dashed, thick=1.6)
    return stroke + shape("polygon", points=head, fill=INK)


def sheet(height: float, drawn: Iterable[str], width: float = WIDTH) -> str:
    """The whole drawing as an SVG document."""
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{width:g}" height="{height:g}" '
        f'viewBox="0 0 {width:g} {height:g}">{_PATTERNS}{"".join(drawn)}</svg>'
    )
