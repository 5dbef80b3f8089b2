"""The list of stated numbers: each sentence with what its numbers rest on, then the sources."""

from __future__ import annotations

from dataclasses import replace

from generator.model.course import Curriculum, Module, Source
from generator.model.stated import Origin, Stated
from generator.printing.safety_figures import safety_figures_html


def page(curriculum: Curriculum, *stated: Stated, sources: dict[str, Source]) -> str:
    module = curriculum.modules["safety"]
    lesson = replace(module.lessons[0], id="eyes", title="Eyes", sources=("rule", "copy"))
    one: Module = replace(module, lessons=(lesson,))
    return safety_figures_html(curriculum.shop, {"safety": one}, stated, sources)


SOURCES = {
    "rule": Source("rule", "The rule itself", "seen", "2026-11-25"),
    "copy": Source("copy", "A quoted rule", "copy", "2026-11-24"),
    "practice": Source("practice", "Common practice of the trade", "practice"),
}
FLUSH = Stated(
    "safety", "eyes", "danger", "Splash", "Flush <15 minutes>.", ("15 minutes",), (),
    ("practice", "copy"),
)  # fmt: skip
NEAR = Stated(
    "safety", "eyes", "point", "Near", "At 0.4 gpm stay 10 ft off.", ("0.4 gpm", "10 ft"),
    (Origin("10 ft", "shop.limit.line_ft"),),
)  # fmt: skip


def test_a_caution_names_its_sources_and_how_they_were_read(curriculum: Curriculum) -> None:
    html = page(curriculum, FLUSH, sources=SOURCES)

    assert "<b>DANGER</b> Splash" in html
    assert "Flush &lt;<b>15 minutes</b>&gt;." in html
    assert "<b>15 minutes</b> practice, 2 copy" in html


def test_a_setting_is_the_owners_and_a_typed_number_leans_on_the_lesson(
    curriculum: Curriculum,
) -> None:
    html = page(curriculum, NEAR, sources=SOURCES)

    assert "<b>10 ft</b> yours: limit.line_ft" in html
    assert "<b>0.4 gpm</b> as the lesson" in html
    assert "Sources 1, 2 copy" in html


def test_a_number_that_another_begins_with_is_not_that_number(curriculum: Curriculum) -> None:
    origins = (Origin("2 gal", "shop.limit.two_gal"), Origin("25 ft", "shop.limit.people_ft"))
    numbers = ("2 g", "2 gal", "5 ft", "25 ft")
    said = "Take 2 g in 2 gal, 5 ft of 25 ft."
    html = page(
        curriculum,
        Stated("safety", "eyes", "point", "Near", said, numbers, origins),
        sources=SOURCES,
    )

    assert "Take <b>2 g</b> in <b>2 gal</b>, <b>5 ft</b> of <b>25 ft</b>." in html
    assert "<b>2 g, 5 ft</b> as the lesson" in html


def test_each_source_stands_once_with_the_day_it_was_gone_over(curriculum: Curriculum) -> None:
    html = page(curriculum, FLUSH, NEAR, sources=SOURCES)

    assert html.count("The rule itself") == 1
    assert "<td>second-hand copy</td><td>Nov 24, 2026</td>" in html
    assert "<td>in the source itself</td><td>Nov 25, 2026</td>" in html


def test_every_stated_sentence_of_the_course_is_a_row(curriculum: Curriculum) -> None:
    html = safety_figures_html(
        curriculum.shop, curriculum.modules, curriculum.stated, curriculum.sources
    )
    assert html.count("</p></td></tr>") + html.count("</p>\n</td></tr>") == len(curriculum.stated)
