"""What the key says of an item: the right answer, what is accepted, the slips to look for."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from generator.marking.ticks import wrong_ways
from generator.maths.exact import down, up
from generator.model.course import Choice
from generator.model.item import LETTERS, Item, Option
from generator.printing.environment import amount
from generator.words import WRITTEN_IN, words


@dataclass(frozen=True)
class SlipMark:
    """A wrong answer to look for: the letter to tick, what stands on the paper, why."""

    letter: str
    written: str
    name: str


def key_text(item: Item) -> str:
    """The right answer as the person should have written it: `2 3/4 gal`, `B`, `B C A`."""
    if item.form == "choose":
        return right_letter(item.options)
    return " ".join(item.order) if item.form == "order" else item.answer.text


def right_letter(options: Sequence[Option | Choice]) -> str:
    """The letter of the one option that is right, in the order they are printed in."""
    return LETTERS[[option.right for option in options].index(True)]


def spelled_out(item: Item) -> str:
    """The words behind the letters of `key_text`; "" where the answer is written anyway."""
    if item.form == "choose":
        return next(option.text for option in item.options if option.right)
    return ", ".join(item.options[LETTERS.index(letter)].text for letter in item.order)


def accepted(item: Item, language: str = WRITTEN_IN) -> str:
    """The range that counts as right, both ends included; "" where only one answer does."""
    low, high = item.answer.low, item.answer.high
    if item.form != "write" or low is None or high is None or low == high:
        return ""
    step = _step(high - low)
    first = low if _ends(low) else up(low, step)
    last = high if _ends(high) else down(high, step)
    to = words(language)["joining"]["to"]
    return f"{amount(first, '1')} {to} {amount(last, item.answer.unit, language)}"


def _step(span: Fraction) -> Fraction:
    """A step fine enough for the span; rounding goes inwards, so nothing wrong is let through."""
    step = Fraction(1)
    while step * 20 > span:
        step /= 10
    return step


def _ends(value: Fraction) -> bool:
    """Whether the number is written in full with three decimals."""
    return (value * 1000).denominator == 1


def slip_marks(item: Item) -> tuple[SlipMark, ...]:
    """Up to three wrong answers with a small letter each, in the order of the item."""
    return tuple(SlipMark(way.letter, way.written, way.name) for way in wrong_ways(item))
