"""What the crew gets wrong: right and wrong answers counted, and the slips they show."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction
from typing import TypeVar

HELD_BACK = 4
"""Papers added to those that had a thing before ranking, so that two of two lead no list."""


@dataclass(frozen=True)
class Count:
    """So many of so many."""

    count: int = 0
    of: int = 0

    def __str__(self) -> str:
        return f"{self.count} of {self.of}"

    @property
    def weight(self) -> tuple[bool, Fraction]:
        """For ranking only: more than once, then the share, held back where few were asked."""
        return self.count > 1, Fraction(self.count, self.of + HELD_BACK)

    @property
    def rest(self) -> Count:
        """All the others, of the same."""
        return Count(self.of - self.count, self.of)


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

    @property
    def says_something(self) -> bool:
        """Whether it is more than a single slip on a practice paper, or nothing at all."""
        return self.main.count > 1 or self.first.count > 0

    @property
    def kind(self) -> str:
        """Where the main count comes from, as a note: "" for first tries."""
        return "" if self.first.of else "on practice papers"


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

    @property
    def words(self) -> str:
        """Its id as a person says it."""
        return in_words(self.id)


@dataclass(frozen=True)
class SlipTally:
    """A wrong way in words: the papers on which it was made, of those where it could be."""

    words: str
    items: tuple[str, ...]  # ids of the problems or the question where it was made
    lessons: tuple[str, ...]  # their titles
    made: Tally

    @property
    def sentence(self) -> str:
        """Such as: 5 of 8 read 1 to 4 as one quarter."""
        return " ".join(filter(None, (str(self.made.main), self.words, self.made.kind)))

    @property
    def where(self) -> str:
        """The problems or the question where it was made, the commonest first."""
        more = f" and {len(self.items) - 2} more" if len(self.items) > 2 else ""
        return ", ".join(map(in_words, self.items[:2])) + more


@dataclass(frozen=True)
class Papers:
    """How many papers and people stand behind a tally."""

    first: int = 0
    practice: int = 0
    later: int = 0  # tries after the first, which are not counted
    without: int = 0  # marked without a verdict for each item, so not counted
    people: int = 0

    def __str__(self) -> str:
        parts = [_many(self.first, "first try", "first tries")]
        parts += [_many(self.practice, "practice paper")] if self.practice else []
        told = f"{' and '.join(parts)} by {_many(self.people, 'person', 'people')}"
        if self.later:
            told += f"; {_many(self.later, 'later try', 'later tries')} not counted"
        if self.without:
            told += f"; {_many(self.without, 'paper')} marked by the total alone, not counted"
        return told


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

    @property
    def told(self) -> str:
        """What was counted, and from which seasons."""
        return f"{self.papers} ({season_words(self.seasons)})"


Ranked = TypeVar("Ranked", ItemTally, SlipTally)


def worst_first(things: Iterable[Ranked]) -> list[Ranked]:
    """Must-gets before others, then by first tries (practice where there are none), then practice.

    What happened once, and on practice only, stands behind all that happened otherwise.
    """
    return sorted(things, key=_rank, reverse=True)


def _rank(thing: ItemTally | SlipTally) -> tuple[object, ...]:
    tally = thing.missed if isinstance(thing, ItemTally) else thing.made
    must = isinstance(thing, ItemTally) and thing.must
    said = tally.says_something
    return said, said and must, tally.main.weight, tally.practice.weight, must, thing.words


def season_words(seasons: tuple[str, ...]) -> str:
    """The seasons counted.

    >>> season_words(("2024", "2025", "2026"))
    'seasons 2024 to 2026'
    """
    first, last = seasons[0], seasons[-1]
    return f"season {first}" if first == last else f"seasons {first} to {last}"


def in_words(id: str) -> str:
    """An id as a person says it.

    >>> in_words("part-full-tank")
    'Part full tank'
    """
    return id.replace("-", " ").capitalize()


def _many(count: int, one: str, more: str = "") -> str:
    return f"{count} {one if count == 1 else more or one + 's'}"
