"""Large print: 18 points and more everywhere, one column, room to write below each item."""

from __future__ import annotations

from collections.abc import Callable
from types import ModuleType
from typing import Any

import pytest
from weasyprint.formatting_structure.boxes import TextBox

from generator.printing.paper import paper_html


@pytest.fixture(scope="module")
def large(samples: ModuleType, lay_out: Callable[[str], Any]) -> Any:
    """The sample papers in large print."""
    return lay_out(paper_html(samples.SHOP, samples.PAPERS, samples.STRIP, large=True))


def test_no_letter_is_smaller_than_18_points(large: Any) -> None:
    sizes = {
        box.style["font_size"] * 0.75: box.text
        for page in large._pages
        for box in page.descendants()
        if isinstance(box, TextBox) and box.text.strip()
    }
    assert min(sizes) >= 18, sizes[min(sizes)]


def test_the_room_to_write_lies_below_the_item_across_the_page(large: Any) -> None:
    rooms, items = large.boxes("below"), large.boxes("main")
    assert rooms
    assert not large.boxes("space")
    for room in rooms:
        item = next(i for i in items if i.page == room.page and i.top <= room.top < i.bottom)
        assert room.bottom - room.top > 150
        assert room.right - room.left > 0.95 * (item.right - item.left)
        assert room.bottom <= item.bottom + 1
        assert room.bottom < large.sizes[0][1] - 60


def test_nothing_runs_off_the_page_and_no_item_is_torn(large: Any) -> None:
    width, height = large.sizes[0]
    for box in large.boxes("item"):
        assert box.right < width
        assert box.bottom < height
    items = [box.element for box in large.boxes("item")]
    assert len(items) == len(set(items))


def test_the_rules_name_the_box_below(large: Any) -> None:
    assert "Use the box below each item for your working." in large.text(1)
