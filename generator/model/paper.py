"""A paper: one person's printed quiz."""

from __future__ import annotations

from dataclasses import dataclass

from generator.model.item import Item


@dataclass(frozen=True)
class Paper:
    """A paper as printed; it is marked by this, never drawn again.

    `seed` is 128 random bits in hex, `code` is independent of it. `person` is "" for a spare.
    """

    code: str
    seed: str
    module: str
    module_title: str
    edition: int
    curriculum: str  # digest
    person: str
    printed: str  # ISO date
    items: tuple[Item, ...]
    cut: int
    practice: bool = False
    language: str = "en"


@dataclass(frozen=True)
class Verdict:
    """What became of one written answer.

    `kind` is one of: right, right-other-unit, no-unit, wrong-unit, too-strong, slip, point,
    blank, wrong, ask-trainer. Only the first two count as right on every item.
    """

    position: int  # from 1
    written: str
    kind: str
    counts: bool
    slip: str = ""
    tell: str = ""


@dataclass(frozen=True)
class Result:
    """A marked paper."""

    paper: Paper
    verdicts: tuple[Verdict, ...]
    must_missed: tuple[int, ...]  # positions
    passed: bool

    @property
    def right(self) -> int:
        """Items answered rightly."""
        return sum(verdict.counts for verdict in self.verdicts)
