"""A class of 10, of 100 and of 1,000 papers with their keys: items and pages a second, memory."""

from __future__ import annotations

import shutil
import tempfile
from pathlib import Path

from timing import RIGPRIMER, ROOT, Ran, growth, ran

from generator.printing.impose import page_count

CLASSES, MANY = (10, 100), 1_000
MODULE, ITEMS = "mixing", 24


def main() -> None:
    """Print the figures of a small class and a large one, and how they grew."""
    runs = [figures(size) for size in CLASSES]
    print(f"  growth: {growth(*runs, CLASSES[1] / CLASSES[0])}")


def many() -> None:
    """The same for more papers than any class needs: half an hour."""
    figures(MANY)


def figures(size: int) -> float:
    """Print the figures of a class of that size; its seconds."""
    taken, pages, largest = printed(size)
    print(
        f"  {size} papers: {taken.seconds:.1f} s, {size * ITEMS / taken.seconds:.0f} items and "
        f"{pages / taken.seconds:.1f} pages a second, at most {taken.megabytes:.0f} MB, "
        f"{largest} pages in the largest file"
    )
    return taken.seconds


def printed(size: int) -> tuple[Ran, int, int]:
    """The run of the command, the pages it made, and those of its largest file."""
    with tempfile.TemporaryDirectory() as folder:
        shop = Path(folder)
        shutil.copytree(ROOT / "curriculum", shop / "curriculum")
        places = ["--curriculum", shop / "curriculum", "--records", shop / "records.sqlite3"]
        where = [str(word) for word in [*places, "--out", shop / "build"]]
        taken = ran([*RIGPRIMER, *where, "paper", MODULE, "--spare", str(size)])
        pages = [page_count(path) for path in shop.rglob("*.pdf")]
    return taken, sum(pages), max(pages)
