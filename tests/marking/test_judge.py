"""Written answers, one a line of tests/cases/answers.txt, and what became of each."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest

from generator.marking.judge import judge
from generator.marking.numbers import read_number
from generator.maths import exact
from generator.model.item import Answer, Item, Option, SlipValue

CASES = Path(__file__).parent.parent / "cases" / "answers.txt"
EMPTY = Item("", "write", 1, "", Answer(None, None, ""))


def with_detail(item: Item, line: str) -> Item:
    """`item` with one indented line of the table added."""
    name, _, rest = line.partition(" ")
    match name:
        case "unit":
            return replace(item, answer=replace(item.answer, unit=rest))
        case "answer" if rest[0].isdigit():
            value = exact.number(rest)
            return replace(item, answer=replace(item.answer, value=value, exact=value, text=rest))
        case "answer":
            return replace(item, answer=replace(item.answer, word=rest, text=rest))
        case "range":
            low, high = map(exact.number, rest.split(" to "))
            return replace(item, answer=replace(item.answer, low=low, high=high))
        case "slip":
            return replace(item, slips=(*item.slips, slip(*rest.split(" ", 1))))
        case "option":
            return replace(item, options=(*item.options, option(rest)))
        case "given":
            return replace(item, given={**item.given, rest: exact.number(rest)})
        case "flags":
            flags = rest.split()
            printed = "unit-not-printed" not in flags
            above = "never-above" in flags
            return replace(item, must="must" in flags, never_above=above, unit_printed=printed)
        case "words":
            return replace(item, words=tuple(rest.split()))
        case "ask" | "form" | "order":
            return replace(item, **{name: rest})
    raise AssertionError(line)


def slip(slip_id: str, text: str) -> SlipValue:
    """A slip that printed `text`: a number, perhaps with a unit, or a word."""
    if not text[0].isdigit():
        return SlipValue(slip_id, slip_id, f"tell {slip_id}", None, text, text)
    number = text if "/" not in text else text.rpartition("/")[0] + "/" + text.split("/")[1].split()[0]
    value = read_number(number if "/" in text else text.split()[0]).value
    return SlipValue(slip_id, slip_id, f"tell {slip_id}", value, "", text)


def option(rest: str) -> Option:
    """An option from `A 2.88 gal right` or `B 312.5 gal = upside-down`."""
    text, _, slip_id = rest.partition(" ")[2].partition(" = ")
    return Option(text.removesuffix(" right"), text.endswith(" right"), slip_id, "because")


def cases() -> Iterator[tuple[int, Item, str, str, str]]:
    """Line, item, what was written, kind, slip."""
    item = EMPTY
    for number, line in enumerate(CASES.read_text(encoding="utf-8").splitlines(), start=1):
        if line.startswith("#") or not line:
            continue
        if " | " in f" {line}":
            written, _, expected = f" {line}".rpartition(" | ")
            kind, _, slip_id = expected.partition(" ")
            yield number, item, written[1:], kind, slip_id
        elif line.startswith("item "):
            item = replace(EMPTY, id=line.removeprefix("item "))
        else:
            item = with_detail(item, line.strip())


ALL = list(cases())


@pytest.mark.parametrize(
    ("item", "written", "kind", "slip_id"),
    [case[1:] for case in ALL],
    ids=[f"line {case[0]}" for case in ALL],
)
def test_an_answer_becomes_its_verdict(item: Item, written: str, kind: str, slip_id: str) -> None:
    verdict = judge(item, 1, written)
    assert (verdict.kind, verdict.slip) == (kind, slip_id), verdict.tell
    full = kind in ("right", "right-other-unit")
    assert verdict.counts == (full or (kind == "no-unit" and not item.must))


def test_the_table_is_long_enough_and_says_nothing_twice() -> None:
    assert len(ALL) >= 400
    assert len({(case[1].id, case[2]) for case in ALL}) == len(ALL)


def test_every_kind_of_verdict_stands_in_the_table() -> None:
    kinds = "right right-other-unit no-unit wrong-unit too-strong slip point blank wrong ask-trainer"
    assert {case[3] for case in ALL} == set(kinds.split())
