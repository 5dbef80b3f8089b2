"""An item: one drawn problem or one question as it stands on a paper, with its key."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from fractions import Fraction
from typing import overload

LETTERS = "ABCDEFGHIJ"
"""The letters of options and of things to put in order, as printed and as answered."""


@dataclass(frozen=True)
class Answer:
    """The right answer: a number with the range that is accepted, or a word.

    `value` is the answer as printed (rounded as the ask says), `exact` the unrounded number,
    `low` and `high` the accepted range, both ends included; all in `unit`.
    """

    value: Fraction | None
    exact: Fraction | None
    unit: str
    word: str = ""
    low: Fraction | None = None
    high: Fraction | None = None
    inexact: bool = False
    text: str = ""  # as printed: "2 3/4 gal", "never"


@dataclass(frozen=True)
class Option:
    """One of three things to choose; `slip` names the wrong way that leads to it."""

    text: str
    right: bool
    slip: str = ""
    reason: str = ""


@dataclass(frozen=True)
class SlipValue:
    """What a wrong way gives with this item's numbers."""

    id: str
    name: str
    tell: str
    value: Fraction | None
    word: str
    text: str  # as printed


class Lines(Sequence[str]):
    """Lines made when they are first read: most items are marked without their working."""

    __slots__ = ("_made", "_maker")

    def __init__(self, maker: Callable[[], tuple[str, ...]]) -> None:
        self._maker = maker
        self._made: tuple[str, ...] | None = None

    def _all(self) -> tuple[str, ...]:
        if self._made is None:
            self._made = self._maker()
        return self._made

    def __len__(self) -> int:
        return len(self._all())

    @overload
    def __getitem__(self, place: int) -> str: ...
    @overload
    def __getitem__(self, place: slice) -> tuple[str, ...]: ...
    def __getitem__(self, place: int | slice) -> str | tuple[str, ...]:
        return self._all()[place]

    def __eq__(self, other: object) -> bool:
        return self._all() == (other._all() if isinstance(other, Lines) else other)

    def __hash__(self) -> int:
        return hash(self._all())

    def __repr__(self) -> str:
        return repr(self._all())

    def __reduce__(self) -> tuple[type[tuple[str, ...]], tuple[tuple[str, ...]]]:
        return tuple, (self._all(),)  # what is pickled are the lines, not how to make them


@dataclass(frozen=True)
class Item:
    """One item of a paper. `form` is "write", "choose" or "order"."""

    id: str  # problem or question id
    form: str
    seed: int
    ask: str
    answer: Answer
    options: tuple[Option, ...] = ()  # three to "choose" from; to "order" the shuffled things
    order: str = ""  # for "order": the right letters, such as "BCA"
    working: Sequence[str] = ()
    slips: tuple[SlipValue, ...] = ()
    given: dict[str, Fraction | tuple[Fraction, ...]] = field(default_factory=dict)
    lesson: str = ""
    must: bool = False
    words: tuple[str, ...] = ()  # word answers this item understands
    never_above: bool = False  # an answer above `high` is dangerous, whatever else is right
    unit_printed: bool = True  # the answer line prints the unit, so a bare number is enough
