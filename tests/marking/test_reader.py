"""Reading a written answer: what stands in the reading, and the laws it keeps."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.marking.reader import read_answer
from generator.marking.text import LONGEST
from generator.maths.units import Unit, convert, parse_unit, shown

GAL, ONE, FT, MIN = map(parse_unit, ("gal", "1", "ft", "min"))
KINDS = [
    ["gal", "qt", "pt", "cup", "floz", "tbsp", "tsp", "L", "mL"],
    ["s", "min", "h", "day"],
    ["in", "ft", "yd", "mi"],
    ["lb", "ozwt", "kg"],
    ["sqft", "sqin"],
    ["gpm", "gph", "gal/s", "L/min", "qt/min"],
    ["%", "ppm"],
    ["floz/gal", "floz/qt"],
]
POSITIVE = st.fractions(min_value=Fraction(1, 1000), max_value=10**6, max_denominator=1000)


def test_a_bare_number_is_in_the_unit_asked_for() -> None:
    reading = read_answer("3.25", GAL)
    assert reading.value == reading.plain == Fraction(13, 4)
    assert not reading.unit_given
    assert reading.step == Fraction(1, 100)


def test_another_unit_is_converted_and_the_number_kept_as_written() -> None:
    reading = read_answer("13 qt", GAL)
    assert (reading.value, reading.plain, reading.unit) == (Fraction(13, 4), 13, parse_unit("qt"))
    assert reading.unit_given
    assert reading.step == Fraction(1, 4)


def test_a_unit_of_another_kind_gives_no_value() -> None:
    reading = read_answer("3 lb", GAL)
    assert reading.unit_wrong
    assert reading.unit_given
    assert (reading.value, reading.plain, reading.unit) == (None, 3, parse_unit("lb"))


def test_amounts_in_falling_units_are_one_sum() -> None:
    reading = read_answer("3 gal 1 qt 1 pt", GAL)
    assert (reading.value, reading.plain, reading.unit) == (Fraction(27, 8), None, None)
    assert reading.unit_given


def test_a_sum_in_units_of_another_kind_is_a_wrong_unit() -> None:
    reading = read_answer("5 ft 6 inches", GAL)
    assert (reading.unit_wrong, reading.unit_given, reading.value) == (True, True, None)


@pytest.mark.parametrize(
    ("text", "value", "other"),
    [
        ("1,280", Fraction(1280), Fraction(128, 100)),
        ("1.280", Fraction(128, 100), Fraction(1280)),
        ("0,125", Fraction(1, 8), None),
        ("1,28", Fraction(128, 100), None),
        ("1234,567", Fraction(1234567, 1000), None),
        ("1,280,000", Fraction(1280000), None),
        ("1.280.000", Fraction(1280000), None),
        ("1,280.5", Fraction(2561, 2), None),
        ("1.280,5", Fraction(2561, 2), None),
        ("-3", Fraction(-3), Fraction(3)),
    ],
)
def test_both_customs_of_comma_and_point(text: str, value: Fraction, other: Fraction) -> None:
    reading = read_answer(text, GAL)
    assert reading.value == value
    assert reading.others == (() if other is None else (other,))


def test_a_ratio_is_water_to_one_of_stock() -> None:
    reading = read_answer("1:4", ONE)
    assert (reading.value, reading.ratio, reading.others) == (4, (1, 4), (Fraction(1, 4),))


@pytest.mark.parametrize(
    "text", ["4 parts water to 1 part stock", "1 stock to 4", "1 to 4 water", "4 to 1 stock"]
)
def test_words_say_which_side_of_a_ratio_is_water(text: str) -> None:
    reading = read_answer(text, ONE)
    assert (reading.value, reading.ratio, reading.others) == (4, (1, 4), ())


def test_a_ratio_that_is_not_to_one_may_also_mean_its_second_number() -> None:
    assert read_answer("2:8", ONE).others == (Fraction(1, 4), 8)


def test_a_ratio_is_read_only_where_one_is_wanted() -> None:
    assert read_answer("1:4", GAL).trouble
    assert read_answer("1:4", ONE, ratio=False).trouble
    assert read_answer("3 to 4", GAL).trouble == "a range"


def test_words_are_those_of_the_item() -> None:
    assert read_answer("won't run out", MIN, ["never"]).word == "never"
    assert read_answer("won't run out", MIN, ["cannot"]).trouble
    assert read_answer("won't run out", MIN).word == ""


@pytest.mark.parametrize(
    "text", ["stock .5 gal", "½\u200bgal", "\ufeff½ gal", "½\u00a0gal", "½\tgal"]
)
def test_odd_spaces_and_a_leading_point(text: str) -> None:
    assert read_answer(text, GAL).value == Fraction(1, 2)


@pytest.mark.parametrize("unit", ["ft", "in", "yd"])
def test_strokes_are_feet_and_inches(unit: str) -> None:
    wanted = parse_unit(unit)
    for text in ("5'6\"", "5' 6\"", "5’6”", "5'6", "5 ft 6 in", "5ft6in"):
        assert read_answer(text, wanted).value == convert(Fraction(66), parse_unit("in"), wanted)


def test_a_stroke_has_no_sure_meaning_for_a_time() -> None:
    assert read_answer("5'30\"", MIN).trouble


def test_an_endless_answer_is_not_read() -> None:
    assert read_answer("3" + " " * LONGEST, GAL).trouble
    assert read_answer("9" * 100, GAL).trouble


@given(POSITIVE, st.sampled_from(KINDS).flatmap(lambda names: st.permutations(names)))
def test_numbers_in_other_units_convert_exactly(value: Fraction, names: list[str]) -> None:
    written, wanted = map(parse_unit, names[:2])
    text = f"{value.numerator}/{value.denominator} {spelled(written)}"
    reading = read_answer(text, wanted)
    assert reading.value == convert(value, written, wanted), text
    assert reading.plain == value
    assert not reading.trouble


def spelled(unit: Unit) -> str:
    """The unit as pages print it, but for ounces of weight, which need no brackets."""
    return shown(unit).replace("oz (weight)", "oz wt")


@given(st.integers(0, 10**6), st.integers(0, 3), st.integers(0, 1))
def test_gallons_quarts_and_pints_add_up(gallons: int, quarts: int, pints: int) -> None:
    reading = read_answer(f"{gallons} gal {quarts} qt {pints} pt", GAL)
    assert reading.value == gallons + Fraction(quarts, 4) + Fraction(pints, 8)


@given(st.integers(0, 10**9), st.integers(0, 6))
def test_decimals_are_read_exactly_with_point_and_with_comma(digits: int, places: int) -> None:
    value = Fraction(digits, 10**places)
    whole, rest = divmod(digits, 10**places)
    decimals = f"{rest:0{places}d}" if places else ""
    pointed = read_answer(f"{whole}.{decimals}", GAL)
    assert pointed.value == value
    if places not in (0, 3):
        assert read_answer(f"{whole},{decimals}", GAL).value == value
    if places == 3:  # a group of three may be thousands: both are kept
        comma = read_answer(f"{whole},{decimals}", GAL)
        assert value in (comma.value, *comma.others)


@given(st.integers(0, 10**9))
def test_thousands_may_be_grouped(value: int) -> None:
    for grouped in (f"{value:,}", f"{value:,}".replace(",", " "), f"{value:_}".replace("_", " ")):
        assert read_answer(grouped, GAL).value == value


ODDMENTS = """1 2 3 4 0 12 000 1/2 ½ ¾ . , : ; - – + / * = ( ) ' " $ % ° # ~ ² < gal qt oz fl lb ft
in per a an to and or y water stock part parts never can't not half one uno min h m s A g x é ∞ ٣"""
PIECES = st.sampled_from(ODDMENTS.split())


@given(st.one_of(st.text(max_size=60), st.lists(PIECES, max_size=9).map(" ".join)))
def test_any_text_is_read_or_referred(text: str) -> None:
    for wanted in (GAL, ONE, FT, MIN, parse_unit("floz/gal")):
        reading = read_answer(text, wanted, ("never", "cannot", "too-strong"))
        outcomes = (reading.value is not None, reading.unit_wrong, reading.word, reading.trouble)
        assert sum(map(bool, outcomes)) == 1, text


@given(st.lists(PIECES, min_size=1, max_size=6).map("".join))
def test_pieces_run_together_are_read_or_referred(text: str) -> None:
    reading = read_answer(text, GAL, ("never",))
    assert bool(reading.trouble) != bool(
        reading.value is not None or reading.unit_wrong or reading.word
    )
