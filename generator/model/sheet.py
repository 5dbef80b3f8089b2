"""Sheets to fill in: a title, for whom, and blocks from top to bottom."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import ClassVar

from generator.model.course import Caution

LONGEST = 120
"""A line to write on, in mm, beyond which it runs to the edge of the page."""


@dataclass(frozen=True)
class Field:
    """Words and lines to write on, in turn; a line is its length in mm."""

    pieces: tuple[str | int, ...]

    @property
    def whole(self) -> bool:
        """Whether it takes the page's whole width."""
        return any(isinstance(piece, int) and piece > LONGEST for piece in self.pieces)


@dataclass(frozen=True)
class Words:
    """A text in Markdown."""

    kind: ClassVar[str] = "text"
    title: str
    text: str


@dataclass(frozen=True)
class Fields:
    """Lines to write on, side by side as far as they go."""

    kind: ClassVar[str] = "fields"
    title: str
    asks: tuple[Field, ...]


@dataclass(frozen=True)
class Choose:
    """Boxes in a row, one of which is ticked."""

    kind: ClassVar[str] = "choose"
    title: str
    ask: str
    options: tuple[str, ...]


@dataclass(frozen=True)
class Checks:
    """Lines to check, each with the same boxes."""

    kind: ClassVar[str] = "checks"
    title: str
    boxes: tuple[str, ...]
    lines: tuple[str, ...]


@dataclass(frozen=True)
class Column:
    """A column of a ruled table; `width` is its share beside the others."""

    head: str
    width: Fraction


@dataclass(frozen=True)
class Ruled:
    """A table to fill in: so many empty rows of a height in mm, after the rows of `first` words."""

    kind: ClassVar[str] = "table"
    title: str
    columns: tuple[Column, ...]
    rows: int
    height: Fraction
    first: tuple[str, ...] = ()

    def percent(self, column: Column) -> str:
        """The column's share of the page, for a style."""
        whole = sum(each.width for each in self.columns)
        return f"{float(column.width / whole):.3%}"


@dataclass(frozen=True)
class Write:
    """A question with so many lines for the answer."""

    kind: ClassVar[str] = "write"
    title: str
    ask: str
    lines: int


@dataclass(frozen=True)
class Sign:
    """A signature and a date for each."""

    kind: ClassVar[str] = "sign"
    title: str
    who: tuple[str, ...]


@dataclass(frozen=True)
class Formulas:
    """Formulas of relations, in words."""

    kind: ClassVar[str] = "formulas"
    title: str
    lines: tuple[str, ...]


@dataclass(frozen=True)
class Warn:
    """A caution as lessons print it."""

    kind: ClassVar[str] = "caution"
    title: str
    caution: Caution


@dataclass(frozen=True)
class Settled:
    """Every question only the owner can settle, with the answer given or room for it."""

    kind: ClassVar[str] = "settled"
    title: str


@dataclass(frozen=True)
class Reviews:
    """The review days of a season of so many days, with room for what came of them."""

    kind: ClassVar[str] = "reviews"
    title: str
    days: int


@dataclass(frozen=True)
class Cut:
    """The same blocks once for each name, side by side, to be cut out."""

    kind: ClassVar[str] = "cut"
    title: str
    across: int
    names: tuple[str, ...]
    blocks: tuple[Block, ...]


Block = (
    Words
    | Fields
    | Choose
    | Checks
    | Ruled
    | Write
    | Sign
    | Formulas
    | Warn
    | Settled
    | Reviews
    | Cut
)


@dataclass(frozen=True)
class Sheet:
    """One sheet; `sideways` when the page lies on its long side."""

    id: str
    title: str
    whom: str
    sideways: bool
    blocks: tuple[Block, ...]
    sources: tuple[str, ...] = ()
