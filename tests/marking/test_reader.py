"""Reading a written answer: what stands in the reading, and the laws it keeps."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.marking.reader import read_answer
from generator.marking.text import LONGEST
from generator.maths.amounts import amount_text, mark_text, number_text
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


@pytest.mark.parametrize("text", ["1-4", "1 – 4", "1 to 4", "uno a cuatro", "one part to four"])
def test_a_dash_or_a_word_makes_a_ratio_too(text: str) -> None:
    assert read_answer(text, ONE).value == 4


@pytest.mark.parametrize("text", ["3-4", "10-20", "4 5", "1:4:1", "1 in 5"])
def test_what_is_no_ratio_to_one_is_not_made_one(text: str) -> None:
    assert read_answer(text, ONE).trouble


def test_a_share_is_so_many_in_so_many() -> None:
    share = parse_unit("fraction")
    for text in ("1 in 5", "1 of 5", "1 out of 5", "1 part in 5", "una de cada cinco"):
        assert read_answer(text, share).value == Fraction(1, 5), text
    assert read_answer("5 in 1", share).trouble


def test_a_fraction_may_be_two_numbers_run_together() -> None:
    assert read_answer("31/4", GAL).others == (Fraction(13, 4),)
    assert read_answer("311/16", GAL).others == (Fraction(59, 16),)
    assert read_answer("13/16", GAL).others == (Fraction(19, 16),)
    assert read_answer("7/8", GAL).others == ()


@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("1.2e4", 12000),
        ("1.2 x 10^4", 12000),
        ("1,2×10⁴", 12000),
        ("1.2*10**4", 12000),
        ("12000E-3", 12),
        ("5·10⁻¹", Fraction(1, 2)),
    ],
)
def test_scientific_notation(text: str, value: Fraction) -> None:
    assert read_answer(text, GAL).value == value


def test_the_two_customs_of_a_comma_are_told_apart_by_the_reading() -> None:
    reading = read_answer("-1,280", GAL)
    assert (reading.value, reading.custom) == (-1280, Fraction(-128, 100))
    assert set(reading.others) == {1280, Fraction(128, 100)}


def test_eleven_in_spanish_is_no_number_in_english() -> None:
    assert read_answer("once", GAL, language="es").value == 11
    assert read_answer("once", GAL).trouble


@pytest.mark.parametrize(
    "text", ["3\u200f1/4", "3\u200b4", "3\u00ad4", "3\n4", "3\x004", "3\u20284", "\u202e43"]
)
def test_nothing_unseen_joins_or_turns_two_numbers(text: str) -> None:
    assert read_answer(text, GAL).trouble


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


PRINTED = [*(name for names in KINDS for name in names), "fraction", "usd", "psi", "dBA", "1",
           "sqft/h", "sqft/gal", "lb/gal", "ft/min", "mph", "degF", "deg", "A", "Ah", "cuft", "lbf",
           "floz/h", "g/L", "ozwt/gal"]  # fmt: skip
MARKS = [
    None,
    *(Fraction(1, n) for n in (1, 2, 4, 8, 16, 10, 100, 1000)),
    Fraction(5),
    Fraction(25),
]


@given(st.sampled_from(PRINTED), st.sampled_from(MARKS), st.integers(1, 10**5), st.booleans())
def test_what_a_page_prints_is_read_back_as_it_was_printed(
    name: str, mark: Fraction | None, count: int, spanish: bool
) -> None:
    unit = parse_unit(name)
    value = count * (mark or Fraction(1, 400))
    if name == "fraction" and mark is None:
        value = Fraction(count % 100, 100)
    text = amount_text(value, unit, mark)
    reading = read_answer(text, unit, language="es" if spanish else "en")
    assert reading.value == value, text
    assert not reading.trouble


@given(st.sampled_from(PRINTED), st.fractions(Fraction(1, 9973), 10**6, max_denominator=9973))
def test_what_a_page_prints_rounded_is_read_back_rounded(name: str, value: Fraction) -> None:
    unit = parse_unit(name)
    text = amount_text(value, unit)
    reading = read_answer(text, unit)
    assert reading.value is not None, text
    assert abs(reading.value - value) <= max(reading.step / 2, Fraction(0)), text


@pytest.mark.parametrize("mark", [Fraction(1, 4), Fraction(1, 10), Fraction(5)])
def test_the_mark_itself_is_read_back(mark: Fraction) -> None:
    assert read_answer(mark_text(mark, GAL), GAL).value == mark
    assert read_answer(number_text(mark, mark), GAL).value == mark


def listed(words: str) -> list[str]:
    return words.split()


ENGLISH = listed(
    "zero one two three four five six seven eight nine ten eleven twelve thirteen fourteen "
    "fifteen sixteen seventeen eighteen nineteen"
)
TENS = listed("twenty thirty forty fifty sixty seventy eighty ninety")
SPANISH = listed(
    "cero uno dos tres cuatro cinco seis siete ocho nueve diez once doce trece catorce quince "
    "dieciséis diecisiete dieciocho diecinueve veinte veintiuno veintidós veintitrés "
    "veinticuatro veinticinco veintiséis veintisiete veintiocho veintinueve"
)
DECENAS = listed("treinta cuarenta cincuenta sesenta setenta ochenta noventa")
CENTENAS = listed(
    "ciento doscientos trescientos cuatrocientos quinientos seiscientos setecientos "
    "ochocientos novecientos"
)


def english(number: int) -> str:
    """A whole number below a million in English words."""
    if number < 20:
        return ENGLISH[number]
    if number < 100:
        return TENS[number // 10 - 2] + (f"-{ENGLISH[number % 10]}" if number % 10 else "")
    size, name = (100, "hundred") if number < 1000 else (1000, "thousand")
    rest = f" {english(number % size)}" if number % size else ""
    return f"{english(number // size)} {name}{rest}"


def spanish(number: int) -> str:
    """A whole number below a million in Spanish words."""
    if number < 30:
        return SPANISH[number]
    if number < 100:
        return DECENAS[number // 10 - 3] + (f" y {SPANISH[number % 10]}" if number % 10 else "")
    if number < 1000:
        word = "cien" if number == 100 else CENTENAS[number // 100 - 1]
        return word + (f" {spanish(number % 100)}" if number % 100 else "")
    thousand = "mil" if number < 2000 else f"{spanish(number // 1000)} mil"
    return thousand + (f" {spanish(number % 1000)}" if number % 1000 else "")


@given(st.integers(0, 999_999), st.sampled_from(["", " gal", " gallons of mix"]))
def test_numbers_in_words_are_read(number: int, after: str) -> None:
    for text in (english(number), english(number).replace("-", " "), english(number).upper()):
        assert read_answer(text + after, GAL).value == number, text
    assert read_answer(spanish(number) + after, GAL, language="es").value == number


PART_WORDS = {
    (1, 2): ["a half", "one half", "half", "medio"],
    (1, 4): ["a quarter", "one quarter", "one-fourth", "cuarto"],
    (3, 4): ["three quarters", "three-quarters", "3 quarters"],
    (2, 3): ["two thirds", "dos tercios"],
    (3, 8): ["three eighths", "tres octavos"],
}


@given(st.integers(1, 999), st.sampled_from(sorted(PART_WORDS)), st.data())
def test_parts_in_words_are_read(number: int, part: tuple[int, int], data: st.DataObject) -> None:
    words = data.draw(st.sampled_from(PART_WORDS[part]))
    for text in (f"{number} and {words}", f"{number} y {words}", f"{english(number)} and {words}"):
        assert read_answer(text, MIN).value == number + Fraction(*part), text


@given(st.integers(0, 10**9))
def test_thousands_may_be_grouped(value: int) -> None:
    for grouped in (f"{value:,}", f"{value:,}".replace(",", " "), f"{value:_}".replace("_", " ")):
        assert read_answer(grouped, GAL).value == value


ODDMENTS = """1 2 3 4 0 12 000 1/2 ½ ¾ . , : ; - – + / * = ( ) ' " $ % ° # ~ ² ⁴ ⁄ < gal qt oz fl
lb ft in per a an to and or y water stock part parts never can't not half one uno min h m s A g x é
∞ ٣ e4 x10^2 point thousand mil cuarto cuartos quarter de of once ciento por \u200f \u202e \u0336"""
PIECES = st.sampled_from(ODDMENTS.split())


@given(st.one_of(st.text(max_size=60), st.lists(PIECES, max_size=9).map(" ".join)))
def test_any_text_is_read_or_referred(text: str) -> None:
    for wanted in (GAL, ONE, FT, MIN, parse_unit("floz/gal"), parse_unit("fraction")):
        for language in ("en", "es"):
            reading = read_answer(text, wanted, ("never", "cannot", "too-strong"), None, language)
            outcomes = (reading.value is not None, reading.unit_wrong, reading.word)
            assert sum(map(bool, (*outcomes, reading.trouble))) == 1, text


@given(st.lists(PIECES, min_size=1, max_size=6).map("".join))
def test_pieces_run_together_are_read_or_referred(text: str) -> None:
    reading = read_answer(text, GAL, ("never",))
    assert bool(reading.trouble) != bool(
        reading.value is not None or reading.unit_wrong or reading.word
    )
