"""Figures: each draws what it is given, says its numbers with units, refuses what it can't draw."""

from __future__ import annotations

import re
from fractions import Fraction
from xml.etree import ElementTree as ET

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.errors import Refusal
from generator.printing.figures import FIGURES, draw
from generator.printing.figures.pen import label
from generator.printing.stylesheet import letters_of_font

# name, numbers, words that must stand in the drawing
CASES: list[tuple[str, dict[str, str], list[str]]] = [
    (
        "head-parts",
        {"stock": "12.5", "bleach": "3", "water": "6", "soap": "1"},
        ["3 parts stock of 12.5%", "1 part soap", "Stock is 3 of 10 parts", "On the wall: 3.75%"],
    ),
    (
        "head-parts",
        {"stock": "10", "bleach": "2", "water": "8", "soap": "0"},
        ["no soap", "On the wall: 2%"],
    ),
    (
        "drain-down",
        {"gal": "200", "out_gpm": "8", "in_gpm": "5"},
        ["falls 3 gpm", "dry after 66 min"],
    ),
    ("drain-down", {"gal": "90", "out_gpm": "4", "in_gpm": "4"}, ["never runs dry"]),
    ("drain-down", {"gal": "90", "out_gpm": "4", "in_gpm": "6"}, ["never runs dry"]),
    (
        "lanes",
        {"width_ft": "18", "disc_in": "20", "overlap": "0.3"},
        ["drive 18 ft", "15 passes, 20 in wide", "washed twice: 30%"],
    ),
    ("lanes", {"width_ft": "1", "disc_in": "20", "overlap": "0.3"}, ["1 pass, 20 in wide"]),
    (
        "stones-windows",
        {"radius_ft": "25", "glass_ft": "10"},
        ["people: 25 ft off", "bare glass: 10 ft off"],
    ),
    ("water-side", {}, ["1 tap", "6 unloader", "9 tip", "dashed: back to the tank"]),
    (
        "batch-bar",
        {"stock": "12.5", "target": "1.2", "total": "30", "amount": "2.88"},
        ["first water, to the 27.12 gal mark", "then 2.88 gal of 12.5% stock"],
    ),
    ("ratio-fraction", {"water_parts": "4"}, ["1 + 4 = 5 parts: 1/5", "1 + 3 = 4 parts: 1/4"]),
    (
        "two-stage",
        {"stock": "12.5", "bleach_gal": "3", "water_gal": "2", "draw_gpm": "0.8",
         "machine_gpm": "8"},
        ["bucket: 7.5%", "0.68%"],
    ),
    (
        "top-up",
        {"have_gal": "20", "have_pct": "1", "want_gal": "50", "want_pct": "3", "stock": "12.5"},
        ["in the tank: 20 gal at 1%", "add water: 19.6 gal", "add 12.5% stock: 10.4 gal"],
    ),
    ("ageing", {"new": "12.5", "half": "60"}, ["12.5%", "6.25%", "60"]),
]  # fmt: skip

# name, numbers, what the refusal must name
UNDRAWABLE: list[tuple[str, dict[str, str], str]] = [
    ("head-parts", {"stock": "12.5", "bleach": "0", "water": "6", "soap": "1"}, "bleach is 0"),
    ("head-parts", {"stock": "12.5", "bleach": "1", "water": "6", "soap": "-1"}, "soap is -1"),
    ("drain-down", {"gal": "-5", "out_gpm": "8", "in_gpm": "5"}, "gal is -5"),
    ("lanes", {"width_ft": "18", "disc_in": "20", "overlap": "1"}, "overlap is 1"),
    ("lanes", {"width_ft": "900", "disc_in": "16", "overlap": "0.5"}, "it takes"),
    ("batch-bar", {"stock": "10", "target": "2", "total": "5", "amount": "6"}, "amount is more"),
    ("ratio-fraction", {"water_parts": "1.5"}, "water_parts is 3/2"),
    ("ratio-fraction", {"water_parts": "21"}, "water_parts is 21"),
    (
        "top-up",
        {"have_gal": "20", "have_pct": "6", "want_gal": "30", "want_pct": "1", "stock": "10"},
        "too strong",
    ),
    (
        "top-up",
        {"have_gal": "20", "have_pct": "1", "want_gal": "21", "want_pct": "5", "stock": "10"},
        "even all stock",
    ),
    ("ageing", {"new": "12.5", "half": "0"}, "half is 0"),
]


def words(svg: str) -> list[str]:
    """The lines of text in a drawing; the drawing must be well-formed."""
    root = ET.fromstring(svg)
    return [text.text or "" for text in root.iter("{http://www.w3.org/2000/svg}text")]


def exact(numbers: dict[str, str]) -> dict[str, Fraction | str]:
    return {name: Fraction(value) for name, value in numbers.items()}


@pytest.mark.parametrize(("name", "numbers", "wanted"), CASES)
def test_says_its_numbers(name: str, numbers: dict[str, str], wanted: list[str]) -> None:
    said = " | ".join(words(draw(name, exact(numbers))))

    assert [text for text in wanted if text not in said] == []


@pytest.mark.parametrize(("name", "numbers", "what"), UNDRAWABLE)
def test_refuses_what_it_cannot_draw(name: str, numbers: dict[str, str], what: str) -> None:
    with pytest.raises(Refusal, match=re.escape(what)):
        draw(name, exact(numbers))


def test_every_figure_has_a_case() -> None:
    assert {name for name, *_ in CASES} == set(FIGURES)


@pytest.mark.parametrize("name", FIGURES)
def test_needs_are_what_it_uses(name: str) -> None:
    """The numbers of a case are exactly the needs, and each of them is missed when left out."""
    numbers = exact(next(numbers for case, numbers, _ in CASES if case == name))

    assert set(numbers) == FIGURES[name].needs
    for left_out in numbers:
        rest = {key: value for key, value in numbers.items() if key != left_out}
        with pytest.raises(Refusal, match=f"lacks {left_out}"):
            draw(name, rest)


def test_an_unknown_figure_is_named_with_the_nearest() -> None:
    with pytest.raises(Refusal, match='did you mean "batch-bar"'):
        draw("batch-bars", {})


def test_a_word_is_no_number() -> None:
    with pytest.raises(Refusal, match="water_parts is never"):
        draw("ratio-fraction", {"water_parts": "never"})


@pytest.mark.parametrize("name", FIGURES)
@settings(max_examples=60, deadline=None)
@given(data=st.data())
def test_draws_or_refuses_whatever_comes(name: str, data: st.DataObject) -> None:
    """Well-formed SVG whose letters the font has, or a Refusal: never anything else."""
    number = st.fractions(-10, 500, max_denominator=16)
    numbers = {need: data.draw(number, label=need) for need in sorted(FIGURES[name].needs)}
    try:
        drawn = draw(name, dict(numbers))
    except Refusal:
        return

    assert set("".join(words(drawn))) <= letters_of_font()


def test_words_are_escaped() -> None:
    """Text from a curriculum may hold what looks like markup."""
    assert ET.fromstring(label(0, 0, 'a < b & "c"')).text == 'a < b & "c"'
