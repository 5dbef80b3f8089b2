"""Reteach this first: one page whatever happened, a bar for each item, every count in words too."""

from __future__ import annotations

import base64
import re
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from types import ModuleType
from typing import Any

import pikepdf
import pytest

from generator.model.shop import Shop
from generator.model.tally import Count, ItemTally, ModuleTally, Papers, SlipTally, Tally
from generator.printing.pdf import Printer
from generator.printing.stats import BARS, CELLS, SLIPS, bar, stats_html

LayOut = Callable[[str], Any]
LONG = "took the stock for water and the water for stock, and never saw it again"


@pytest.fixture
def shop(samples: ModuleType) -> Shop:
    made: Shop = samples.SHOP
    return made


def item(
    id: str, missed: int, of: int = 8, must: bool = False, lesson: str = "Ratios"
) -> ItemTally:
    tally = Tally(Count(missed, of), Count(1, 16), 8)
    return ItemTally(id, lesson, must, False, tally, "read 1 to 4 as one quarter", missed)


def slip(words: str, made: int) -> SlipTally:
    return SlipTally(words, ("ratio-strength",), ("Ratios",), Tally(Count(made, 8), Count(), 8))


def module(
    *items: ItemTally, slips: tuple[SlipTally, ...] = (), title: str = "Mixing"
) -> ModuleTally:
    return ModuleTally(
        "mixing", title, "mix", ("2024", "2025"), Papers(8, 16, 2, 1, 8), items, slips
    )


def test_it_says_first_what_to_teach_again(shop: Shop, lay_out: LayOut) -> None:
    tally = module(
        item("ratio-strength", 5, must=True),
        item("top-up", 2, lesson="Topping up"),
        slips=(slip("read 1 to 4 as one quarter", 5),),
    )
    text = lay_out(stats_html(shop, [tally], "2025-09-30", "ab12")).text(1)
    said = [
        "Reteach this first",
        "Ratio strength ◆: missed on 5 of 8 first tries.",
        "Teach again: Mixing, lesson “Ratios”.",
        "people read 1 to 4 as one quarter",
        "Top up Mixing: Topping up 2 of 8",
        "5 of 8 read 1 to 4 as one quarter. Ratio strength",
        "seasons 2024 to 2025",
        "2 later tries not counted; 1 paper marked by the total alone, not counted",
        "ab12",
    ]
    places = [text.index(words) for words in said]
    assert places == sorted(places)


def test_the_worst_of_all_modules_stands_first(shop: Shop, lay_out: LayOut) -> None:
    tallies = [module(item("one", 2), title="Gear"), module(item("two", 6), item("three", 4))]
    pages = lay_out(stats_html(shop, tallies, "2025-09-30", ""))
    words = [box.text.split()[0] for box in pages.boxes("row")]
    assert words == ["Two", "Three", "One"]


def test_practice_is_named_where_it_is_all_there_is(shop: Shop, lay_out: LayOut) -> None:
    only = replace(item("ratio", 0), missed=Tally(Count(), Count(3, 9), 4))
    text = lay_out(stats_html(shop, [module(only)], "2025-09-30", "")).text(1)
    assert "missed on 3 of 9 practice papers" in text
    assert "3 of 9 on practice papers" in text


def test_where_nothing_was_missed_it_says_so(shop: Shop, lay_out: LayOut) -> None:
    text = lay_out(stats_html(shop, [module(item("ratio", 0))], "2025-09-30", "")).text(1)
    assert "Nothing was missed." in text
    assert "What was missed" not in text


@pytest.mark.parametrize("page", ["letter", "a4"])
def test_it_is_one_page_whatever_there_is(shop: Shop, page: str, lay_out: LayOut) -> None:
    long = f"A title of a lesson that is {'very ' * 5}long"
    items = [item(f"a-long-name-for-a-problem-{n}", 9, 300, True, long) for n in range(40)]
    slips = tuple(slip(f"{LONG} {n}", 7) for n in range(40))
    tallies = [module(*items, slips=slips, title=f"Surface cleaning {n}") for n in range(13)]
    pages = lay_out(stats_html(replace(shop, page=page), tallies, "2025-09-30", "ab12"))
    assert len(pages) == 1
    assert len(pages.boxes("row")) == BARS
    assert len(pages.boxes("slip-line")) == SLIPS
    assert "104 first tries and 208 practice papers in 13 modules" in pages.text(1)


def test_the_printed_page_is_tagged_and_each_bar_has_words(
    shop: Shop, printer: Printer, tmp_path: Path
) -> None:
    html = stats_html(shop, [module(item("ratio", 5), item("top-up", 2))], "2025-09-30", "")
    assert re.findall(r'alt="([^"]*)"', html) == [
        "missed on 5 of 8 first tries",
        "missed on 2 of 8 first tries",
    ]
    printed = printer.write(html, tmp_path / "stats.pdf")
    assert printed.path.suffix == ".pdf"
    with pikepdf.open(printed.path) as pdf:
        assert len(pdf.pages) == 1
        assert pdf.Root.MarkInfo.Marked
        assert str(pdf.docinfo.Title).startswith("Reteach this first, Sep 30, 2025")


def widths(svg: str) -> list[float]:
    return [float(width) for width in re.findall(r'<rect[^>]* width="([\d.]+)"', svg)]


@pytest.mark.parametrize(
    ("missed", "of", "longest"), [(0, 8, 8), (5, 8, 8), (5, 8, 16), (9, 300, 300)]
)
def test_a_bar_is_as_black_as_papers_missed_it(missed: int, of: int, longest: int) -> None:
    whole, black, edge = widths(bar(Count(missed, of), longest))
    assert black == pytest.approx(whole * missed / of, abs=0.02)
    assert edge == whole == pytest.approx(248 * of / longest, abs=0.02)


@pytest.mark.parametrize("of", [1, 8, CELLS, CELLS + 1])
def test_papers_can_be_counted_while_they_are_few(of: int) -> None:
    lines = bar(Count(1, of), of).count("<line")
    assert lines == (of - 1 if of <= CELLS else 0)


def test_bars_are_black_and_white() -> None:
    colors = set(re.findall(r"#[0-9a-f]{6}", bar(Count(5, 8), 8)))
    assert colors == {"#1a1a1a", "#ffffff"}


def test_names_of_people_are_nowhere(shop: Shop) -> None:
    html = stats_html(shop, [module(item("ratio", 5))], "2025-09-30", "")
    pictures = re.findall(r"base64,([^\"]+)", html)
    drawn = " ".join(base64.b64decode(picture).decode() for picture in pictures)
    assert pictures
    assert "<text" not in drawn  # what a bar says stands beside it
