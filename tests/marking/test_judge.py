"""Written answers, one a line of tests/cases/answers.txt, and what becomes of each."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, replace
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.marking.judge import judge
from generator.marking.numbers import PATTERN, read_number
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
        case "exact":
            return replace(item, answer=replace(item.answer, exact=exact.number(rest)))
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
    number = re.match(PATTERN, text)
    value = read_number(number[0]).value if number else None
    return SlipValue(slip_id, slip_id, f"tell {slip_id}", value, "" if number else text, text)


def option(rest: str) -> Option:
    """An option from `A 2.88 gal right` or `B 312.5 gal = upside-down`."""
    text, _, slip_id = rest.partition(" ")[2].partition(" = ")
    return Option(text.removesuffix(" right"), text.endswith(" right"), slip_id, "because")


@dataclass(frozen=True)
class Case:
    """An answer of the table with its line and the verdict it must get."""

    line: int
    item: Item
    language: str
    written: str
    kind: str
    slip: str


def cases() -> Iterator[Case]:
    """Every answer of the table."""
    item, language = EMPTY, "en"
    for number, line in enumerate(CASES.read_text(encoding="utf-8").splitlines(), start=1):
        if line.startswith("#") or not line:
            continue
        if " | " in f" {line}":
            written, _, expected = f" {line}".rpartition(" | ")
            kind, _, slip_id = expected.partition(" ")
            yield Case(number, item, language, unescaped(written[1:]), kind, slip_id)
        elif line.startswith("item "):
            item, language = replace(EMPTY, id=line.removeprefix("item ")), "en"
        elif line.startswith("  language "):
            language = line.split()[1]
        else:
            item = with_detail(item, line.strip())


def unescaped(written: str) -> str:
    """What was written, with \\u00a0 as the sign of that number."""
    return re.sub(r"\\u([0-9a-f]{4})", lambda found: chr(int(found[1], 16)), written)


ALL = list(cases())


ITEMS = list(dict.fromkeys(case.item.id for case in ALL))


@pytest.mark.parametrize("item_id", ITEMS)
def test_every_answer_becomes_its_verdict(item_id: str) -> None:
    amiss = []
    for case in (case for case in ALL if case.item.id == item_id):
        verdict = judge(case.item, 1, case.written, case.language)
        full = case.kind in ("right", "right-other-unit")
        half = case.kind in ("no-unit", "rounding") and not case.item.must
        due = (case.kind, case.slip, full, half)
        if (verdict.kind, verdict.slip, verdict.counts, verdict.half) != due:
            amiss.append(f"line {case.line}: {case.written!r} is {verdict}")
    assert not amiss, "\n".join(amiss)


def test_the_table_is_long_enough_and_says_nothing_twice() -> None:
    assert len(ALL) >= 2000
    assert len({(case.item.id, case.written) for case in ALL}) == len(ALL)


def test_every_kind_of_verdict_stands_in_the_table() -> None:
    kinds = {"right", "right-other-unit", "no-unit", "rounding", "wrong-unit", "too-strong"}
    assert {case.kind for case in ALL} == kinds | {"slip", "point", "blank", "wrong", "ask-trainer"}


def test_every_unit_of_the_curriculum_stands_in_the_table() -> None:
    units = "gal qt floz lb ozwt min h s day gpm gph psi ft in sqft % ppm dBA usd 1 fraction degF"
    assert set(units.split()) <= {case.item.answer.unit for case in ALL}


def the_item(item_id: str) -> Item:
    return next(case.item for case in ALL if case.item.id == item_id)


TOO_MUCH = "Too much. Here more than the answer is never right."
TELLS = [
    ("batch", "312.5", "tell upside-down"),
    ("batch", "12", "4 times too big: gal and qt are mixed up."),
    ("batch", "0.72", "4 times too small: gal and qt are mixed up."),
    ("batch", "368", "128 times too big: gal and fl oz are mixed up."),
    ("batch", "10.9", "3.785 times too big: gal and L are mixed up."),
    ("batch", "2.88 qt", "The number is right in gal. You wrote qt."),
    ("batch", "2.88 lb", "The number is right, its unit is not. Write it in gal."),
    ("batch", "24 lb", "The unit measures another kind of thing. Write it in gal."),
    ("batch", "28.8", "10 times too big: see where the point goes."),
    ("batch", "0.00288", "1,000 times too small: see where the point goes."),
    ("batch", "3-4", "The trainer decides: a range."),
    ("batch", "3 gal 27 gal", "The trainer decides: two different numbers."),
    ("batch", "3/0", 'The trainer decides: "3/0" divides by zero.'),
    ("batch", "3 gal max", 'The trainer decides: "max" may change the answer.'),
    ("batch", "", "No answer."),
    ("flow", "400", "60 times too big: min and h are mixed up."),
    ("flow", "26.7", "4 times too big: gal and qt are mixed up."),
    ("run-dry", "3960", "60 times too big: min and s are mixed up."),
    ("run-dry", "1.1", "60 times too small: min and h are mixed up."),
    ("must-batch", "3", f"{TOO_MUCH} tell quarter"),
    ("must-batch", "2.8", TOO_MUCH),
    ("must-batch", "11", f"{TOO_MUCH} 4 times too big: gal and qt are mixed up."),
    ("must-batch", "27.5", f"{TOO_MUCH} 10 times too big: see where the point goes."),
    ("pack-out", "60", "The number is right. Always write its unit: fl oz. Half a point."),
    ("pack-must", "60", "The number is right. Always write its unit: fl oz."),
    ("batch", "3.01", "Close, but rounded too roughly. It is 2.88. Half a point."),
    ("batch", "3 gal water", 'The trainer decides: it speaks of "water".'),
    ("pack-out", ".47", "tell as-gallons"),
    ("flow", "6.67 gph", "The number is right in gpm. You wrote gph."),
    ("top-up", "0", "The trainer decides: a nought may mean the right word."),
    ("choose-number", "B", "tell upside-down because"),
    ("choose-words", "B", "because"),
    ("order", "BAC", "Place 2 is C (Stock). You wrote A (Soap)."),
    ("order", "BC", "The trainer decides: it needs 3 letters, each of them once."),
    ("runs-for-ever", "66", "No number is right here."),
    ("run-dry", "never", "There is another answer."),
    ("passes", "15 ft", "The number is right, its unit is not. The answer has no unit."),
    ("to-ppm", "1.2%", "The trainer decides: it repeats a number of the question in its own unit."),
]


@pytest.mark.parametrize(("item_id", "written", "tell"), TELLS)
def test_the_person_is_told_what_happened(item_id: str, written: str, tell: str) -> None:
    assert judge(the_item(item_id), 1, written).tell == tell


SPANISH = [
    ("batch", "", "Sin respuesta."),
    ("batch", "3.01", "Casi, pero redondeado de más. Es 2.88. Medio punto."),
    (
        *("must-batch", "11", "Demasiado. Aquí nunca vale más que la respuesta. "),
        "4 veces más de lo debido: se confundieron gal y qt.",
    ),
    (
        *("must-batch", "27.5", "Demasiado. Aquí nunca vale más que la respuesta. "),
        "10 veces más de lo debido: fíjese dónde va el punto.",
    ),
    ("pack-must", "60", "El número está bien. Escriba siempre su unidad: onzas líquidas."),
    ("flow", "6.67 gph", "El número está bien en gal/min. Usted escribió gal/h."),
    ("order", "BAC", "El lugar 2 es C (Stock). Usted escribió A (Soap)."),
    ("runs-for-ever", "66", "Aquí ningún número es correcto."),
    ("run-dry", "never", "La respuesta es otra."),
    ("passes", "15 ft", "El número está bien, la unidad no. La respuesta no lleva unidad."),
]


@pytest.mark.parametrize("case", SPANISH, ids=lambda case: f"{case[0]}-{case[1]}")
def test_on_a_spanish_paper_it_is_told_in_spanish(case: tuple[str, ...]) -> None:
    item_id, written, *tell = case
    assert judge(the_item(item_id), 1, written, "es").tell == "".join(tell)


def test_a_slip_printed_as_a_ratio_is_known_by_its_value_alone() -> None:
    item = the_item("water-parts")
    whole = replace(item.slips[0], text="1 : 5")
    item = replace(item, slips=(whole,))
    assert judge(item, 1, "5").slip == "whole"
    assert judge(item, 1, "1").slip == ""


def test_a_slip_inside_the_accepted_range_is_right() -> None:
    item = the_item("batch")
    assert judge(replace(item, slips=(slip("near", "3 gal"),)), 1, "3 gal").kind == "right"


def test_an_answer_without_a_range_is_its_own_range() -> None:
    item = the_item("must-batch")
    item = replace(item, answer=replace(item.answer, low=None, high=None))
    assert [judge(item, 1, text).kind for text in ("2.75", "2.74", "2.76")] == [
        "right",
        "wrong",
        "too-strong",
    ]


def test_the_nearest_of_two_slips_is_named() -> None:
    item = replace(the_item("batch"), slips=(slip("far", "9 gal"), slip("near", "8.6 gal")))
    assert judge(item, 1, "8.6").slip == "near"
    assert judge(replace(item, slips=item.slips[::-1]), 1, "9").slip == "far"


def test_a_slip_may_be_rounded_by_the_person_if_two_digits_are_left() -> None:
    item = replace(the_item("batch"), slips=(slip("long", "10.4 gal"), slip("short", "9.4 gal")))
    assert judge(item, 1, "10").slip == "long"
    assert judge(item, 1, "9").slip == ""


def test_a_near_miss_is_not_called_a_slip_farther_off() -> None:
    item = replace(the_item("batch"), slips=(slip("label", "3.6 gal"), slip("whole", "4 gal")))
    assert judge(item, 1, "3.1").slip == ""


def test_a_verdict_keeps_its_place_and_what_was_written() -> None:
    verdict = judge(the_item("batch"), 7, "  3 gal ")
    assert (verdict.position, verdict.written) == (7, "  3 gal ")


NASTY = "0123456789.,/-: '\"%½⁄²\u00a0\u200f\u202e\u0336e×x~()=galqtozñ\n\x00"


@given(st.sampled_from(ALL), st.data())
def test_a_changed_answer_is_judged_or_referred(case: Case, data: st.DataObject) -> None:
    text = list(case.written)
    for _ in range(data.draw(st.integers(1, 4))):
        place, sign = data.draw(st.integers(0, len(text))), data.draw(st.sampled_from(NASTY))
        text[place : place + data.draw(st.integers(0, 2))] = data.draw(
            st.sampled_from([[sign], [], [sign, sign], text[:3]])
        )
    verdict = judge(case.item, 1, "".join(text), data.draw(st.sampled_from(["en", "es"])))
    assert verdict.kind in {case.kind for case in ALL}
    assert verdict.counts == (verdict.kind in ("right", "right-other-unit"))


def test_few_answers_are_sent_to_the_trainer_but_where_they_must_be() -> None:
    sent = [case for case in ALL if case.kind == "ask-trainer"]
    assert len(sent) < len(ALL) / 5


def test_a_number_nearer_to_a_slip_than_to_the_answer_is_not_rounding() -> None:
    item = replace(the_item("batch"), slips=(slip("near", "3.165 gal"),))
    assert judge(item, 1, "3.1").kind == "wrong"
    assert judge(replace(item, slips=()), 1, "3.1").kind == "rounding"
