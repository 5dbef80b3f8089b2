"""A tank filled in the right order: water to one line, then stock up to the next."""

from __future__ import annotations

from fractions import Fraction

from generator.printing.figures.pen import (
    HEAD,
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

NEEDS = ("stock", "target", "total", "amount")


def draw(numbers: Numbers) -> str:
    """Stock and target in %, total and amount (of stock) in gal."""
    stock, target, total, amount = positive("batch-bar", numbers, *NEEDS)
    if amount > total:
        raise undrawable("batch-bar", "amount is more than total", "check the two numbers")
    layers = [
        Layer(total - amount, WATER, _water_words(total - amount)),
        Layer(amount, STOCK, f"then {said(amount, 'gal')} of {said(stock, '%')} stock"),
    ]
    makes = f"Makes {said(total, 'gal')} at {said(target, '%')}"
    return sheet(HEIGHT, [label(1, 16, makes, size=HEAD, bold=True), *tank(layers, total)])


def _water_words(water: Fraction) -> str:
    return f"first water, to the {said(water, 'gal')} mark" if water else ""
