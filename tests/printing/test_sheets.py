"""Sheets and sign-off sheets: one page each, room to write, the owner's answers and dates."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from datetime import date
from fractions import Fraction
from functools import cache
from typing import Any

import pytest

from generator.model.course import Curriculum
from generator.model.season import Season
from generator.model.sheet import Cut, Fields, Ruled, Sheet, Words
from generator.printing.sheets import cited_in, has_reviews, sheet_html, sign_off_html

MM = 96 / 25.4
Pages = Callable[[str], Any]


@pytest.fixture(scope="module")
def sheet_pages(curriculum: Curriculum, lay_out: Pages) -> Callable[[str], Any]:
    """The pages of a sheet of the shop by id, each laid out once."""

    @cache
    def of(name: str, season: Season | None = None) -> Any:
        sheet = curriculum.sheets[name]
        return lay_out(sheet_html(curriculum.shop, sheet, curriculum.sources, season))

    return of


def test_every_sheet_of_the_shop_is_one_page(
    curriculum: Curriculum, sheet_pages: Callable[[str], Any]
) -> None:
    assert [name for name in curriculum.sheets if len(sheet_pages(name)) != 1] == []


@pytest.mark.parametrize("name", ["delivery-check", "incident", "morning-check", "mix-log"])
def test_the_fullest_sheets_are_one_page_of_a4_too(
    name: str, curriculum: Curriculum, lay_out: Pages
) -> None:
    shop = replace(curriculum.shop, page="a4")

    assert len(lay_out(sheet_html(shop, curriculum.sheets[name], curriculum.sources))) == 1


def test_nothing_on_a_sheet_runs_off_the_page(
    curriculum: Curriculum, sheet_pages: Callable[[str], Any]
) -> None:
    for name in curriculum.sheets:
        pages = sheet_pages(name)
        width, height = pages.sizes[0]
        for box in pages.boxes("piece"):
            assert box.right <= width, (name, box.text)
            assert box.bottom <= height, (name, box.text)


def test_every_sheet_says_whose_it_is_and_what_wins(
    curriculum: Curriculum, sheet_pages: Callable[[str], Any]
) -> None:
    for name, sheet in curriculum.sheets.items():
        text = sheet_pages(name).text(1)
        assert curriculum.shop.name in text
        assert sheet.title in text
        assert "safety data sheet, your local code and licensed advice win" in text


def test_the_log_has_a_column_for_each_thing_that_proves_a_mix(
    sheet_pages: Callable[[str], Any],
) -> None:
    text = sheet_pages("mix-log").text(1)

    for head in ("Have", "Want", "Stock today", "Stock, gal", "Read back by", "Used, gal"):
        assert head in text


def test_hospital_slips_give_no_treatment_advice(sheet_pages: Callable[[str], Any]) -> None:
    for name in ("hospital-injection", "hospital-fluoride"):
        text = sheet_pages(name).text(1)
        assert "no treatment advice" in text
        assert "The data sheet goes along with this slip" in text
        assert "Sources: 1" in text


def test_the_owners_answers_are_printed_and_the_rest_left_blank(
    curriculum: Curriculum, lay_out: Pages
) -> None:
    questions = curriculum.shop.settled
    answered = ((questions[0][0], "Federal; roof jobs under construction"), *questions[1:])
    shop = replace(curriculum.shop, settled=answered)
    text = lay_out(sheet_html(shop, curriculum.sheets["owner-checklist"], curriculum.sources)).text(
        1
    )

    assert "Federal; roof jobs under construction" in text
    for question, _ in questions:
        assert question in text
    for head in ("Answer", "Date", "Initials"):
        assert head in text


def test_a_season_is_printed_with_its_dates(sheet_pages: Callable[[str], Any]) -> None:
    dated = sheet_pages("season-plan", Season(200, date(2026, 4, 1))).text(1)
    blank = sheet_pages("season-plan").text(1)

    assert "Apr 1, 2026" in dated
    assert "Day 2 Apr 3, 2026" in dated
    assert "200 days" in dated
    assert "2026" not in blank
    assert "180 days" in blank


def test_only_the_season_plan_has_reviews(curriculum: Curriculum) -> None:
    assert [n for n, sheet in curriculum.sheets.items() if has_reviews(sheet)] == ["season-plan"]


def test_a_sheet_of_the_owners_own_prints(curriculum: Curriculum, lay_out: Pages) -> None:
    label = Cut("", 2, ("First", "Second", "Third"), (Words("", "Same on **all**."),))
    table = Ruled("List", (), 0, Fraction(9))
    sheet = Sheet("mine", "Mine <b>", "Us", True, (label, Fields("", ()), table))
    pages = lay_out(sheet_html(curriculum.shop, sheet, {}))

    assert pages.sizes[0][0] > pages.sizes[0][1]
    assert pages.text(1).count("Same on all .") == 3
    assert "Mine <b>" in pages.text(1)


def test_sources_of_cautions_come_first_and_each_once(curriculum: Curriculum) -> None:
    sheet = curriculum.sheets["hospital-fluoride"]
    cited = [source.id for source in cited_in(sheet, curriculum.sources)]

    assert cited == ["atsdr-hf", "hf-gel", "hf-wash-first"]


def test_each_sign_off_sheet_alone_is_one_page_with_large_boxes(
    curriculum: Curriculum, lay_out: Pages
) -> None:
    for module in curriculum.modules.values():
        pages = lay_out(sign_off_html(curriculum.shop, module))
        boxes = pages.boxes("big")

        assert len(pages) == 1, module.id
        assert len(module.sign_off.lines) <= 10
        assert len(boxes) == 3 * len(module.sign_off.lines)
        assert all(box.right - box.left >= 8 * MM for box in boxes)
        for words in ("Yes", "Not yet", "Told", "Signature of the trainer", "this paper is kept"):
            assert words in pages.text(1)
