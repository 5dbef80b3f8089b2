"""Laws of marking, for any numbers: what is right counts, what is outside never does."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from generator.marking.judge import judge
from generator.maths.exact import decimal_text
from generator.maths.units import Unit, convert, parse_unit, shown
from generator.model.item import Answer, Item, SlipValue
from generator.model.paper import Verdict

KINDS = [
    ["gal", "qt", "pt", "cup", "floz", "tbsp"],
    ["min", "h", "s"],
    ["ft", "in", "yd"],
    ["lb", "ozwt"],
    ["sqft", "sqin"],
    ["gpm", "gph", "qt/min"],
    ["%", "ppm"],
    ["floz/gal", "floz/qt"],
    ["psi"],
    ["dBA"],
    ["usd"],
    ["degF"],
]
FULL = {"right", "right-other-unit"}
Speller = Callable[[Fraction], str]


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


def raised(value: Fraction) -> str:
    """A mixed number with small raised and lowered digits: 3 ¹⁄₄."""
    whole, rest = divmod(value.numerator, value.denominator)
    top = str(rest).translate(str.maketrans("0123456789", "⁰¹²³⁴⁵⁶⁷⁸⁹"))
    bottom = str(value.denominator).translate(str.maketrans("0123456789", "₀₁₂₃₄₅₆₇₈₉"))
    return f"{whole} {top}⁄{bottom}" if rest else str(whole)


def full_width(value: Fraction) -> str:
    return mixed(value).translate(str.maketrans("0123456789/", "０１２３４５６７８９／"))


def unbroken(value: Fraction) -> str:
    return mixed(value).replace(" ", "\u00a0")


def with_and(value: Fraction) -> str:
    return mixed(value).replace(" ", " and ")


def decimals(value: Fraction) -> str:
    """`value` in full if it ends within four decimals, else as a mixed number."""
    text = f"{float(value):.4f}".rstrip("0").rstrip(".")
    return text if Fraction(text) == value else mixed(value)


def comma(value: Fraction) -> str:
    """The decimals with a comma, but no three of them: those may be thousands."""
    text = decimals(value)
    return text.replace(".", ",") if len(text.partition(".")[2]) != 3 else text


def grouped(value: Fraction) -> str:
    """The decimals with commas between thousands; none where one comma is all there is."""
    text = decimals(value)
    whole, point, rest = text.partition(".")
    return f"{int(whole):,}{point}{rest}" if whole.isdigit() and len(whole) > 6 else text


def power(value: Fraction) -> str:
    """Scientific notation."""
    text = decimals(value / 100)
    return f"{text} x 10^2" if "/" not in text else mixed(value)


SPELLERS: list[Speller] = [
    *(mixed, over_one, hyphened, raised, full_width, unbroken, with_and),
    *(decimals, comma, grouped, power),
]
AROUND = ["{}", " {} ", "about {}", "= {}", "~{}", "({})", "answer: {}.", "son {}",
          "\u200e{}\u200f", "“{}”", "I think {}!", "-> {}"]  # fmt: skip
SPELLED = st.tuples(st.sampled_from(SPELLERS), st.sampled_from(AROUND))
LANGUAGES = st.sampled_from(["en", "es"])
MARKS = [Fraction(1, 4), Fraction(1, 8), Fraction(1, 10), Fraction(1, 100), Fraction(1)]
ROUNDINGS = st.sampled_from(["nearest", "down", "up"])


def accepted(value: Fraction, mark: Fraction, rounding: str) -> Answer:
    """An answer with its range as papers have it."""
    reach = {"nearest": (mark / 2, mark / 2), "down": (mark, 0), "up": (0, mark)}
    below, above = reach[rounding]
    return Answer(value, value, "gal", low=value - below, high=value + above, text="the answer")


@st.composite
def items(draw: st.DrawFn, rounding: st.SearchStrategy[str] = ROUNDINGS) -> Item:
    """A write-in item whose answer lies on a mark, rounded one of the three ways."""
    mark, way = draw(st.sampled_from(MARKS)), draw(rounding)
    answer = accepted(mark * draw(st.integers(2, 4000)), mark, way)
    unit = draw(st.sampled_from(KINDS))[0]
    return Item(
        "law",
        "write",
        1,
        "How much?",
        replace(answer, unit=unit),
        must=draw(st.booleans()),
        never_above=way == "down",
        words=("cannot", "too-strong"),
    )


def units_of(item: Item) -> list[Unit]:
    """Units in which the answer may be given, its own the first."""
    return [parse_unit(name) for names in KINDS if names[0] == item.answer.unit for name in names]


def range_of(item: Item) -> tuple[Fraction, Fraction]:
    low, high = item.answer.low, item.answer.high
    assert low is not None
    assert high is not None
    return low, high


def written(item: Item, value: Fraction, data: st.DataObject) -> Verdict:
    """The verdict on `value` in some spelling, some unit and some language of the paper."""
    spell, around = data.draw(SPELLED)
    unit = data.draw(st.sampled_from([None, *units_of(item)]))
    own = units_of(item)[0]
    number = spell(convert(value, own, unit) if unit else value)
    # three decimals and nothing before them but the whole may be thousands on a Spanish paper
    text = f"${number}" if unit and unit.text == "usd" else f"{number} {name(unit)}".strip()
    return judge(item, 1, around.format(text), data.draw(LANGUAGES))


def name(unit: Unit | None) -> str:
    return shown(unit).replace("oz (weight)", "oz wt") if unit else ""


@given(items(), st.integers(0, 100), st.data())
def test_whatever_lies_in_the_range_counts_in_any_spelling_and_unit(
    item: Item, percent: int, data: st.DataObject
) -> None:
    low, high = range_of(item)
    value = low + (high - low) * Fraction(percent, 100)
    assume(value > 0)
    verdict = written(item, value, data)
    assert verdict.kind in FULL, verdict
    assert verdict.counts


@given(items(), st.fractions(1, 10**4, max_denominator=100), st.booleans(), st.data())
def test_no_slip_earns_anything_in_any_spelling_and_unit(
    item: Item, times: Fraction, above: bool, data: st.DataObject
) -> None:
    exact = item.answer.value
    low, high = range_of(item)
    assert exact is not None
    reach = max(exact - low, high - exact) / Fraction(45, 100) + Fraction(1, 100)
    value = exact + reach * times if above else exact - reach * times
    assume(value > 0)
    slip = SlipValue("s", "a slip", "told", value, "", mixed(value))
    verdict = written(replace(item, slips=(slip,)), value, data)
    assert (verdict.counts, verdict.half) == (False, False), verdict
    other_fault = verdict.kind in ("ask-trainer", "wrong-unit", "too-strong")
    assert verdict.slip == "s" or other_fault


@given(items(), st.fractions(1, 10**4, max_denominator=100), st.sampled_from(AROUND))
def test_a_slip_is_named_where_it_is_written_as_it_was_printed(
    item: Item, away: Fraction, around: str
) -> None:
    low, high = range_of(item)
    value = high + (high - low) * 2 + away
    slip = SlipValue("s", "a slip", "told", value, "", mixed(value))
    verdict = judge(replace(item, slips=(slip,)), 1, around.format(mixed(value)))
    assert verdict.slip == "s"
    assert verdict.tell.endswith("told")


@given(items(st.just("down")), st.fractions(0, 10**4, max_denominator=10**6), st.data())
def test_nothing_above_exact_is_credited_where_it_is_dangerous(
    item: Item, more: Fraction, data: st.DataObject
) -> None:
    exact = item.answer.exact
    assert exact is not None
    assume(more > 0)
    verdict = written(item, exact + more, data)
    assert (verdict.counts, verdict.half) == (False, False), verdict
    assert verdict.kind in ("too-strong", "ask-trainer")


@given(
    items(), st.fractions(Fraction(1, 100), 10**4, max_denominator=100), st.booleans(), st.data()
)
def test_a_number_outside_the_range_never_counts(
    item: Item, away: Fraction, above: bool, data: st.DataObject
) -> None:
    low, high = range_of(item)
    value = high + away if above else low - away
    assume(value > 0)
    verdict = written(item, value, data)
    assert not verdict.counts, verdict
    nearest = high - (item.answer.value or 0) == (item.answer.value or 0) - low
    assert not verdict.half or (nearest and away <= (high - low) / 2)


@given(items(st.just("nearest")), st.fractions(Fraction(1, 100), 1, max_denominator=100))
def test_within_twice_the_range_only_the_rounding_is_wrong(item: Item, share: Fraction) -> None:
    low, high = range_of(item)
    for value in (high + (high - low) / 2 * share, low - (high - low) / 2 * share):
        if value > 0:
            verdict = judge(item, 1, mixed(value))
            assert (verdict.kind, verdict.counts) == ("rounding", False)
            assert verdict.half == (not item.must)


@given(st.integers(2, 4000), st.sampled_from(MARKS), st.sampled_from(["down", "up"]))
def test_on_the_unsafe_side_nothing_is_rounding(count: int, mark: Fraction, way: str) -> None:
    answer = accepted(count * mark, mark, way)
    item = Item("law", "write", 1, "How much?", answer, never_above=way == "down")
    assert answer.value is not None
    beyond = answer.value + (mark / 100 if way == "down" else -mark / 100)
    assert judge(item, 1, f"{mixed(beyond)} gal").kind not in FULL | {"rounding"}


@given(items(), st.text(max_size=40), LANGUAGES)
def test_no_text_raises(item: Item, text: str, language: str) -> None:
    for form in ("write", "choose", "order"):
        shaped = replace(item, form=form, order="BCA" if form == "order" else "")
        assert judge(shaped, 1, text, language).position == 1


LARGE = """5 6 7 50 600 5/1 6.5 7,25 , ; - – + = ( ) ~ < > not half per or to and of bleach water
mix cannot never about each max total i the one and quarter point thousand hundred e x 10^2"""


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


def test_a_wide_range_lets_nothing_dangerous_through() -> None:
    answer = Answer(Fraction(3), Fraction(3), "gal", low=Fraction(2), high=Fraction(4))
    item = Item("law", "write", 1, "How much stock?", answer, never_above=True)
    assert judge(item, 1, "3.1 gal").kind == "too-strong"


def as_decimal(value: Fraction) -> str:
    return decimal_text(value, 6, trim=False).replace(",", "")


def expected(item: Item, plain: Fraction, unit: str) -> str:
    """The kind of a plain number, worked out step by step in the order of the rules."""
    low, high = range_of(item)
    exact, limit = item.answer.value or Fraction(0), Fraction(1, 10**6)
    if unit == "lb":
        return "wrong-unit"
    value = plain / 4 if unit == "qt" else plain
    dangerous = item.never_above and value > exact
    if low <= value <= high and not dangerous:
        bare = not unit and not item.unit_printed
        return "no-unit" if bare else "right-other-unit" if unit == "qt" else "right"
    if dangerous:
        return "too-strong"
    if abs(value - exact) <= high - low and not item.never_above and (unit or item.unit_printed):
        return "rounding"
    factors = [1, 4, 8, 16, 128, Fraction(231 * 254**3, 10**9), Fraction(231 * 254**3, 10**6)]
    mixed_up = [value / factor for factor in factors[1:]] + [value * f for f in factors[1:]]
    if (unit and low <= plain <= high) or any(low - limit <= v <= high + limit for v in mixed_up):
        return "wrong-unit"
    near = Fraction(1, 200) + limit  # half the last digit printed
    if any(abs(slip.value - value) <= near for slip in item.slips if slip.value is not None):
        return "slip"
    tens = (value * Fraction(10) ** places for places in range(-6, 7))
    return "point" if any(low - limit <= ten <= high + limit for ten in tens) else "wrong"


@pytest.mark.parametrize("flags", ["", "must", "never-above", "unit-not-printed"])
def test_the_rules_are_tried_in_their_order(flags: str) -> None:
    low = Fraction("2.8613") if flags != "never-above" else Fraction("2.6227")
    high = Fraction("2.8987") if flags != "never-above" else Fraction("2.88")
    answer = Answer(Fraction("2.88"), Fraction("2.88"), "gal", low=low, high=high)
    slips = tuple(
        SlipValue(f"s{value}", "", "told", Fraction(value), "", value)
        for value in ("3.19", "5.76", "312.5", "1.15")
    )
    item = replace(
        Item("law", "write", 1, "How much?", answer, slips=slips),
        must=flags == "must",
        never_above=flags == "never-above",
        unit_printed=flags != "unit-not-printed",
    )
    seen = set()
    for hundredth in (*range(3, 1300, 7), *range(240, 330, 2), *range(28000, 37500, 250)):
        plain = Fraction(hundredth, 100)
        for unit in ("", "gal", "qt", "lb"):
            verdict = judge(item, 1, f"{as_decimal(plain)} {unit}")
            kind = expected(item, plain, unit)
            assert verdict.kind == kind, (plain, unit, verdict)
            assert verdict.counts == (kind in FULL)
            assert verdict.half == (kind in ("no-unit", "rounding") and not item.must)
            seen.add(kind)
    assert {"right", "right-other-unit", "wrong-unit", "point", "wrong"} <= seen | {"right"}
