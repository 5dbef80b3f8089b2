"""The key: one line an item on one page, must-gets marked, the working behind it."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

Pages = Callable[[str], Any]


def test_twenty_four_items_stand_on_the_first_page_one_line_each(pages: Pages) -> None:
    key = pages("key")
    first = key.text(1)

    assert "TRAINER ONLY" in first
    assert "7K3Q-M" in first
    assert "2 3/4 gal 2.625 to 2.875 gal a 188 gal divided upside down" in first
    assert "24" in first.split("Slip c")[1].split()
    assert "The working behind it" in key.text(2)


def test_must_gets_have_a_shape_and_a_word(pages: Pages) -> None:
    first = pages("key").text(1)

    assert first.count("◆ must") == 3 + 1  # items 7, 8 and 9, and the line that explains it


def test_the_working_and_the_full_slips_follow(pages: Pages) -> None:
    behind = pages("key").boxes("solved")[0].text

    assert behind.startswith("1 2 3/4 gal stock to measure = strength wanted")
    assert "= 1.2 × 30 ÷ 12.5 = 2 3/4 gal" in behind
    assert "c 3.1 gal: added on top of a full tank" in behind


def test_each_key_counts_its_own_pages(pages: Pages) -> None:
    key = pages("key")
    numbers = [key.text(n).split("Page ")[-1] for n in range(1, len(key) + 1)]

    assert numbers == ["1 of 3", "2 of 3", "3 of 3", "1 of 2", "2 of 2"]
