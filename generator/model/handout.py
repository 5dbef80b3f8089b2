"""What is said in two languages and few words: the rig card and the leaflet of the first day."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import TYPE_CHECKING

if TYPE_CHECKING:  # a curriculum holds the leaflet
    from generator.model.course import FigureRequest

COLUMNS = tuple(map(Fraction, (13, 12, 11, 10, 9, 8, 7)))
"""Percent the stock tests, for each column of a rig card; between two the higher is read."""


@dataclass(frozen=True)
class Said:
    """The same words in English and Spanish."""

    en: str
    es: str


@dataclass(frozen=True)
class Emergency:
    """A line of the emergency card: what is seen, and the first action in eight words at most."""

    id: str
    title: Said
    do: Said
    sources: tuple[str, ...]


@dataclass(frozen=True)
class Meeting:
    """Two families that must never meet, and what comes of it: letters such as `G F`."""

    one: str
    other: str
    letters: str


@dataclass(frozen=True)
class CardWords:
    """What stands on the back of every rig card. `spanish_read` once a fluent reader checked it."""

    emergencies: tuple[Emergency, ...]
    families: dict[str, Said]
    letters: dict[str, Said]
    meetings: tuple[Meeting, ...]
    spanish_read: bool = False

    @property
    def chart(self) -> dict[str, str]:
        """The never-mix chart as a figure is drawn from it: names by id, letters by `one/other`."""
        names = {name: said.en for name, said in self.families.items()}
        return names | {f"{m.one}/{m.other}": m.letters for m in self.meetings}

    def between(self, one: str, other: str) -> str:
        """What comes of it when the two meet; "" where the chart has nothing."""
        pair = {one, other}
        return next((m.letters for m in self.meetings if {m.one, m.other} == pair), "")


@dataclass(frozen=True)
class Line:
    """A line of the leaflet; with `blank` there is room to write after it."""

    say: Said
    blank: bool = False


@dataclass(frozen=True)
class LeafletPage:
    """A page of the leaflet: figures or the signs of what to wear, and few words."""

    title: Said
    lines: tuple[Line, ...]
    pictures: tuple[FigureRequest, ...] = ()
    wear: tuple[str, ...] = ()


@dataclass(frozen=True)
class Handouts:
    """The words of the rig card and of the leaflet; None or nothing where a shop has none."""

    card: CardWords | None = None
    leaflet: tuple[LeafletPage, ...] = ()
