"""The running texts of a lesson's file, each with its line: for what `check` says of wording."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from generator.reading.lookups import BRACED
from generator.reading.nodes import Document, Path_
from generator.reading.texts import texts


@dataclass(frozen=True)
class Passage:
    """A paragraph, or a text that stands by itself.

    `kind` is "paragraph", "caution", "first-action" or "line". Look-ups still stand in `text`.
    """

    kind: str
    text: str
    line: int

    @property
    def read(self) -> str:
        """The text as it is read, a figure in the place of each look-up."""
        return BRACED.sub("1", self.text)


def passages(document: Document) -> Iterator[Passage]:
    """Every passage of a lesson in the order of the file; tables are left out."""
    for path, text, _ in texts(document.data):
        kind = _kind(document.data, path)
        if kind == "paragraph":
            yield from _paragraphs(text, document.line(path))
        elif text:
            yield Passage(kind, text, document.line(path))


def is_lesson(document: Document) -> bool:
    """Whether the file holds a lesson."""
    return isinstance(document.data, dict) and "points" in document.data


def _kind(data: Any, path: Path_) -> str:
    if path[0] == "cautions" and path[-1] != "title":
        caution = data["cautions"][path[1]]
        urgent = caution.get("signal") == "danger" and path[-1] == "do"
        return "first-action" if urgent else "caution"
    return "paragraph" if path[-1] in ("why", "text") and path[0] in ("why", "points") else "line"


def _paragraphs(text: str, line: int) -> Iterator[Passage]:
    """The paragraphs of a text, at the lines they start on when it is a block (why: |)."""
    line += "\n" in text  # the block starts below its key
    for part in re.split(r"\n[ \t]*\n", text):
        rows = part.count("\n") + 2
        prose = "\n".join(row for row in part.splitlines() if not row.lstrip().startswith("|"))
        if prose.strip():
            yield Passage("paragraph", prose.strip(), line)
        line += rows
