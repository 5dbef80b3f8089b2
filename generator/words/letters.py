"""The one font of all pages, and the letters it has."""

from __future__ import annotations

from functools import lru_cache
from pathlib import Path

import font_source_sans_pro

FONTS = Path(font_source_sans_pro.font_directory)
_USUAL = {*map(chr, (*range(0x20, 0x7F), *range(0xA0, 0x17F))), *"\t\n–—‘’“”…→−√π"}


def lacking(text: str) -> list[str]:
    """The signs of a text that the font lacks: they would print as a box, or look odd."""
    if text.isascii():  # signs that nobody sees are refused elsewhere
        return []
    odd = set(text) - _USUAL  # nearly always none, and the font need not be opened
    return sorted(odd - letters_of_font()) if odd else []


@lru_cache(maxsize=1)
def letters_of_font() -> frozenset[str]:
    """Every character the font can print."""
    from fontTools.ttLib import TTFont

    with TTFont(FONTS / "SourceSansPro-Regular.ttf", lazy=True) as font:
        return frozenset(map(chr, font.getBestCmap()))
