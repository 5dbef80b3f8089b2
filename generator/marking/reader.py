"""What a person wrote, read as a value in the unit asked for, as a word, or not at all."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from generator.errors import Refusal
from generator.marking.amounts import Amount, Phrase, amounts_of, refuse_strays, total
from generator.marking.numbers import unreadable
from generator.marking.ratios import ratio_of, share_of
from generator.marking.text import trouble
from generator.marking.tokens import Token, tokens
from generator.marking.words import word_answer
from generator.maths.units import NONE, Unit, same_kind
from generator.words import WRITTEN_IN


@dataclass(frozen=True)
class Reading:
    """How an answer was read. Exactly one of value, word, unit_wrong and trouble is there.

    `value` is in the wanted unit; `plain` is the number as written, None when there are several;
    `unit` is the unit as written, None when there is none or several. `step` is the place of the
    last digit written, in the wanted unit. `others` are values which the same writing stands for
    in another way, `custom` among them the one of another custom of comma and point (2,500 as two
    and a half). `trouble` says why only a person can read it. `wanted` is the unit asked for and
    `language` that of the paper.
    """

    wanted: Unit = NONE
    language: str = WRITTEN_IN
    value: Fraction | None = None
    unit_given: bool = False
    unit_wrong: bool = False
    plain: Fraction | None = None
    word: str = ""
    ratio: tuple[Fraction, Fraction] | None = None
    trouble: str = ""
    unit: Unit | None = None
    others: tuple[Fraction, ...] = ()
    custom: Fraction | None = None
    step: Fraction = Fraction(0)


def read_answer(
    text: str,
    wanted: Unit,
    words: Sequence[str] = (),
    ratio: bool | None = None,
    language: str = WRITTEN_IN,
) -> Reading:
    """The answer `text` in the unit `wanted`; never raises and never guesses.

    `words` are the word answers the item knows. `ratio` says whether 1:4 is an answer (parts of
    water to one of stock); None means it is wherever a plain number without a unit is wanted.
    `language` is that of the paper; numbers and words of both languages are read on either.

    >>> read_answer("13 qt", parse_unit("gal")).value
    Fraction(13, 4)
    """
    if ratio is None:
        ratio = wanted.text == "1"
    try:
        read = _word(text, words) or _number(tokens(text, wanted, language), wanted, ratio)
    except Refusal as refusal:
        read = Reading(trouble=refusal.what)
    return replace(read, wanted=wanted, language=language)


def _word(text: str, words: Sequence[str]) -> Reading | None:
    if why := trouble(text):
        raise unreadable(why)
    word = word_answer(text, words)
    return Reading(word=word) if word else None


def _number(found: list[Token], wanted: Unit, ratio: bool) -> Reading:
    answer = amounts_of(found, wanted)
    if not answer.amounts:
        raise unreadable("no number")
    refuse_strays(answer, wanted, ratio and len(answer.amounts) == 2)
    if len(answer.amounts) == 1:
        return _one(answer.amounts[0], answer.minus, wanted)
    if answer.minus:
        raise unreadable("a minus and two numbers")
    if wanted.is_fraction and (share := share_of(answer)):
        return Reading(value=share, plain=share)
    return (_ratio(answer) if ratio else None) or _several(answer, wanted)


def _one(amount: Amount, minus: bool, wanted: Unit) -> Reading:
    plain = -amount.number.value if minus else amount.number.value
    given = amount.unit is not None
    if amount.unit and not same_kind(amount.unit, wanted):
        return Reading(unit_given=True, unit_wrong=True, plain=plain, unit=amount.unit)
    scale = amount.scale(wanted)
    other = amount.number.other
    others = [amount.number.value] * minus
    others += [each for each in (other, amount.number.apart) if each is not None]
    return Reading(
        value=plain * scale,
        unit_given=given,
        plain=plain,
        unit=amount.unit,
        others=tuple(value * scale for value in others),
        custom=None if other is None else (-other if minus else other) * scale,
        step=amount.number.step * scale,
    )


def _ratio(answer: Phrase) -> Reading | None:
    """A ratio, read as parts of water to one of stock; the other readings are named too."""
    found = ratio_of(answer)
    if not found:
        return None
    value = found.water_per_stock
    others = [] if found.sure else [1 / value]
    if found.stock != 1:
        others.append(found.water)  # 3:6 may answer "three parts stock, how many water?"
    parts = (found.stock, found.water)
    return Reading(value=value, plain=value, ratio=parts, others=tuple(others))


def _several(answer: Phrase, wanted: Unit) -> Reading:
    value = total(answer, wanted)
    units = {amount.unit for amount in answer.amounts if amount.unit}
    given = bool(units)
    unit = units.pop() if len(units) == 1 else None
    if value is None:
        return Reading(unit_given=True, unit_wrong=True, unit=unit)
    return Reading(value=value, unit_given=given, unit=unit)
