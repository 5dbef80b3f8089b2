"""The one family of styles, and the one font all pages are set in."""

from __future__ import annotations

from base64 import b64encode
from collections.abc import Callable
from functools import lru_cache
from pathlib import Path

import font_source_sans_pro

STYLES = Path(__file__).parent / "styles"
FONTS = Path(font_source_sans_pro.font_directory)
_SHEETS = (
    "base", "booklet", "paper", "key", "slip", "board", "sheet", "card", "leaflet", "guide", "fold",
    "stats", "files", "large", "script",
)  # fmt: skip
_FACES = (  # file, weight, style
    ("Regular", 400, "normal"),
    ("It", 400, "italic"),
    ("Semibold", 600, "normal"),
    ("Bold", 700, "normal"),
    ("BoldIt", 700, "italic"),
)


def stylesheet(address: Callable[[Path], str]) -> str:
    """All styles as one sheet; `address` says where the sheet finds a font file."""
    faces = (
        f'@font-face {{ font-family: "Source Sans Pro"; font-weight: {weight}; '
        f"font-style: {style}; src: url({address(FONTS / f'SourceSansPro-{file}.ttf')}); }}"
        for file, weight, style in _FACES
    )
    sheets = ((STYLES / f"{name}.css").read_text("utf-8") for name in _SHEETS)
    return "\n".join((*faces, *sheets))


def standing_alone(html: str) -> str:
    """The page with styles and fonts inside it, ready for any browser."""
    return html.replace("<head>", f"<head>\n<style>{stylesheet(_inside)}</style>", 1)


def _inside(font: Path) -> str:
    return f"data:font/ttf;base64,{b64encode(font.read_bytes()).decode()}"


@lru_cache(maxsize=1)
def letters_of_font() -> frozenset[str]:
    """Every character the font can print."""
    from fontTools.ttLib import TTFont

    with TTFont(FONTS / "SourceSansPro-Regular.ttf", lazy=True) as font:
        return frozenset(map(chr, font.getBestCmap()))
