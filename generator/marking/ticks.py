"""Marking by eye: the trainer ticks the wrong answers against the key, by their letters there."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from generator.errors import Refusal
from generator.marking.judge import judge
from generator.marking.result import result_of
from generator.model.item import LETTERS, Item
from generator.model.paper import Paper, Result, Verdict

MOST_SLIPS = 3
SLIP_LETTERS = "abc"
WRONG, BLANK = "x", "-"
_ALL_RIGHT = frozenset(("0", "none", "all right"))
_TICK = re.compile(r"(\d{1,3})([a-z-])")
_HOW = (
    "write 1a for slip a of item 1, 7x for another wrong answer, 9- for a blank; "
    "where everything is right, the number 0"
)


@dataclass(frozen=True)
class WrongWay:
    """A wrong answer to look for: the letter to tick, what stands on the paper, the slip."""

    letter: str
    written: str
    slip: str  # its id; "" for a wrong option that no slip leads to
    name: str
    tell: str


def wrong_ways(item: Item) -> tuple[WrongWay, ...]:
    """Up to three wrong answers of an item with their letters, in the order of the item."""
    known = {slip.id: slip for slip in item.slips}
    if item.form == "choose":
        pairs = zip(LETTERS, item.options, strict=False)
        found = [
            (letter, option.slip, known[option.slip].name if option.slip in known else "", "")
            for letter, option in pairs
            if not option.right
        ]
    else:
        found = [(slip.text, slip.id, slip.name, slip.tell) for slip in item.slips]
    return tuple(
        WrongWay(letter, *way)
        for letter, way in zip(SLIP_LETTERS, found[:MOST_SLIPS], strict=False)
    )


def parse_ticks(text: str, count: int) -> dict[int, str]:
    """The ticks of a paper with so many items: the letter by position. Raises Refusal.

    >>> parse_ticks("1a 5b, 7x", 10)
    {1: 'a', 5: 'b', 7: 'x'}
    """
    plain = " ".join(text.lower().replace(",", " ").replace(";", " ").split())
    if not plain:
        raise Refusal("there are no ticks", "write 0 where everything is right")
    if plain in _ALL_RIGHT:
        return {}
    ticks: dict[int, str] = {}
    for part in re.sub(r"(\d) (?=[a-z-](?: |$))", r"\1", plain).split():
        found = _TICK.fullmatch(part)
        if not found:
            raise Refusal(f'"{part}" is not a tick', _HOW)
        position = int(found[1])
        if not 1 <= position <= count:
            raise Refusal(f"there is no item {position}", f"the paper has items 1 to {count}")
        if position in ticks:
            raise Refusal(f"item {position} is ticked twice", "keep one of the two ticks")
        ticks[position] = found[2]
    return ticks


def mark_by_eye(paper: Paper, ticks: Mapping[int, str]) -> Result:
    """The result of a paper of which the ticked items are wrong and all others right.

    Raises Refusal for a letter that the key does not have for that item.
    """
    pairs = enumerate(paper.items, start=1)
    return result_of(paper, tuple(_verdict(item, n, ticks.get(n, ""), paper) for n, item in pairs))


def _verdict(item: Item, position: int, tick: str, paper: Paper) -> Verdict:
    if not tick:
        return Verdict(position, "", "right", True)
    if tick == WRONG:
        return Verdict(position, "", "wrong", False)
    if tick == BLANK:
        return judge(item, position, "", paper.language)
    way = _way(item, position, tick)
    if item.form == "choose":
        return judge(item, position, way.written, paper.language)
    return Verdict(position, way.written, "slip", False, way.slip, way.tell)


def _way(item: Item, position: int, tick: str) -> WrongWay:
    ways: Sequence[WrongWay] = wrong_ways(item)
    for way in ways:
        if way.letter == tick:
            return way
    known = ", ".join(f"{position}{way.letter}" for way in ways)
    raise Refusal(
        f"the key has no {tick} for item {position}",
        f"use {known} or {position}x" if known else f"use {position}x: wrong in some other way",
    )
