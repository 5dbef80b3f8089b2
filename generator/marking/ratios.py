"""Parts of water to one of stock: 1:4, 1-4, 1 to 4 or 4 parts water to 1 part stock."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction

from generator.marking.amounts import Phrase
from generator.marking.numbers import unreadable
from generator.marking.quiet import COUNTED, QUIET, STOCK, WATER
from generator.marking.tokens import Token

_TO = frozenset({":", "to", "a", "al", "per", "por"})
_IN = frozenset({"in", "of", "out", "de", "en", "cada"})  # 1 in 5, una de cada cinco
_PLUS = frozenset({"+", "plus", "and", "mas", "y", ","})  # only where "parts" are spoken of
_PARTS = frozenset({"part", "parts", "parte", "partes"})
_QUIET = QUIET | COUNTED


@dataclass(frozen=True)
class Ratio:
    """Stock and water; `sure` when words or the custom of the trade leave no doubt which is which.

    Without words the first number is the stock.
    """

    stock: Fraction
    water: Fraction
    sure: bool

    @property
    def water_per_stock(self) -> Fraction:
        """Parts of water to one part of stock."""
        return self.water / self.stock


def ratio_of(answer: Phrase) -> Ratio | None:
    """The ratio that two bare numbers form, or None when they form none.

    Raises Refusal when the words contradict each other or a part is nothing.
    """
    if len(answer.amounts) != 2 or any(amount.unit for amount in answer.amounts):
        return None
    before, middle, after = (_texts(gap) for gap in answer.gaps)
    first, second = (amount.number.value for amount in answer.amounts)
    cut = _cut(middle, after, dash=1 in (first, second))  # 1-4, while 3-4 is a range
    if cut is None or not _QUIET.issuperset(middle[:cut] + middle[cut + 1 :]):
        return None
    if {*before} & (WATER | STOCK):
        raise unreadable("a ratio with its words before the numbers")
    return _ratio(first, second, _says(middle[:cut]), _says([*middle[cut + 1 :], *after]))


def _cut(middle: list[str], after: list[str], dash: bool) -> int | None:
    """Where between the numbers the first part ends and the second begins, None for nowhere.

    A comma or a plus will do, or nothing, where parts or both things are named.
    """
    both_named = {_says(middle), _says(after)} == {"water", "stock"}
    signs = _TO | ({"-"} if dash else set())
    if both_named or _PARTS & {*middle, *after}:
        signs |= _PLUS
    cut = next((i for i, text in enumerate(middle) if text in signs), None)
    return len(middle) if cut is None and both_named else cut


def share_of(answer: Phrase) -> Fraction | None:
    """The share that 1 in 5, 1 out of 5 or 1 part of 5 is, or None for anything else."""
    if len(answer.amounts) != 2 or any(amount.unit for amount in answer.amounts):
        return None
    words = _texts(answer.gaps[1])
    first, second = (amount.number.value for amount in answer.amounts)
    told = _IN & {*words} and words != ["de"] and (_IN | _PARTS).issuperset(words)
    return first / second if told and first < second else None


def _texts(gap: Iterable[Token]) -> list[str]:
    return [token.text for token in gap]


def _says(words: Iterable[str]) -> str:
    """What the words beside a number call it: "water", "stock", "both" or ""."""
    named = {*words}
    water, stock = bool(named & WATER), bool(named & STOCK)
    return "both" if water and stock else "water" if water else "stock" if stock else ""


def _ratio(first: Fraction, second: Fraction, one: str, other: str) -> Ratio:
    if "both" in (one, other) or (one and one == other):
        raise unreadable("a ratio whose words contradict each other")
    if not first or not second:
        raise unreadable("a ratio with nothing on one side")
    if one == "water" or other == "stock":
        return Ratio(second, first, True)
    return Ratio(first, second, bool(one or other))
