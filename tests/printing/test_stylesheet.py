"""Styles: every text stands out from what lies behind it (WCAG 2.2, 1.4.3: 4.5 to 1)."""

from __future__ import annotations

import re
from collections.abc import Iterator

import pytest

from generator.printing import signs
from generator.printing.environment import HERE
from generator.printing.figures import pen
from generator.printing.stylesheet import STYLES, for_phone

INK, PAPER = "#16242b", "#ffffff"
TEMPLATES = HERE / "templates"
NAMED = {"#fff": "#ffffff", "#000": "#000000"}


def contrast(one: str, other: str) -> float:
    """The contrast of two colours, from 1 to 21."""
    light, dark = sorted((_luminance(one), _luminance(other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


def _luminance(colour: str) -> float:
    shares = [int(colour[at : at + 2], 16) / 255 for at in (1, 3, 5)]
    red, green, blue = (s / 12.92 if s <= 0.03928 else ((s + 0.055) / 1.055) ** 2.4 for s in shares)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def rules() -> Iterator[tuple[str, dict[str, str]]]:
    """Every innermost rule: its selector and declarations."""
    for path in sorted(STYLES.glob("*.css")):
        text = re.sub(r"/\*.*?\*/", "", path.read_text("utf-8"), flags=re.DOTALL)
        for selector, body in re.findall(r"([^{}]+)\{([^{}]*)\}", text):
            pairs = (line.split(":", 1) for line in body.split(";") if ":" in line)
            yield selector.strip(), {name.strip(): value.strip() for name, value in pairs}


COLOURED = [
    (selector, NAMED.get(rule.get("color", INK), rule.get("color", INK)),
     NAMED.get(rule.get("background", PAPER), rule.get("background", PAPER)))
    for selector, rule in rules()
    if rule.get("color", "").startswith("#") or "background" in rule
]  # fmt: skip


@pytest.mark.parametrize(("selector", "ink", "ground"), COLOURED)
def test_text_stands_out(selector: str, ink: str, ground: str) -> None:
    assert contrast(ink, ground) >= 4.5


def test_text_stands_out_in_figures() -> None:
    assert min(contrast(ink, PAPER) for ink in (pen.INK, pen.ACCENT, pen.GREY)) >= 4.5


def test_the_measure_is_right() -> None:
    """Published: #767676 on white is 4.54, #777777 is 4.48 (W3C, understanding 1.4.3)."""
    assert round(contrast("#767676", PAPER), 2) == 4.54
    assert round(contrast("#777777", PAPER), 2) == 4.48


def test_the_alert_triangle_stands_beside_all_but_a_notice() -> None:
    """ANSI Z535.4: NOTICE is not about injury and carries no alert symbol."""
    drawn = {word: signs.alert(word) for word in ("danger", "warning", "caution", "notice")}

    assert drawn.pop("notice") == ""
    assert len(set(drawn.values())) == 3


def test_no_more_than_one_level_of_flex_or_grid() -> None:
    assert [s for s, rule in rules() if rule.get("display") in ("flex", "grid")] == []


def test_every_class_that_is_styled_stands_in_a_template() -> None:
    """Signal words and the states of the board are put in as values."""
    values = {"danger", "warning", "caution", "notice", "may", "may-not", "on-the-way"}
    templates = "".join(path.read_text("utf-8") for path in TEMPLATES.glob("*.html"))
    in_templates = set(re.findall(r"[a-z][\w-]*", templates))
    styled = {name for selector, _ in rules() for name in re.findall(r"\.([a-z][\w-]*)", selector)}

    assert len(styled) > 200
    assert sorted(styled - in_templates - values) == []


def test_a_page_for_the_phone_fetches_nothing() -> None:
    html = for_phone("<html><head><title>x</title></head><body></body></html>")

    assert "max-width: 40rem" in html
    assert re.findall(r"url\(|@import|src=", html) == []


def test_no_style_asks_for_a_feature_of_the_font() -> None:
    """WeasyPrint never gives back what it takes for one, line by line: 7 MB for ten papers."""
    styles = "".join(path.read_text("utf-8") for path in (HERE / "styles").glob("*.css"))
    assert "font-variant" not in styles
    assert "font-feature" not in styles
