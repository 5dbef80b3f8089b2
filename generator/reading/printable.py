"""Texts that no page could show as they are written: told with their line, before any printing."""

from __future__ import annotations

import re
from collections.abc import Iterator
from itertools import zip_longest

from generator.reading.lookups import BRACED
from generator.reading.tables import TABLE, cells
from generator.words.letters import lacking

WIDEST, LONGEST = 56, 40
"""Letters that the longest words of a table's columns may come to, and of one word anywhere."""

_IMAGE = re.compile(r"!\[[^\[\]]*\](?:\(|\[)")
_WORD = re.compile(rf"[^\W_]{{{LONGEST + 1},}}")


def unprintable(text: str) -> Iterator[tuple[int, str, str]]:
    """What can't be printed: how far below the first line, what is wrong, and what to do."""
    if len(text) <= LONGEST and text.isascii() and "![" not in text:
        return  # most texts
    if lacking(text):
        for below, line in enumerate(text.split("\n")):
            if signs := lacking(line):
                what = f'the font of the pages has no "{signs[0]}" (U+{ord(signs[0]):04X})'
                yield below, what, "write it another way"
    for found in _IMAGE.finditer(text):
        what = "a picture from a file can't be printed"
        yield _below(text, found), what, "draw it with figures: of the lesson"
    for found in _WORD.finditer(text):
        what = f'"{found[0][:20]}…" is a word of {len(found[0])} letters'
        yield _below(text, found), what, "break it up: a line has no room for it"
    if "|" in text:
        for found in TABLE.finditer(text):
            if (width := _width(found[0])) > WIDEST:
                what = f"the table is wider than a page ({width} letters, {WIDEST} at most)"
                yield _below(text, found), what, "use fewer columns, or shorter words"


def _below(text: str, found: re.Match[str]) -> int:
    return text.count("\n", 0, found.start())


def _width(table: str) -> int:
    """Letters of the longest word of each column, which can't be broken, and a gap for each."""
    rows = cells(BRACED.sub("00000", table))  # about a number and its unit
    columns = (" ".join(column) for column in zip_longest(*rows, fillvalue=""))
    return sum(1 + max(map(len, column.split()), default=0) for column in columns)
