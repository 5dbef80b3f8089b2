"""Paper codes: a slip of the hand is refused, a way of writing is forgiven."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.errors import Refusal
from generator.papers.codes import ALPHABET, new_code, read_code

CODES = sorted({new_code(()) for _ in range(200)})


def test_a_code_reads_as_itself() -> None:
    for code in CODES:
        assert read_code(code) == code
        assert len(code) == 7
        assert code[3] == "-"
        assert set(code) - {"-"} <= set(ALPHABET)


def test_every_single_mistyped_character_is_refused() -> None:
    for code in CODES:
        plain = code.replace("-", "")
        for place, right in enumerate(plain):
            for wrong in set(ALPHABET) - {right}:
                with pytest.raises(Refusal, match="mistyped"):
                    read_code(plain[:place] + wrong + plain[place + 1 :])


def test_every_two_neighbours_swapped_are_refused() -> None:
    for code in CODES:
        plain = code.replace("-", "")
        for place in range(len(plain) - 1):
            one, other = plain[place : place + 2]
            if one != other:
                with pytest.raises(Refusal, match="mistyped"):
                    read_code(plain[:place] + other + one + plain[place + 2 :])


@pytest.mark.parametrize("look_alike", list("01OILU"))
def test_look_alikes_are_named(look_alike: str) -> None:
    with pytest.raises(Refusal, match="not a paper code") as told:
        read_code("K7M-2Q" + look_alike)
    assert f"{look_alike} is never one of them" in told.value.next


@pytest.mark.parametrize("form", ["{}", " {} ", "{}\u00a0", "\t{}\n"])
def test_case_and_spaces_are_forgiven(form: str) -> None:
    for code in CODES[:20]:
        plain = code.replace("-", "")
        ways = [code, code.lower(), plain, plain.lower(), " ".join(plain), code.replace("-", " "),
                code.replace("-", "–"), code.replace("-", "—")]  # fmt: skip
        assert {read_code(form.format(way)) for way in ways} == {code}


@pytest.mark.parametrize(
    "text", ["", "-", "K7M", "K7M-2QFF", "K7M-2Q", "KÄM-2QF", "К7M-2QF", "K7M/2QF", "K7M-2Q\0"]
)
def test_what_is_no_code_is_refused(text: str) -> None:
    with pytest.raises(Refusal, match="not a paper code"):
        read_code(text)


def test_a_used_code_is_not_given_again() -> None:
    class AllButOne:
        """Holds every code until the hundredth is asked for."""

        asked: list[str]

        def __init__(self) -> None:
            self.asked = []

        def __contains__(self, code: object) -> bool:
            self.asked.append(str(code))
            return len(self.asked) < 100

    used = AllButOne()
    assert new_code(used) == used.asked[-1]
    assert len(used.asked) >= 100


def test_codes_hardly_ever_meet() -> None:
    assert len(CODES) >= 199  # of 30 ** 5 possible


@given(st.sampled_from(CODES), st.integers(0, 6), st.characters())
def test_any_sign_in_the_place_of_one_gives_the_same_code_or_none(
    code: str, place: int, sign: str
) -> None:
    typed = code[:place] + sign + code[place + 1 :]
    try:
        assert read_code(typed) == code
    except Refusal:
        assert sign != code[place]


@given(st.text(st.characters(), max_size=12))
def test_any_text_is_a_code_or_refused(text: str) -> None:
    try:
        code = read_code(text)
    except Refusal as refusal:
        assert refusal.next  # noqa: PT017 - either outcome is right; no other error may come
    else:
        assert read_code(code) == code
