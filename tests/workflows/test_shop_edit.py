"""An owner's edit of shop.yaml reaches every text, figure, page and problem."""

from __future__ import annotations

import html
import re
import shutil
from collections.abc import Iterator
from dataclasses import fields, is_dataclass
from fractions import Fraction
from typing import Any

import pytest

from generator.model.course import Curriculum, Lesson
from generator.printing.figures import draw
from generator.printing.rig_card import rig_card
from generator.reading.curriculum import Reading, read_all
from generator.workflows.booklet import html_of
from generator.workflows.drawing import draw_paper
from generator.workflows.place import starter
from generator.workflows.sheets import products

# In shop.yaml: (old line, new line). A stock, a tank, its reserve, a machine, a pump, a limit.
EDITS = [
    ("stock: [12.5, 10]", "stock: [11.7, 10]"),
    ("tank_gal: 275", "tank_gal: 263"),
    ("reserve_gal: 25", "reserve_gal: 31"),
    ("machine_gpm: 5.5", "machine_gpm: 5.2"),
    ("chemical_gpm: 7", "chemical_gpm: 6.3"),
    ("wind_mph: 12", "wind_mph: 11"),
]
OLD = ("12.5%", "275 gal", "250 gal", "5.5 gpm", "7 gpm")
NEW = ("11.7%", "263 gal", "232 gal", "5.2 gpm", "6.3 gpm")
LOOKED_UP = re.compile(
    r"\{shop\.(rig-1\.(tank|reserve|usable|machine|chemical)_g\w+|stock[.\d]*)\}"
)


@pytest.fixture(scope="module")
def edited(tmp_path_factory: pytest.TempPathFactory) -> Reading:
    folder = tmp_path_factory.mktemp("shop") / "curriculum"
    shutil.copytree(starter(), folder)
    path = folder / "shop.yaml"
    text = path.read_text("utf-8")
    for old, new in EDITS:
        assert old in text, f"the test is out of date: {old}"
        text = text.replace(old, new, 1)
    path.write_text(text, "utf-8")
    return read_all(folder)


@pytest.fixture(scope="module")
def after(edited: Reading) -> Curriculum:
    assert edited.faults == ()
    assert edited.curriculum
    return edited.curriculum


def texts(thing: Any) -> Iterator[str]:
    """Every text of a lesson, wherever it stands in it."""
    if isinstance(thing, str):
        yield thing
    elif isinstance(thing, tuple):
        for each in thing:
            yield from texts(each)
    elif is_dataclass(thing):
        for field in fields(thing):
            yield from texts(getattr(thing, field.name))


def count(wanted: str, said: Iterator[str] | list[str]) -> int:
    number = re.compile(rf"(?<![\d.,]){re.escape(wanted)}(?!\w)")
    return sum(len(number.findall(text.replace("\u00a0", " "))) for text in said)


def leaves(node: Any) -> Iterator[str]:
    """Every text of a file as its author wrote it."""
    if isinstance(node, str):
        yield node
    elif isinstance(node, dict | list):
        for each in node.values() if isinstance(node, dict) else node:
            yield from leaves(each)


def test_lessons_say_the_new_numbers_and_the_old_ones_only_where_they_are_typed(
    edited: Reading, after: Curriculum
) -> None:
    seen = 0
    for module in after.modules.values():
        for lesson in module.lessons:
            document = edited.documents[f"curriculum/modules/{module.id}/{lesson.id}.yaml"]
            own = list(leaves(document.data))
            for old in OLD:
                assert count(old, texts(lesson)) <= count(old, own), (module.id, lesson.id, old)
            if LOOKED_UP.search(" ".join(own)):
                seen += sum(count(new, texts(lesson)) for new in NEW)
    assert seen >= 20


def test_figures_are_drawn_from_the_new_numbers(curriculum: Curriculum, after: Curriculum) -> None:
    changed = 0
    for before, now in zip(lessons(curriculum), lessons(after), strict=True):
        for old, new in zip(before.figures, now.figures, strict=True):
            if old.numbers != new.numbers:
                changed += 1
                assert draw(old.figure, old.numbers) != draw(new.figure, new.numbers)
    assert changed >= 3


def lessons(curriculum: Curriculum) -> list[Lesson]:
    return [lesson for module in curriculum.modules.values() for lesson in module.lessons]


def test_problems_draw_the_new_numbers(curriculum: Curriculum, after: Curriculum) -> None:
    bound = 0
    for before, now in zip(curriculum.problems, after.problems, strict=True):
        for old, new in zip(before.choices, now.choices, strict=True):
            if old.rig and old.values != new.values:
                bound += 1
            if old.values == (Fraction("12.5"), Fraction(10)):
                bound += 1
                assert new.values == (Fraction("11.7"), Fraction(10))
    assert bound >= 10
    paper = draw_paper(after, after.modules["mixing"], "Juno", False, "P", seed="5a" * 16)
    stocks = [i.given["stock"] for i in paper.items if i.id in ("batch-stock", "top-up-stock")]
    assert stocks
    assert set(stocks) <= {Fraction("11.7"), Fraction(10)}


@pytest.mark.parametrize(
    ("module", "gone"),
    [("gear", ("275 gal", "5.5 gpm")), ("mixing", ("275 gal",))],  # mixing draws flows of its own
)
def test_booklets_say_the_new_numbers(
    module: str, gone: tuple[str, ...], curriculum: Curriculum, after: Curriculum
) -> None:
    before = html.unescape(html_of(curriculum, curriculum.modules[module]))
    now = html.unescape(html_of(after, after.modules[module]))
    assert [old for old in gone if count(old, [now])] == []
    assert any(count(old, [before]) for old in ("275 gal", "5.5 gpm", "12.5%"))
    assert any(count(new, [now]) for new in NEW)
    assert not any(count(new, [before]) for new in ("263 gal", "232 gal"))


def test_the_card_has_the_columns_of_the_new_stock(
    curriculum: Curriculum, after: Curriculum
) -> None:
    """13% was the column above 12.5%; above 11.7% it is 12%."""
    before, now = (rig_card(c.shop, c.shop.rigs[0], c.relations) for c in (curriculum, after))
    assert (before.columns[0], now.columns[0]) == (13, 12)
    assert before.number != now.number


@pytest.mark.parametrize(
    ("product", "old", "new"),
    [
        ("safety-figures", ("275 gal", "250 gal", "12 mph"), ("263 gal", "232 gal", "11 mph")),
        ("site-survey", ("12 mph",), ("11 mph",)),
        ("phone-gear", ("275 gal", "5.5 gpm"), ("263 gal", "5.2 gpm")),
    ],
)
def test_what_is_printed_says_the_new_numbers(
    product: str,
    old: tuple[str, ...],
    new: tuple[str, ...],
    curriculum: Curriculum,
    after: Curriculum,
) -> None:
    before, now = (html.unescape(products(c)[product].page()) for c in (curriculum, after))
    assert [each for each in old if not count(each, [before]) or count(each, [now])] == []
    assert [each for each in new if count(each, [before]) or not count(each, [now])] == []
