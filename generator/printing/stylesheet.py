"""The one family of styles, and the one font all pages are set in."""

from __future__ import annotations

from base64 import b64encode
from collections.abc import Callable
from pathlib import Path

from generator.words.letters import FONTS

STYLES = Path(__file__).parent / "styles"
_SHEETS = (
    "base", "booklet", "paper", "key", "slip", "board", "sheet", "card", "leaflet", "guide", "fold",
    "stats", "files", "large", "script", "list",
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
    return "\n".join((*faces, *map(_read, _SHEETS)))


def standing_alone(html: str) -> str:
    """The page with styles and fonts inside it, ready for any browser."""
    return _with_styles(html, f"{stylesheet(_inside)}\n{_read('browser')}")


def for_phone(html: str) -> str:
    """The page with its styles inside it in one column, in the phone's own font."""
    return _with_styles(html, "\n".join(map(_read, (*_SHEETS, "phone"))))


def _with_styles(html: str, styles: str) -> str:
    return html.replace("<head>", f"<head>\n<style>{styles}</style>", 1)


def _read(name: str) -> str:
    return (STYLES / f"{name}.css").read_text("utf-8")


def _inside(font: Path) -> str:
    return f"data:font/ttf;base64,{b64encode(font.read_bytes()).decode()}"
