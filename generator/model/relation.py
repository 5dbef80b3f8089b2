"""A relation: equations between named quantities with units, true in general."""

from __future__ import annotations

from dataclasses import dataclass, field
from fractions import Fraction

from generator.maths.trees import Comparison, Tree
from generator.maths.units import Unit
from generator.words import WRITTEN_IN


@dataclass(frozen=True)
class Quantity:
    """A named quantity; `low` and `high` (own unit) choose the branch of a solution.

    `default` is the shop's own number, for an owner who does not give one.
    """

    name: str
    unit: Unit
    label: str
    low: Fraction | None = None
    high: Fraction | None = None
    default: Fraction | None = None


@dataclass(frozen=True)
class Constant:
    """A number with a unit that the relation needs, such as 85 dBA."""

    name: str
    value: Fraction
    unit: Unit


@dataclass(frozen=True)
class WordCase:
    """When `when` holds (None: always), the answer is `word`, and `tell` says why."""

    word: str
    tell: str
    when: Tree | None = None


@dataclass(frozen=True)
class Whole:
    """Round the quantity up: to a multiple of `step`, or to the next of `sizes`, else `word`."""

    step: Fraction | None = None
    sizes: tuple[Fraction, ...] = ()
    word: str = ""


@dataclass(frozen=True)
class WorkedValue:
    """An example: numbers for quantities (or columns of rows), or the word that is the answer."""

    values: dict[str, Fraction]
    rows: dict[str, tuple[Fraction, ...]]
    word: tuple[str, str] | None = None  # (quantity or "verdict", word)
    source: str = ""


@dataclass(frozen=True, eq=False)  # one relation is one object, so solved forms can be kept by it
class Relation:
    """Equations, the words that replace a number, and worked values that must come out."""

    id: str
    title: str
    quantities: dict[str, Quantity]
    columns: dict[str, Quantity]  # of `rows`; each holds a list of numbers
    constants: dict[str, Constant]
    equations: tuple[Comparison, ...]
    convention: str
    unless: tuple[WordCase, ...] = ()
    verdict: tuple[WordCase, ...] = ()
    whole: dict[str, Whole] = field(default_factory=dict)
    examples: tuple[WorkedValue, ...] = ()
    sources: tuple[str, ...] = ()
    language: str = WRITTEN_IN  # of its labels and texts

    def quantity(self, name: str) -> Quantity | None:
        """The quantity or column of that name."""
        return self.quantities.get(name) or self.columns.get(name)
