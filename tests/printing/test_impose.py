"""Pages laid out for folding: in the right order, two to a side, the same bytes each time."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from types import ModuleType
from typing import Any

import pikepdf
import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.errors import Refusal
from generator.printing.impose import impose, page_count, spreads
from generator.printing.pdf import Printer

HALF = (
    '<!DOCTYPE html><html lang="en"><head><title>Pages</title>'
    "<style>@page {{ size: 5.5in 8.5in }} h1 {{ break-before: page }}</style></head>"
    "<body>{}</body></html>"
)


def leaves(sides: list[tuple[int, int]]) -> list[int]:
    """The pages in the order a reader turns them, once the sheets are nested and folded.

    A sheet has a front (left, right) and a back; flipped on the short edge, the back's left lies
    behind the front's right.
    """
    first: list[int] = []
    last: list[int] = []
    for front, back in zip(sides[::2], sides[1::2], strict=True):
        first += [front[1], back[0]]
        last = [back[1], front[0], *last]
    return first + last


@given(st.integers(1, 200))
def test_folded_and_nested_the_pages_are_in_order(pages: int) -> None:
    sides = list(spreads(pages))
    whole = -(-pages // 4) * 4

    assert len(sides) == whole // 2
    assert leaves(sides) == list(range(1, whole + 1))


@pytest.fixture(scope="module")
def pages(printer: Printer, tmp_path_factory: pytest.TempPathFactory) -> Callable[[int], Path]:
    """A file of so many half pages, each with its number."""
    folder = tmp_path_factory.mktemp("halves")

    def of(count: int) -> Path:
        body = "".join(f"<h1>Page {n}</h1>" for n in range(1, count + 1))
        return printer.write(HALF.format(body), folder / f"{count}.pdf").path

    return of


def overlays(path: Path) -> list[list[float]]:
    """For each side, where the left edge of each page laid on it stands."""
    found = []
    with pikepdf.open(path) as pdf:
        for page in pdf.pages:
            content = pikepdf.parse_content_stream(page)
            found.append([float(i.operands[4]) for i in content if str(i.operator) == "cm"])
    return found


@pytest.mark.parametrize(("count", "sides"), [(8, 4), (6, 4), (1, 2), (12, 6)])
def test_two_pages_to_a_side_of_the_whole_sheet(
    count: int, sides: int, pages: Callable[[int], Path], tmp_path: Path
) -> None:
    copy = tmp_path / "copy.pdf"

    assert impose(pages(count), copy) == sides == page_count(copy)
    with pikepdf.open(copy) as pdf:
        assert {tuple(map(int, page.mediabox)) for page in pdf.pages} == {(0, 0, 792, 612)}
        assert str(pdf.docinfo["/Title"]) == "Pages"
    assert sum(map(len, overlays(copy))) == count


def test_the_same_bytes_twice(pages: Callable[[int], Path], tmp_path: Path) -> None:
    impose(pages(8), tmp_path / "one.pdf")
    impose(pages(8), tmp_path / "two.pdf")

    assert (tmp_path / "one.pdf").read_bytes() == (tmp_path / "two.pdf").read_bytes()


def test_a_folder_that_cannot_be_written_is_a_refusal(
    pages: Callable[[int], Path], tmp_path: Path
) -> None:
    (tmp_path / "file").write_text("in the way")

    with pytest.raises(Refusal, match=r"copy\.pdf can't be written"):
        impose(pages(1), tmp_path / "file" / "copy.pdf")


def test_a_page_for_the_browser_has_no_count(tmp_path: Path) -> None:
    assert page_count(tmp_path / "page.html") == 0


def test_a_booklet_on_half_pages_keeps_everything_on_the_page(
    samples: ModuleType, lay_out: Callable[[str], Any]
) -> None:
    whole = lay_out(samples.booklet())
    half = lay_out(samples.booklet(half=True))
    width, height = half.sizes[0]

    assert (round(width), round(height)) == (528, 816)
    assert len(half) > len(whole)
    for kind in ("caution", "example", "practice", "check"):
        boxes = half.boxes(kind)
        assert boxes
        assert [box.text for box in boxes if box.right > width or box.bottom > height] == []
