"""Samples, one Printer for all tests of printing, and pages laid out but not written."""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from importlib.util import module_from_spec, spec_from_file_location
from pathlib import Path
from types import ModuleType
from typing import Any

import pytest
import weasyprint
from weasyprint.text.fonts import FontConfiguration

from generator.printing.pdf import Printer
from generator.printing.stylesheet import stylesheet


@dataclass(frozen=True)
class Box:
    """A box on a page: its element, text and edges in CSS pixels."""

    page: int
    element: int
    text: str
    top: float
    bottom: float
    left: float
    right: float


class Pages:
    """A document as laid out: what stands on each page."""

    def __init__(self, document: Any) -> None:
        self.sizes = [(page.width, page.height) for page in document.pages]
        self._pages = [page._page_box for page in document.pages]

    def __len__(self) -> int:
        return len(self._pages)

    def text(self, page: int) -> str:
        """All words of a page, counted from 1, its margins included."""
        return _words(self._pages[page - 1])

    def boxes(self, wanted: str) -> list[Box]:
        """Every box of that class, in order of the pages."""
        return list(self._boxes(wanted))

    def _boxes(self, wanted: str) -> Iterator[Box]:
        for number, page in enumerate(self._pages, 1):
            seen = set()  # inner boxes without a name carry the element of their parent
            for box in page.descendants():
                if wanted in _classes(box) and id(box.element) not in seen:
                    seen.add(id(box.element))
                    top, left = box.position_y, box.position_x
                    bottom, right = top + box.margin_height(), left + box.margin_width()
                    yield Box(number, id(box.element), _words(box), top, bottom, left, right)


def _classes(box: Any) -> frozenset[str]:
    element = getattr(box, "element", None)
    return frozenset(element.get("class", "").split()) if element is not None else frozenset()


def _words(box: Any) -> str:
    found = (getattr(inner, "text", "") for inner in box.descendants())
    return " ".join(" ".join(found).replace("\u00a0", " ").split())


@pytest.fixture(scope="session")
def samples() -> ModuleType:
    """The module samples.py beside this file."""
    spec = spec_from_file_location("printing_samples", Path(__file__).parent / "samples.py")
    assert spec is not None
    assert spec.loader is not None
    module = module_from_spec(spec)
    sys.modules[spec.name] = module
    spec.loader.exec_module(module)
    return module


@pytest.fixture(scope="session")
def printer() -> Printer:
    """One Printer, as every printing process has."""
    return Printer()


@pytest.fixture(scope="session")
def lay_out() -> Callable[[str], Pages]:
    """HTML to pages, with the styles of every product."""
    fonts = FontConfiguration()
    css = weasyprint.CSS(string=stylesheet(lambda font: font.as_uri()), font_config=fonts)
    return lambda html: Pages(
        weasyprint.HTML(string=html).render(stylesheets=[css], font_config=fonts)
    )


@pytest.fixture(scope="session")
def pages(samples: ModuleType, lay_out: Callable[[str], Pages]) -> Callable[[str], Pages]:
    """The pages of a product of samples.py by name, each laid out once."""
    done: dict[str, Pages] = {}

    def of(product: str) -> Pages:
        if product not in done:
            done[product] = lay_out(samples.PRODUCTS[product]())
        return done[product]

    return of
