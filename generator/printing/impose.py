"""Half-size pages laid two to a sheet for a duplex printer: print, fold, staple in the fold.

Print the copy on both sides, flipped on the short edge. It is for paper only: it carries no tags.
"""

from __future__ import annotations

from collections.abc import Iterator
from io import BytesIO
from pathlib import Path

from pikepdf import Name, Object, Page, Pdf

from generator.printing.writing import write_whole


def spreads(pages: int) -> Iterator[tuple[int, int]]:
    """The pages, counted from 1, left and right on each side of each sheet, outermost first.

    A count that four does not divide is filled up with empty pages at the end.

    >>> list(spreads(8))
    [(8, 1), (2, 7), (6, 3), (4, 5)]
    """
    whole = -(-pages // 4) * 4
    for side in range(whole // 2):
        low, high = side + 1, whole - side
        yield (low, high) if side % 2 else (high, low)


def impose(pages: Path, copy: Path) -> int:
    """Lay the pages of one file out for folding in another; how many sides that makes.

    Raises Refusal when the copy can't be written.
    """
    with Pdf.open(pages) as source, Pdf.new() as made:
        _, _, width, height = map(float, list(source.pages[0].mediabox))
        for pair in spreads(len(source.pages)):
            side = made.add_blank_page(page_size=(2 * width, height))
            for place, number in enumerate(pair):
                if number <= len(source.pages):
                    drawn = made.copy_foreign(source.pages[number - 1].as_form_xobject())
                    _lay(drawn, Name(f"/Page{number}"), side, place * width)
        made.docinfo["/Title"] = str(source.docinfo.get("/Title", pages.stem))
        written = BytesIO()
        made.save(written, deterministic_id=True)
        write_whole(copy, written.getvalue())
        return len(made.pages)


def _lay(drawn: Object, name: Name, side: Page, left: float) -> None:
    """Draw a page on a side, its left edge so many points from that of the sheet.

    pikepdf's own overlay names what it draws at random, so no two copies would be the same.
    """
    side.add_resource(drawn, Name.XObject, name)
    side.contents_add(f"q 1 0 0 1 {left:g} 0 cm {name} Do Q".encode())


def page_count(path: Path) -> int:
    """The pages of a PDF; 0 for the HTML that is written where Pango is missing."""
    if path.suffix != ".pdf":
        return 0
    with Pdf.open(path) as pdf:
        return len(pdf.pages)
