"""A mix that is diluted twice: in the bucket, then where the siphon joins the water."""

from __future__ import annotations

from fractions import Fraction

from generator.printing.figures.pen import (
    BIG,
    HEAD,
    MIX,
    STOCK,
    WATER,
    Numbers,
    arrow,
    box,
    label,
    positive,
    said,
    sheet,
)

NEEDS = ("stock", "bleach_gal", "water_gal", "draw_gpm", "machine_gpm")


def draw(numbers: Numbers) -> str:
    """Stock in %, gallons in the bucket, gpm the siphon draws and the machine puts out."""
    stock, bleach, water, drawn, machine = positive("two-stage", numbers, *NEEDS)
    bucket = stock * bleach / (bleach + water)
    wall = bucket * drawn / (drawn + machine)
    return sheet(
        222,
        [
            *_bucket(bleach / (bleach + water), said(bleach, "gal"), said(water, "gal")),
            label(60, 196, f"bucket: {said(bucket, '%')}", anchor="middle", size=HEAD, bold=True),
            label(60, 214, f"from {said(stock, '%')} stock", anchor="middle"),
            *_stream(drawn / (drawn + machine), said(drawn, "gpm"), said(machine, "gpm")),
            arrow(344, 108, 382, 108),
            label(392, 96, "on the wall"),
            label(392, 122, said(wall, "%"), size=BIG, bold=True),
        ],
    )


def _bucket(share: Fraction, bleach: str, water: str) -> list[str]:
    return [
        label(1, 16, "1  In the bucket", size=HEAD, bold=True),
        label(1, 36, f"{bleach} stock"),
        label(1, 53, f"+ {water} water"),
        box(12, 62, 96, 114 * (1 - float(share)), WATER),
        box(12, 176 - 114 * float(share), 96, 114 * float(share), STOCK),
    ]


def _stream(share: Fraction, drawn: str, machine: str) -> list[str]:
    height = max(114 * float(share), 6)
    return [
        label(206, 16, "2  In the water of the machine", size=HEAD, bold=True),
        label(206, 36, f"{drawn} from the bucket"),
        label(206, 53, f"+ {machine} water"),
        box(206, 62, 130, 114 - height, WATER),
        box(206, 176 - height, 130, height, MIX),
        label(156, 166 - height / 2, "siphon", anchor="middle"),
        arrow(112, 176 - height / 2, 202, 176 - height / 2),
    ]
