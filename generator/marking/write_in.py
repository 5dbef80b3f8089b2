"""Marking an answer that was written in: the checks in their order, the first that fits wins."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import replace
from fractions import Fraction

from generator.marking.finding import FULL, HALF, Finding, ask_trainer, told
from generator.marking.naming import named_slip, point_slip, unit_slip, within
from generator.marking.quiet import another_thing
from generator.marking.reader import Reading, read_answer
from generator.marking.synonyms import NOUGHT
from generator.maths.units import NONE, Unit, parse_unit, ratio, shown
from generator.model.item import Item
from generator.words import WRITTEN_IN

_RATIO_ASKED = re.compile(r"\bpart(?:s|e|es)?\b|\bratio|\d\s*:\s*\d|\braz[oó]n|\bproporci", re.I)
_TWO_WAYS = "it can be read in two ways, and one of them is right"
# of two readings the one with the kind that stands first here
_LIKELY = (
    *("right", "right-other-unit", "no-unit", "rounding", "slip", "wrong-unit", "point"),
    *("ask-trainer", "too-strong", "wrong"),
)


def find_written(item: Item, written: str, language: str = WRITTEN_IN) -> Finding:
    """What became of the write-in answer `written`, which is not blank.

    Raises Refusal when the item's own unit is unknown.
    """
    wanted = parse_unit(item.answer.unit) if item.answer.unit else NONE
    reading = read_answer(written, wanted, item.words, _is_ratio(item, wanted), language)
    if reading.trouble:
        return ask_trainer(reading.trouble)
    if reading.word or item.answer.word:
        return _word(item, reading)
    if thing := _strange(item, written, reading):
        return ask_trainer(f'it speaks of "{thing}"')
    if language == "es" and reading.value and reading.custom:
        return _either(item, reading, reading.value, reading.custom)
    return _number(item, reading)


def _number(item: Item, reading: Reading) -> Finding:
    found = (check(item, reading) for check in _CHECKS)
    return next((finding for finding in found if finding), Finding("wrong"))


def _either(item: Item, reading: Reading, value: Fraction, custom: Fraction) -> Finding:
    """On a Spanish paper 1,280 is thousands or decimals, whichever makes sense.

    It stays open when one is right and the other a slip, or when neither is wholly right.
    """
    plain = None if reading.plain is None else reading.plain * custom / value
    others = tuple(each for each in reading.others if each != custom)
    first = replace(reading, others=others)
    both = [_number(item, each) for each in (first, replace(first, value=custom, plain=plain))]
    best = min(both, key=lambda finding: _LIKELY.index(finding.kind))
    if best.kind in HALF or (best.kind in FULL and any(finding.slip for finding in both)):
        return ask_trainer(_TWO_WAYS)
    return best


def _is_ratio(item: Item, wanted: Unit) -> bool:
    asked = f"{item.ask} {item.answer.text}"
    return wanted.text == "1" and bool(_RATIO_ASKED.search(asked))


def _strange(item: Item, written: str, reading: Reading) -> str:
    """What is spoken of though something else is asked: water instead of stock, say."""
    if reading.ratio or reading.wanted.text in ("%", "ppm"):  # a strength is one of chlorine anyway
        return ""
    return another_thing(item.ask, written)


def _word(item: Item, reading: Reading) -> Finding:
    """A word was written, or is the answer."""
    if reading.word and reading.word == item.answer.word:
        return Finding("right")
    for slip in item.slips:
        if reading.word and slip.word == reading.word:
            return Finding("slip", slip.id, slip.tell)
    if reading.word:
        return Finding("wrong", tell=told(reading.language, "another"))
    if reading.value == 0 and item.answer.word in NOUGHT:
        return ask_trainer("a nought may mean the right word")
    no_number = told(reading.language, "no_number")
    return named_slip(item, reading) or Finding("wrong", tell=no_number)


def _right(item: Item, reading: Reading) -> Finding | None:
    if not _in_range(item, reading) or _to_several(reading):
        return None
    if not reading.unit_given:
        return _bare(item, reading)
    if reading.unit and ratio(reading.unit.parts, reading.wanted.parts) == 1:
        return Finding("right")
    if reading.plain in _given(item):
        return ask_trainer("it repeats a number of the question in its own unit")
    return Finding("right-other-unit")


def _in_range(item: Item, reading: Reading) -> bool:
    value = reading.value
    return value is not None and within(item.answer, value) and not _above(item, value)


def _above(item: Item, value: Fraction) -> bool:
    """Whether `value` is above what may never be passed: the range, and the exact answer."""
    answer = item.answer
    limits = [limit for limit in (answer.high, answer.exact) if limit is not None]
    return item.never_above and value > min(limits or [answer.value or value])


def _given(item: Item) -> set[Fraction]:
    """The numbers of the question."""
    groups = (value if isinstance(value, tuple) else (value,) for value in item.given.values())
    return {number for group in groups for number in group}


def _bare(item: Item, reading: Reading) -> Finding:
    """The right number without a unit."""
    wanted, say = reading.wanted, reading.language
    if item.unit_printed or wanted.text in ("1", "fraction"):
        return Finding("right")
    return Finding("no-unit", tell=told(say, "bare", unit=shown(wanted, say)))


def _to_several(reading: Reading) -> bool:
    """Whether a ratio was written that is not to one part, such as 2:8."""
    return reading.ratio is not None and reading.ratio[0] != 1


def _another_reading(item: Item, reading: Reading) -> Finding | None:
    """Right only if a comma, a point, a dash or a ratio is read one way and not the other."""
    values = (*reading.others, reading.value) if _to_several(reading) else reading.others
    if any(value is not None and within(item.answer, value) for value in values):
        return ask_trainer(_TWO_WAYS)
    return None


def _too_strong(item: Item, reading: Reading) -> Finding | None:
    if reading.value is None or not _above(item, reading.value):
        return None
    found = (named(item, reading) for named in _NAMING)
    why = next((finding for finding in found if finding), Finding(""))
    too_much = told(reading.language, "too_much")
    return Finding("too-strong", why.slip, f"{too_much} {why.tell}".strip())


def _rounding(item: Item, reading: Reading) -> Finding | None:
    """Not right, but within twice as much; never on a closed side, nor nearer to a slip."""
    answer, value = item.answer, reading.value
    exact = answer.value if answer.exact is None else answer.exact
    if value is None or exact is None or answer.low is None or answer.high is None:
        return None
    twice = answer.high - answer.low
    low = exact - twice if answer.low < exact else exact
    high = exact + twice if answer.high > exact else exact
    if not (value > 0 and low <= value <= high) or _to_several(reading):
        return None
    if any(abs(value - slip) <= abs(value - exact) for slip in _slip_values(item)):
        return None
    if not reading.unit_given and _bare(item, reading).kind != "right":
        return None  # then it is not the rounding only
    return Finding("rounding", tell=told(reading.language, "rough", answer=answer.text))


def _slip_values(item: Item) -> list[Fraction]:
    return [slip.value for slip in item.slips if slip.value is not None]


_Check = Callable[[Item, Reading], Finding | None]
_NAMING: tuple[_Check, ...] = (unit_slip, named_slip, point_slip)
_CHECKS: tuple[_Check, ...] = (_right, _another_reading, _too_strong, _rounding, *_NAMING)
