"""A tank that is not empty: what is in it, then water, then stock, up to the mix wanted."""

from __future__ import annotations

from generator.printing.figures.pen import (
    HEAD,
    MIX,
    STOCK,
    WATER,
    Numbers,
    label,
    positive,
    said,
    sheet,
    undrawable,
)
from generator.printing.figures.tank import HEIGHT, Layer, tank

NEEDS = ("have_gal", "have_pct", "want_gal", "want_pct", "stock")


def draw(numbers: Numbers) -> str:
    """Gallons and percents of what there is and what is wanted, and the stock in %."""
    have, have_pct, want, want_pct, stock = positive("top-up", numbers, *NEEDS)
    amount = (want * want_pct - have * have_pct) / stock
    water = want - have - amount
    if amount < 0:
        raise undrawable("top-up", "the tank is too strong already", "lower have_pct")
    if water < 0:
        raise undrawable("top-up", "even all stock can't get there", "lower want_pct")
    layers = [
        Layer(have, MIX, f"in the tank: {said(have, 'gal')} at {said(have_pct, '%')}"),
        Layer(water, WATER, f"add water: {said(water, 'gal')}"),
        Layer(amount, STOCK, f"add {said(stock, '%')} stock: {said(amount, 'gal')}"),
    ]
    makes = f"Wanted: {said(want, 'gal')} at {said(want_pct, '%')}"
    return sheet(HEIGHT, [label(1, 16, makes, size=HEAD, bold=True), *tank(layers, want)])
