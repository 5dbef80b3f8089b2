"""The leaflet of the first day: eight half pages, mostly pictures, in two languages."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import Any

import pytest

from generator.errors import Refusal
from generator.model.course import Curriculum
from generator.printing.leaflet import leaflet_html
from generator.printing.pictograms import pictogram

Pages = Callable[[str], Any]


@pytest.mark.parametrize(("page", "width"), [("letter", 528), ("a4", 559)])
def test_eight_pages_of_half_the_size(
    page: str, width: int, curriculum: Curriculum, lay_out: Pages
) -> None:
    shop = replace(curriculum.shop, page=page)
    pages = lay_out(leaflet_html(shop, curriculum.handouts.leaflet))

    assert len(pages) == 8
    assert {round(size[0]) for size in pages.sizes} == {width}


def test_both_languages_stand_on_every_page(curriculum: Curriculum, lay_out: Pages) -> None:
    leaflet = curriculum.handouts.leaflet
    pages = lay_out(leaflet_html(curriculum.shop, leaflet))

    for number, page in enumerate(leaflet, 1):
        text = pages.text(number)
        for said in (page.title, *(line.say for line in page.lines)):
            assert said.en in text
            assert said.es in text


def test_most_pages_are_a_picture_and_three_lines_at_most(curriculum: Curriculum) -> None:
    pictured = [page for page in curriculum.handouts.leaflet if page.pictures or page.wear]

    assert len(pictured) >= 7
    assert all(len([x for x in page.lines if not x.blank]) <= 3 for page in pictured)


def test_until_a_fluent_reader_has_checked_it_the_leaflet_says_so(curriculum: Curriculum) -> None:
    unread = leaflet_html(curriculum.shop, curriculum.handouts.leaflet)
    checked = leaflet_html(curriculum.shop, curriculum.handouts.leaflet, spanish_read=True)

    assert "have a fluent reader" in unread
    assert "have a fluent reader" not in checked


def test_an_unknown_sign_is_refused() -> None:
    with pytest.raises(Refusal, match='there is no pictogram "gogles"') as refusal:
        pictogram("gogles")
    assert refusal.value.next == 'did you mean "goggles"?'
