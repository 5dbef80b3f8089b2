"""Whatever people type: no exception, and no credit where no right number stands."""

from __future__ import annotations

import tempfile
import unicodedata
from dataclasses import replace
from fractions import Fraction
from pathlib import Path

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from generator.errors import Faults, Refusal
from generator.marking.answers import LONGEST, parse_csv, parse_line, read_table
from generator.marking.day import read_day_table
from generator.marking.judge import judge
from generator.marking.ticks import parse_ticks
from generator.model.item import Answer, Item, Option

RIGHT = Fraction(7919)  # a prime, which no slip of a pen makes of another number
UNITS = ["gal", "", "%", "fraction", "ft", "min", "usd", "degF", "floz/gal", "1"]
KINDS = {"right", "right-other-unit", "no-unit", "rounding", "wrong-unit", "too-strong", "slip",
         "point", "blank", "wrong", "ask-trainer"}  # fmt: skip


def item(form: str, unit: str = "gal", word: str = "") -> Item:
    """An item of any form whose one right answer is 7919, a word, B, or C A B."""
    value = None if word else RIGHT
    answer = Answer(value, value, unit, word=word, low=value, high=value, text="7919")
    options = (Option("Water", False), Option("Stock", True), Option("7 gal", False))
    shuffled = {"write": (), "choose": options, "order": options}[form]
    order = "CAB" if form == "order" else ""
    return Item("x", form, 1, "How much stock?", answer, shuffled, order, words=("cannot",))


ITEMS = [item(form) for form in ("choose", "order")]
ITEMS += [item("write", unit) for unit in UNITS] + [item("write", word="cannot")]
ANY = st.text(st.characters(), max_size=60) | st.text(
    "0123456789 /.,:;-+x*^%$'\"()[]½¼⅓²³−–·×÷=~abcgltqoz\u200b\u202e\ud800\x00", max_size=60
)


def says_nothing(sign: str) -> bool:
    """Whether a sign can be no letter of a number, a unit or an option, however it is written."""
    plain = unicodedata.normalize("NFKD", sign)
    spelled = any(c.isascii() and c.isalnum() for c in plain)
    return not (spelled or any(unicodedata.numeric(c, None) is not None for c in plain))


MUTE = st.text(st.characters().filter(says_nothing), max_size=30)


@given(st.sampled_from(ITEMS), ANY, st.sampled_from(["en", "es"]))
def test_any_text_has_a_verdict(item: Item, text: str, language: str) -> None:
    verdict = judge(item, 3, text, language)
    assert verdict.kind in KINDS
    assert (verdict.position, verdict.written) == (3, text)
    assert verdict.counts == (verdict.kind in ("right", "right-other-unit"))


@given(st.sampled_from(ITEMS), MUTE, st.sampled_from(["en", "es"]))
def test_a_text_without_a_number_or_a_letter_earns_nothing(
    item: Item, text: str, language: str
) -> None:
    verdict = judge(item, 1, text, language)
    assert (verdict.counts, verdict.half) == (False, False)


@given(
    MUTE, st.sampled_from(["5", "79", "791", "9191", "79190000", "1/7919", "0.7919"]), MUTE,
    st.sampled_from(["en", "es"]),
)  # fmt: skip
def test_no_signs_round_a_wrong_number_make_it_right(
    before: str, number: str, after: str, language: str
) -> None:
    verdict = judge(item("write"), 1, f"{before}{number}{after}", language)
    assert (verdict.counts, verdict.half) == (False, False)


@example("7", "\t", "en")
@given(st.sampled_from(["7", "9", "1", "79", "19", "791"]), MUTE, st.sampled_from(["en", "es"]))
def test_signs_between_the_digits_never_join_them_unseen(
    start: str, between: str, language: str
) -> None:
    rest = str(RIGHT).removeprefix(start)
    seen = unicodedata.normalize("NFKC", between).strip(" ,.'")
    verdict = judge(item("write"), 1, f"{start}{between}{rest}", language)
    assert not verdict.counts or not seen


@pytest.mark.parametrize("form", ["write", "choose", "order"])
@pytest.mark.parametrize(
    "piece", ["1 ", "1 000", "¹⁄₂ ", "A B ", "answer is ", "(", "a)", "3 gal ", "\u0301", "½", "-"]
)
def test_a_text_without_end_has_a_verdict_too(form: str, piece: str) -> None:
    assert not judge(item(form), 1, piece * 3000).counts


@pytest.mark.parametrize(
    "text",
    ["7919 gal**999999999", "7919 ft**9**9", "7919 gal/(((((gal)))))", "7919*10^999999999",
     "7919e999999999", "9^9^9^9", "7919/0", "0/0 gal", "1" * 200, "7919 __import__('os')"],
)  # fmt: skip
def test_what_would_be_large_is_not_worked_out(text: str) -> None:
    for unit in UNITS:
        assert not judge(replace(item("write", unit)), 1, text).counts


@given(ANY, st.integers(1, 30))
def test_lines_and_tables_of_any_text_are_read_or_refused(text: str, count: int) -> None:
    for read in (parse_line, parse_csv):
        try:
            answers = read(text, count)
        except (Refusal, Faults) as trouble:
            assert str(trouble)  # noqa: PT017 - either outcome is right; no other error may come
        else:
            assert len(answers) == count
    try:
        ticks = parse_ticks(text, count)
    except Refusal as refusal:
        assert refusal.next  # noqa: PT017
    else:
        assert all(1 <= place <= count for place in ticks)


HEADS = st.sampled_from(["", "paper,name,ticks\n", "code;answers\n", '"paper","ticks"\r\n'])


@given(HEADS, st.binary(max_size=80) | ANY.map(lambda text: text.encode("utf-8", "replace")))
def test_a_days_table_of_any_bytes_is_read_or_refused(head: str, rest: bytes) -> None:
    with tempfile.NamedTemporaryFile(suffix=".csv") as file:
        file.write(head.encode() + rest)
        file.flush()
        try:
            rows, faults = read_day_table(Path(file.name))
        except Refusal as refusal:
            assert refusal.next  # noqa: PT017
        else:
            assert rows or faults
            assert all(fault.line >= 0 and fault.next for fault in faults)
            assert all(row.code and bool(row.ticks) != bool(row.answers) for row in rows)


def test_a_table_without_end_is_refused(tmp_path: Path) -> None:
    path = tmp_path / "answers.csv"
    with path.open("wb") as file:
        file.truncate(10**10)
    with pytest.raises(Refusal, match="too large"):
        read_table(path)
    path.write_text(" " * LONGEST)
    with pytest.raises(Faults, match="no row for item 1"):
        parse_csv(path, 1)
