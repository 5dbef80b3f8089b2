"""A problem: a numeric item model over a relation, drawn afresh for every paper."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from generator.maths.trees import Tree
from generator.model.relation import Relation
from generator.words import WRITTEN_IN


@dataclass(frozen=True)
class Choices:
    """The values one name may take.

    `rig` when they are bound to the rig drawn for the item. `column` when the name is a cell of
    the relation's rows: `level_2` is a cell of `level`; cells come row by row.
    """

    name: str
    values: tuple[Fraction, ...]
    rig: bool = False
    column: str = ""


@dataclass(frozen=True)
class Slip:
    """A named wrong way: the number (or word) it gives, and what to tell the person."""

    id: str
    name: str
    tell: str
    gives: Tree | None = None
    word: str = ""


@dataclass(frozen=True, eq=False)  # one problem is one object, so its drawer can be kept by it
class Problem:
    """What is asked, which numbers may be drawn, how the answer is rounded and judged."""

    id: str
    module: str  # "" for the owner's own sums, which stand in no booklet
    lesson: str  # "" where module is
    relation: Relation
    find: str  # a quantity of the relation, or "verdict"
    ask: str
    level: str  # "crew", "chief" or "owner"
    choices: tuple[Choices, ...]
    keep: tuple[Tree, ...]
    mark: Fraction  # smallest mark the person can read, in the unit of the answer
    rounding: str  # "nearest", "down" or "up"
    slips: tuple[Slip, ...]
    must: bool = False
    word_share: Fraction = Fraction(0)
    language: str = WRITTEN_IN  # of the ask and of what the slips tell
