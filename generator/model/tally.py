"""What the crew gets wrong: right and wrong answers counted, and the slips they show."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

HELD_BACK = 4
"""Right answers added to every count before ranking, so that one miss of one leads no list."""


@dataclass(frozen=True)
class Count:
    """So many of so many."""

    count: int = 0
    of: int = 0

    @property
    def weight(self) -> Fraction:
        """The share, held back where few were asked; for ranking only."""
        return Fraction(self.count, self.of + HELD_BACK)


@dataclass(frozen=True)
class Tally:
    """Something counted on papers: on first counted tries, and on practice papers.

    `people` are those behind the first tries, or behind practice where nobody has tried yet.
    """

    first: Count
    practice: Count
    people: int

    @property
    def main(self) -> Count:
        """What it is ranked by: the first tries; practice where there is none yet."""
        return self.first if self.first.of else self.practice


@dataclass(frozen=True)
class ItemTally:
    """A problem or question: the papers on which it was missed at least once."""

    id: str
    lesson: str  # its title
    must: bool
    question: bool
    missed: Tally
    slip: str = ""  # the commonest wrong way, in words
    slip_count: int = 0  # on the papers of `missed.main`


@dataclass(frozen=True)
class SlipTally:
    """A wrong way in words: the papers on which it was made, of those where it could be."""

    words: str
    items: tuple[str, ...]  # ids of the problems or the question where it was made
    lessons: tuple[str, ...]  # their titles
    made: Tally


@dataclass(frozen=True)
class Papers:
    """How many papers and people stand behind a tally."""

    first: int = 0
    practice: int = 0
    later: int = 0  # tries after the first, which are not counted
    without: int = 0  # marked without a verdict for each item, so not counted
    people: int = 0


@dataclass(frozen=True)
class ModuleTally:
    """All of one module, items and slips with the worst first."""

    module: str
    title: str
    short: str
    seasons: tuple[str, ...]
    papers: Papers
    items: tuple[ItemTally, ...]
    slips: tuple[SlipTally, ...]
