"""Marking an answer that was written in: the checks in their order, the first that fits wins."""

from __future__ import annotations

import re
from collections.abc import Callable

from generator.marking.finding import Finding, ask_trainer
from generator.marking.naming import named_slip, point_slip, unit_slip, within
from generator.marking.reader import Reading, read_answer
from generator.maths.units import NONE, Unit, parse_unit, ratio, shown
from generator.model.item import Item

_RATIO_ASKED = re.compile(r"\bpart(?:s|e|es)?\b|\bratio|\d\s*:\s*\d|\braz[oó]n|\bproporci", re.I)
_TOO_MUCH = "Too much. Here more than the answer is never right."


def find_written(item: Item, written: str) -> Finding:
    """What became of the write-in answer `written`, which is not blank.

    Raises Refusal when the item's own unit is unknown.
    """
    wanted = parse_unit(item.answer.unit) if item.answer.unit else NONE
    reading = read_answer(written, wanted, item.words, _is_ratio(item, wanted))
    if reading.trouble:
        return ask_trainer(reading.trouble)
    if reading.word or item.answer.word:
        return _word(item, reading)
    found = (check(item, reading, wanted) for check in _CHECKS)
    return next((finding for finding in found if finding), Finding("wrong"))


def _is_ratio(item: Item, wanted: Unit) -> bool:
    asked = f"{item.ask} {item.answer.text}"
    return wanted.text == "1" and bool(_RATIO_ASKED.search(asked))


def _word(item: Item, reading: Reading) -> Finding:
    """A word was written, or is the answer."""
    if reading.word and reading.word == item.answer.word:
        return Finding("right")
    for slip in item.slips:
        if reading.word and slip.word == reading.word:
            return Finding("slip", slip.id, slip.tell)
    if reading.word:
        return Finding("wrong", tell="There is another answer.")
    return named_slip(item, reading) or Finding("wrong", tell="No number is right here.")


def _right(item: Item, reading: Reading, wanted: Unit) -> Finding | None:
    if reading.value is None or not within(item.answer, reading.value) or _to_several(reading):
        return None
    if not reading.unit_given:
        return _bare(item, wanted)
    if reading.unit and ratio(reading.unit.parts, wanted.parts) == 1:
        return Finding("right")
    if reading.plain in item.given.values():
        return ask_trainer("it repeats a number of the question in its own unit")
    return Finding("right-other-unit")


def _bare(item: Item, wanted: Unit) -> Finding:
    """The right number without a unit."""
    if item.unit_printed or wanted.text in ("1", "fraction"):
        return Finding("right")
    return Finding("no-unit", tell=f"The number is right. Always write its unit: {shown(wanted)}.")


def _to_several(reading: Reading) -> bool:
    """Whether a ratio was written that is not to one part, such as 2:8."""
    return reading.ratio is not None and reading.ratio[0] != 1


def _another_reading(item: Item, reading: Reading, wanted: Unit) -> Finding | None:
    """Right only if a comma, a point, a dash or a ratio is read one way and not the other."""
    values = (*reading.others, reading.value) if _to_several(reading) else reading.others
    if any(value is not None and within(item.answer, value) for value in values):
        return ask_trainer("it can be read in two ways, and one of them is right")
    return None


def _too_strong(item: Item, reading: Reading, wanted: Unit) -> Finding | None:
    high = item.answer.high if item.answer.high is not None else item.answer.value
    if not item.never_above or reading.value is None or high is None or reading.value <= high:
        return None
    why = (
        _slip(item, reading, wanted)
        or unit_slip(item, reading, wanted)
        or _point(item, reading, wanted)
    )
    if not why:
        return Finding("too-strong", tell=_TOO_MUCH)
    return Finding("too-strong", why.slip, f"{_TOO_MUCH} {why.tell}".strip())


def _slip(item: Item, reading: Reading, wanted: Unit) -> Finding | None:
    return named_slip(item, reading)


def _point(item: Item, reading: Reading, wanted: Unit) -> Finding | None:
    return point_slip(item, reading)


_CHECKS: tuple[Callable[[Item, Reading, Unit], Finding | None], ...] = (
    _right,
    _another_reading,
    _too_strong,
    _slip,
    unit_slip,
    _point,
)
