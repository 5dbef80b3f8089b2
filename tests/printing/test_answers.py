"""What the key says of an item."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from types import ModuleType

from hypothesis import given
from hypothesis import strategies as st

from generator.model.item import Answer, Item
from generator.printing.answers import accepted, key_text, slip_marks, spelled_out


def item(low: Fraction | None, high: Fraction | None, unit: str = "gal") -> Item:
    return Item("x", "write", 1, "How much?", Answer(low, low, unit, low=low, high=high, text="3"))


def test_the_range_is_printed_in_full_where_it_ends() -> None:
    assert accepted(item(Fraction("2.625"), Fraction("2.875"))) == "2.625 to 2.875 gal"


def test_a_range_that_never_ends_is_rounded_inwards() -> None:
    assert accepted(item(Fraction(20, 3), Fraction(23, 3), "min")) == "6.67 to 7.66 min"


def test_a_word_has_no_range() -> None:
    assert accepted(item(None, None)) == ""


def test_one_value_is_no_range() -> None:
    assert accepted(item(Fraction(3), Fraction(3))) == ""


@given(
    low=st.fractions(0, 1000, max_denominator=999),
    span=st.fractions(Fraction(1, 100), 50, max_denominator=999),
)
def test_the_printed_range_lies_within_the_true_one(low: Fraction, span: Fraction) -> None:
    printed = accepted(item(low, low + span, "gal")).removesuffix(" gal").replace(",", "")
    first, last = (Fraction(text) for text in printed.split(" to "))

    assert low <= first <= last <= low + span


def test_letters_of_each_form(samples: ModuleType) -> None:
    written, chosen, ordered = samples.BATCH[0], samples.FIFTH, samples.ORDER

    assert [key_text(i) for i in (written, chosen, ordered)] == ["2 3/4 gal", "B", "B C A"]
    assert [spelled_out(i) for i in (written, chosen, ordered)] == [
        "",
        "One fifth",
        "Water, Stock, Soap",
    ]


def test_three_slips_at_most_each_with_its_letter(samples: ModuleType) -> None:
    crowded = replace(samples.BATCH[0], slips=samples.BATCH[0].slips * 2)

    assert [(mark.letter, mark.written) for mark in slip_marks(crowded)] == [
        ("a", "188 gal"),
        ("b", "2.4 gal"),
        ("c", "3.1 gal"),
    ]


def test_wrong_options_are_the_slips_of_a_choice(samples: ModuleType) -> None:
    marks = slip_marks(samples.FIFTH)

    assert [(mark.letter, mark.written) for mark in marks] == [("a", "A"), ("b", "C")]
    assert {mark.name for mark in marks} == {"took it for a part of four"}
