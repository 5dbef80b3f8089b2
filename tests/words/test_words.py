"""The words of pages: every language says the same things, and fills in the same names."""

from __future__ import annotations

import re
from string import Formatter

import pytest

from generator.marking.words import word_answer
from generator.maths.amounts import amount_text, mark_text
from generator.maths.exact import number
from generator.maths.units import parse_unit, shown, spoken
from generator.model.course import Curriculum
from generator.solving.answer import words_of
from generator.words import LANGUAGES, WRITTEN_IN, answer_word, enumerated, words

OTHERS = [language for language in LANGUAGES if language != WRITTEN_IN]
OPEN = ("units", "one", "marks", "answers")  # where a word may be missing: the name itself serves


def names_in(text: str) -> set[str]:
    return {name for _, name, _, _ in Formatter().parse(text) if name}


@pytest.mark.parametrize("language", OTHERS)
def test_every_language_has_the_same_words(language: str) -> None:
    own, other = words(WRITTEN_IN), words(language)
    assert set(own) == set(other)
    for page in set(own) - set(OPEN):
        assert set(own[page]) == set(other[page]), page


@pytest.mark.parametrize("language", OTHERS)
def test_a_word_fills_in_the_same_names(language: str) -> None:
    for page, own in words(WRITTEN_IN).items():
        for name in own:
            if name in words(language)[page]:
                assert names_in(own[name]) == names_in(words(language)[page][name]), (page, name)


@pytest.mark.parametrize("language", LANGUAGES)
def test_every_word_answer_of_the_course_is_read_as_it_is_printed(
    language: str, curriculum: Curriculum
) -> None:
    for problem in curriculum.problems:
        known = words_of(problem.relation, problem.find)
        printed = [answer_word(word, language) for word in known]
        assert len(set(printed)) == len(printed), problem.id
        assert [word_answer(text, known) for text in printed] == list(known), problem.id


@pytest.mark.parametrize("language", OTHERS)
def test_every_word_answer_of_the_course_is_translated(
    language: str, curriculum: Curriculum
) -> None:
    used = {w for p in curriculum.problems for w in words_of(p.relation, p.find)}
    assert used - set(words(language)["answers"]) == set()


@pytest.mark.parametrize("language", LANGUAGES)
@pytest.mark.parametrize("unit", ["gal", "floz", "ft", "in", "min", "h", "day", "gpm", "sqft"])
def test_a_unit_is_read_as_it_is_printed(language: str, unit: str) -> None:
    wanted = parse_unit(unit)
    for one in (True, False):
        read = spoken(shown(wanted, language, one=one), wanted)
        assert read is not None
        assert read.parts == wanted.parts


def test_spanish_never_says_a_word_that_is_bleach_here_and_lye_there() -> None:
    said = [text for page in words("es").values() for text in page.values()]
    assert not [text for text in said if re.search(r"lej[ií]a", text, re.IGNORECASE)]
    assert amount_text(number("2.5"), parse_unit("floz"), language="es") == "2.5 onzas líquidas"
    assert amount_text(number("1"), parse_unit("floz"), language="es") == "1 onza líquida"
    assert amount_text(number("3"), parse_unit("ozwt"), language="es") == "3 onzas de peso"


def test_marks_and_lists_are_said_in_each_language() -> None:
    one = number("1")
    assert mark_text(one, parse_unit("min")) == "whole minute"
    assert mark_text(one, parse_unit("gal")) == "whole gal"
    assert mark_text(one, parse_unit("%")) == "whole %"
    assert mark_text(one, parse_unit("1")) == "whole number"
    assert mark_text(one, parse_unit("min"), "es") == "minuto entero"
    assert mark_text(number("1/4"), parse_unit("gal"), "es") == "1/4 gal"
    assert enumerated(["a", "b", "c"], "es") == "a, b o c"
    assert enumerated(["a"], "es", "and") == "a"
