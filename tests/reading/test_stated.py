"""Sentences that state numbers: found in points, steps and cautions, with what each rests on."""

from __future__ import annotations

import re

import pytest

from generator.model.course import Curriculum
from generator.model.stated import Origin, Stated
from generator.reading.stated import sayings, stated


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("Flush **15 minutes**. Call 911.", ["Flush 15 minutes.", "Call 911."]),
        ("- Ten feet.\n- One mile.", ["Ten feet.", "One mile."]),
        (
            "So long:\n\n| At | Burns in |\n|---|---|\n| 120 °F | **5 min** |\n| 150 °F | 2 s |\n",
            ["So long:", "At, Burns in: 120 °F, 5 min; 150 °F, 2 s."],
        ),
        ("Wait 5 min.\n\n|---|---|\n", ["Wait 5 min."]),
    ],
)
def test_a_text_is_said_in_sentences_and_a_table_is_one(text: str, expected: list[str]) -> None:
    assert list(sayings(text)) == expected


@pytest.mark.parametrize("text", ["Call 911.", "A share of 1 in 100.", "UN 1791", "Section 4"])
def test_a_number_without_a_unit_is_not_stated(text: str) -> None:
    assert list(stated(text)) == []


def of(curriculum: Curriculum, lesson: str, number: str) -> list[Stated]:
    return [each for each in curriculum.stated if each.lesson == lesson and number in each.numbers]


def test_what_is_looked_up_in_the_shop_is_the_owners(curriculum: Curriculum) -> None:
    (first, *_) = of(curriculum, "electricity", "10 ft")

    assert first.origins == (Origin("10 ft", "shop.limit.line_ft"),)
    assert first.origins[0].is_setting


def test_what_a_relation_gives_is_worked_and_what_is_typed_has_no_origin(
    curriculum: Curriculum,
) -> None:
    (table,) = of(curriculum, "eyes-and-skin", "18 gal")

    assert {(o.number, o.name) for o in table.origins} == {
        (gal, "eye-flush") for gal in ("6 gal", "12 gal", "18 gal")
    }
    assert not any(origin.is_setting for origin in table.origins)
    assert "15 minutes" in table.numbers


def test_a_caution_has_its_own_sources(curriculum: Curriculum) -> None:
    told = [each for each in of(curriculum, "eyes-and-skin", "15 minutes") if each.sources]

    assert told
    assert {each.kind for each in told} <= {"danger", "warning", "caution", "notice"}


def test_no_number_of_a_caution_is_left_out(curriculum: Curriculum) -> None:
    """An oracle that shares nothing with the reader: digits, then a unit spelled out."""
    plain = re.compile(r"\d (?:ft|feet|minutes?|min|seconds?|gal|psi|°F|mph|lb)\b")
    told = {each.sentence for each in curriculum.stated}
    for module in curriculum.modules.values():
        for lesson in module.lessons:
            for caution in lesson.cautions:
                for text in (caution.title, caution.happens, caution.do, caution.call):
                    for found in plain.findall(text.replace("\u00a0", " ")):
                        assert any(found in sentence for sentence in told), (lesson.id, text)
