"""One of each product through two machine checkers of PDF/UA-1 (ISO 14289-1)."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from functools import partial
from pathlib import Path
from types import ModuleType

import outloud
import pdfua
import pytest

from generator.model.course import Curriculum
from generator.printing.guide import guide_html
from generator.printing.leaflet import leaflet_html
from generator.printing.pdf import Printer
from generator.printing.rig_card import rig_card, rig_card_html
from generator.printing.safety_figures import safety_figures_html
from generator.printing.sheets import sheet_html, sign_off_html

SAMPLES = ("booklet", "paper", "key", "slip", "board")
SHEETS = ("incident", "mix-log", "container-labels", "owner-checklist", "season-plan")
OTHERS = ("half booklet", "sign-off", "card", "head card", "leaflet", "guide", "safety figures")


def page_of(product: str, curriculum: Curriculum, samples: ModuleType) -> str:
    """The HTML of a product by name."""
    shop, sources, module = curriculum.shop, curriculum.sources, curriculum.modules["card"]
    if product in SAMPLES:
        html: str = samples.PRODUCTS[product]()
        return html
    if product in SHEETS:
        return sheet_html(shop, curriculum.sheets[product], sources)
    assert curriculum.handouts.card
    cards = [rig_card(shop, rig, curriculum.relations) for rig in shop.rigs]
    card_html = partial(rig_card_html, shop, words=curriculum.handouts.card, sources=sources)
    printed = date(2026, 4, 1)
    made: dict[str, Callable[[], str]] = {
        "sign-off": lambda: sign_off_html(shop, module),
        "guide": lambda: guide_html(shop, module),
        "leaflet": lambda: leaflet_html(shop, curriculum.handouts.leaflet),
        "card": lambda: card_html(card=cards[0], printed=printed),
        "head card": lambda: card_html(card=cards[1], printed=printed),
        "safety figures": lambda: safety_figures_html(
            shop, {module.id: module}, curriculum.stated, sources
        ),
        "half booklet": lambda: samples.booklet(half=True),
    }
    return made[product]()


@pytest.mark.parametrize("product", SAMPLES + SHEETS + OTHERS)
def test_no_checker_finds_a_fault(
    product: str, curriculum: Curriculum, samples: ModuleType, printer: Printer, tmp_path: Path
) -> None:
    page = page_of(product, curriculum, samples)
    path = str(printer.write(page, tmp_path / "product.pdf").path)

    report, result = pdfua.validate(path), outloud.check(path)

    assert report.pdfua_version == "PDF/UA-1"
    assert [str(finding) for finding in report.findings] == []
    assert result.error is None
    assert [
        f"{finding.rule}: {finding.message}"
        for finding in result.findings
        if finding.severity == "error"
    ] == []


def test_the_checkers_do_find_a_fault(printer: Printer, tmp_path: Path) -> None:
    skipped = (
        '<html lang="en"><head><title>T</title></head><body><h1>A</h1><h4>B</h4></body></html>'
    )
    path = str(printer.write(skipped, tmp_path / "product.pdf").path)

    assert [f.rule for f in outloud.check(path).findings if f.severity == "error"] == ["HDG-001"]
