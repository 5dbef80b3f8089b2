"""Laws of marking, for any numbers: what is right counts, what is outside never does."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.marking.judge import judge
from generator.maths.exact import decimal_text
from generator.maths.units import convert, parse_unit, shown
from generator.model.item import Answer, Item, SlipValue

GAL = parse_unit("gal")
MARKS = [Fraction(1, 4), Fraction(1, 8), Fraction(1, 10), Fraction(1, 100), Fraction(1)]


def mixed(value: Fraction) -> str:
    """`value` as a whole number and a fraction."""
    whole, rest = divmod(value.numerator, value.denominator)
    if not rest:
        return str(whole)
    return f"{whole} {rest}/{value.denominator}" if whole else f"{rest}/{value.denominator}"


def over_one(value: Fraction) -> str:
    return f"{value.numerator}/{value.denominator}"


def hyphened(value: Fraction) -> str:
    return mixed(value).replace(" ", "-")


def comma(value: Fraction) -> str:
    """`value` with a decimal comma and no groups, as printed to two places."""
    return decimal_text(value).replace(",", "").replace(".", ",")


EXACT: list[Callable[[Fraction], str]] = [mixed, over_one, hyphened]
AROUND = ["{}", " {} ", "{} gal", "{} gallons", "{} GAL.", "about {} gal", "= {} gal", "gal {}",
          "~{}", "{} gal of bleach", "({})", "{} galones de cloro"]  # fmt: skip


@st.composite
def items(draw: st.DrawFn) -> Item:
    """A write-in item whose answer lies on a mark, rounded one of the three ways."""
    mark = draw(st.sampled_from(MARKS))
    value = mark * draw(st.integers(1, 4000))
    low, high = draw(st.sampled_from([(mark / 2, mark / 2), (mark, Fraction(0)), (0, mark)]))
    answer = Answer(value, value, "gal", low=value - low, high=value + high)
    return Item(
        "law",
        "write",
        1,
        "How much stock?",
        answer,
        must=draw(st.booleans()),
        never_above=draw(st.booleans()),
        words=("cannot", "too-strong"),
    )


@given(items(), st.sampled_from([*EXACT, decimal_text, comma]), st.sampled_from(AROUND))
def test_a_printed_right_answer_is_right(
    item: Item, printed: Callable[[Fraction], str], around: str
) -> None:
    value = item.answer.value
    assert value is not None
    if printed in (decimal_text, comma) and value * 100 % 1:
        return  # an eighth has three decimals; two would be another number
    verdict = judge(item, 1, around.format(printed(value)))
    assert (verdict.kind, verdict.counts) == ("right", True), verdict


@given(items(), st.sampled_from(["qt", "pt", "cup", "floz", "tbsp"]))
def test_the_right_answer_in_another_unit_counts(item: Item, name: str) -> None:
    value, unit = item.answer.value, parse_unit(name)
    assert value is not None
    verdict = judge(item, 1, f"{mixed(convert(value, GAL, unit))} {shown(unit)}")
    assert (verdict.kind, verdict.counts) == ("right-other-unit", True)


@given(items(), st.data())
def test_both_ends_of_the_range_count(item: Item, data: st.DataObject) -> None:
    low, high = item.answer.low, item.answer.high
    assert low is not None
    assert high is not None
    share = Fraction(data.draw(st.integers(0, 100)), 100)
    for value in (low, high, low + (high - low) * share):
        assert judge(item, 1, mixed(value)).counts or value == 0


@given(
    items(),
    st.fractions(min_value=Fraction(1, 100), max_value=10**4, max_denominator=100),
    st.booleans(),
    st.sampled_from(EXACT),
    st.sampled_from(AROUND),
)
def test_a_number_outside_the_range_never_counts(
    item: Item, away: Fraction, above: bool, printed: Callable[[Fraction], str], around: str
) -> None:
    edge = item.answer.high if above else item.answer.low
    assert edge is not None
    value = edge + away if above else edge - away
    if value <= 0:
        return
    verdict = judge(item, 1, around.format(printed(value)))
    assert not verdict.counts, verdict
    assert verdict.kind != "ask-trainer"
    assert (verdict.kind == "too-strong") == (above and item.never_above)


@given(items(), st.fractions(min_value=1, max_value=10**4, max_denominator=100), st.booleans())
def test_a_slip_is_named_and_never_counts(item: Item, away: Fraction, word: bool) -> None:
    high = item.answer.high
    assert high is not None
    value = high + away
    slip = SlipValue("s", "a slip", "told", value, "", mixed(value))
    item = Item(**{**vars(item), "slips": (slip,)})
    verdict = judge(item, 1, mixed(value) + (" gal" if word else ""))
    assert (verdict.slip, verdict.counts) == ("s", False)
    assert verdict.tell.endswith("told")


@given(items(), st.text(max_size=40))
def test_no_text_raises(item: Item, text: str) -> None:
    for form in ("write", "choose", "order"):
        shaped = Item(**{**vars(item), "form": form, "order": "BCA" if form == "order" else ""})
        assert judge(shaped, 1, text).position == 1


LARGE = """5 6 7 50 600 5/1 6.5 7,25 , ; - – + = ( ) ~ < > not half per or to and of bleach water
mix cannot never about each max total i the"""


@given(st.lists(st.sampled_from(LARGE.split()), max_size=8).map(" ".join))
def test_no_play_of_words_makes_large_numbers_small(text: str) -> None:
    answer = Answer(Fraction(3), Fraction(3), "gal", low=Fraction(2), high=Fraction(4))
    item = Item("law", "write", 1, "How much stock?", answer, words=("cannot",), must=True)
    assert not judge(item, 1, text).counts


@pytest.mark.parametrize("never_above", [True, False])
def test_the_least_excess_is_too_strong(never_above: bool) -> None:
    answer = Answer(
        Fraction(11, 4), Fraction(11, 4), "gal", low=Fraction(5, 2), high=Fraction(11, 4)
    )
    item = Item("law", "write", 1, "How much stock?", answer, never_above=never_above)
    verdict = judge(item, 1, "2.750000000001 gal")
    assert (verdict.kind, verdict.counts) == ("too-strong" if never_above else "wrong", False)
