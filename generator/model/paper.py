"""A paper: one person's printed quiz."""

from __future__ import annotations

from dataclasses import dataclass

from generator.model.item import Item
from generator.words import WRITTEN_IN

IN_A_ROW = 2
"""Fresh items asked aloud that must be right one after the other, to put a must-get right."""


@dataclass(frozen=True)
class Paper:
    """A paper as printed; it is marked by this, never drawn again.

    `seed` is 128 random bits in hex, `code` is independent of it. `person` is "" for a spare.
    `practice_cut` is what makes a practice paper done; 0 where any score does.
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
    language: str = WRITTEN_IN
    back: bool = False  # the short return paper of someone who passed before and was away
    practice_cut: int = 0


@dataclass(frozen=True)
class Verdict:
    """What became of one written answer.

    `kind` is one of: right, right-other-unit, no-unit, rounding, wrong-unit, too-strong, slip,
    point, blank, wrong, ask-trainer. The first two count; the next two earn `half` a point where
    the item is not a must-get.
    """

    position: int  # from 1
    written: str
    kind: str
    counts: bool
    slip: str = ""
    tell: str = ""
    half: bool = False


@dataclass(frozen=True)
class Result:
    """A marked paper."""

    paper: Paper
    verdicts: tuple[Verdict, ...]
    must_missed: tuple[int, ...]  # positions
    passed: bool

    @property
    def right(self) -> int:
        """The score that is held against the cut: items answered rightly.

        Two halves make one, a last half makes none, and a must-get never earns a half.
        """
        return sum(2 * verdict.counts + verdict.half for verdict in self.verdicts) // 2

    @property
    def done(self) -> bool:
        """Whether enough is right for a practice paper to be done."""
        return self.right >= self.paper.practice_cut
