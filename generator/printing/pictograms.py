"""Pictograms of what to wear: white on a round blue field, plain enough to survive a copier."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from functools import lru_cache

from generator.errors import Refusal, nearest
from generator.printing.environment import picture
from generator.printing.figures.pen import shape, sheet

MUST = "#0059a3"
WHITE = "#ffffff"


@lru_cache(maxsize=32)
def pictogram(name: str) -> str:
    """The round sign of a thing to wear as an image address. Raises Refusal."""
    if name not in WEAR:
        raise Refusal(f'there is no pictogram "{name}"', nearest(name, WEAR))
    field = shape("circle", cx=50, cy=50, r=49, fill=MUST)
    return picture(sheet(100, [field, *WEAR[name]()], width=100))


def _head() -> str:
    return shape("path", d="M26 44A24 26 0 0 1 74 44V56A24 30 0 0 1 26 56Z", fill=WHITE)


def _goggles() -> list[str]:
    return [
        _head(),
        shape("rect", x=18, y=40, width=64, height=7, fill=MUST),
        shape("rect", x=24, y=36, width=52, height=20, rx=9, fill=MUST),
        shape("rect", x=29, y=40, width=18, height=12, rx=5, fill=WHITE),
        shape("rect", x=53, y=40, width=18, height=12, rx=5, fill=WHITE),
    ]


def _shield() -> list[str]:
    return [
        _head(),
        shape("rect", x=22, y=26, width=56, height=9, rx=3, fill=MUST),
        shape("path", d="M24 35H76V66Q50 92 24 66Z", fill="none", stroke=MUST, stroke_width=5),
        shape("path", d="M21 26H79V68Q50 97 21 68Z", fill="none", stroke=WHITE, stroke_width=3.5),
    ]


def _gloves() -> list[str]:
    fingers = "M36 84V60L26 46Q24 40 30 41L38 50V24Q42 18 46 24V44V18Q50 12 54 18V44V22Q58 16 62 22"
    return [
        shape("path", d=f"{fingers}V48V32Q66 26 70 32V62L64 74V84Z", fill=WHITE),
        shape("rect", x=33, y=78, width=34, height=8, rx=2, fill=WHITE),
        shape("rect", x=33, y=75, width=34, height=2.4, fill=MUST),
    ]


def _apron() -> list[str]:
    return [
        shape("circle", cx=50, cy=22, r=10, fill=WHITE),
        shape("path", d="M30 36H70L78 66H70L66 50V88H34V50L30 66H22Z", fill=WHITE),
        shape("path", d="M42 38V46H58V38", fill="none", stroke=MUST, stroke_width=3),
        shape("path", d="M38 54H62V82H38Z", fill=MUST),
    ]


def _boots() -> list[str]:
    boot = "M{0} 20H{1}V58Q{2} 62 {2} 76H{0}Z"
    return [
        shape("path", d=boot.format(24, 40, 50), fill=WHITE),
        shape("path", d=boot.format(54, 70, 80), fill=WHITE),
        shape("rect", x=22, y=72, width=28, height=8, fill=WHITE),
        shape("rect", x=52, y=72, width=28, height=8, fill=WHITE),
        shape("rect", x=22, y=70, width=60, height=2.4, fill=MUST),
    ]


WEAR: Mapping[str, Callable[[], list[str]]] = {
    "goggles": _goggles,
    "shield": _shield,
    "gloves": _gloves,
    "apron": _apron,
    "boots": _boots,
}
