"""The booklet: everything stands on it, in order, and nothing is torn or lies over another."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from types import ModuleType
from typing import Any

import pytest

from generator.errors import Refusal
from generator.model.course import Curriculum, Question
from generator.model.item import LETTERS
from generator.printing.booklet import booklet_html, quiz

Pages = Callable[[str], Any]
WINS = "Where they differ from this booklet, they win."


def test_the_cover_says_whose_and_for_whom(pages: Pages) -> None:
    cover = pages("booklet").text(1)

    for words in ("Larkspur Bend Exterior Cleaning", "Mixing", "Edition 3", "Name", "Date"):
        assert words in cover
    assert "Pass first: “Stones, glass and people” and “The rig”." in cover


def test_the_contents_name_the_page_each_part_stands_on(pages: Pages) -> None:
    booklet = pages("booklet")
    (contents,) = (box for box in booklet.boxes("part") if "What is inside" in box.text)

    for title in ("Ratios and fractions", "A batch in a tank", "Answers", "Sources"):
        page = next(n for n in range(3, len(booklet) + 1) if booklet.text(n).count(title) >= 2)
        assert f"{page} " in contents.text.split(title)[1].strip(" .")[:3] + " "


def test_the_line_on_who_wins_stands_on_every_page(pages: Pages) -> None:
    booklet = pages("booklet")

    assert [n for n in range(1, len(booklet) + 1) if WINS not in booklet.text(n)] == []


def test_examples_fade(samples: ModuleType, pages: Pages) -> None:
    watch, finish, alone = pages("booklet").boxes("example")[:3]
    formula, last = samples.DRY[0].working[0], "= 250 ÷ (5.5 − 3) = 100 min"

    assert formula in watch.text
    assert last in watch.text
    assert formula in finish.text
    assert "= 90 ÷" not in finish.text
    assert formula not in alone.text
    assert "60 min" not in finish.text
    assert "66 min" not in alone.text


def test_answers_are_at_the_back_with_every_reason(samples: ModuleType, pages: Pages) -> None:
    booklet = pages("booklet")
    back = next(n for n in range(1, len(booklet) + 1) if booklet.text(n).count("Answers") >= 2)
    text = " ".join(booklet.text(n) for n in range(back, len(booklet) + 1))

    for item in (*samples.BATCH, *samples.DRY[1:]):
        assert item.answer.text in text
    for question in samples.QUESTIONS:
        for option in question.options:
            assert option.reason in text
    assert samples.QUESTIONS[1].reason in text


def test_signal_words_stand_in_capitals_with_what_to_do(samples: ModuleType, pages: Pages) -> None:
    boxes = pages("booklet").boxes("caution")

    assert [box.text.split()[0] for box in boxes] == ["DANGER", "WARNING", "CAUTION", "NOTICE"]
    for box, caution in zip(boxes, samples.CAUTIONS, strict=True):
        assert caution.happens in box.text
        assert caution.do in box.text
        assert caution.call in box.text


@pytest.mark.parametrize("kind", ["caution", "example", "practice", "check", "solved"])
def test_no_box_is_torn_by_a_page_or_lies_over_another(kind: str, pages: Pages) -> None:
    booklet = pages("booklet")
    boxes = booklet.boxes(kind)

    assert boxes
    assert len({box.element for box in boxes}) == len(boxes)
    assert [box.text for box in boxes if box.bottom > booklet.sizes[0][1]] == []
    assert [
        (one.text, other.text)
        for at, one in enumerate(boxes)
        for other in boxes[at + 1 :]
        if one.page == other.page
        and min(one.bottom, other.bottom) > max(one.top, other.top) + 1
        and min(one.right, other.right) > max(one.left, other.left) + 1
    ] == []


def test_no_row_of_a_table_stands_alone_on_its_page(
    samples: ModuleType, lay_out: Callable[[str], Any]
) -> None:
    tables = [
        replace(
            samples.SHORT.points[0],
            id=f"t{n}",
            text="| Row | Is |\n|---|---|\n"
            + "".join(f"| {n}:{m} | so |\n" for m in range(3 + n % 5)),
        )
        for n in range(50)
    ]
    lesson = replace(samples.SHORT, points=tuple(tables))
    laid_out = lay_out(
        booklet_html(
            samples.SHOP, replace(samples.MODULE, lessons=(lesson,)), samples.SOURCES, {}, {}, {}
        )
    )
    texts = [laid_out.text(page) for page in range(1, len(laid_out) + 1)]
    rows = [[text.count(f" {n}:") for text in texts] for n in range(50)]

    assert [sum(counts) for counts in rows] == [3 + n % 5 for n in range(50)]
    assert any(len([count for count in counts if count]) == 2 for counts in rows)
    assert not any(1 in counts for counts in rows)


def test_the_sign_off_sheet_fits_a_page_with_ten_lines(
    samples: ModuleType, lay_out: Callable[[str], Any]
) -> None:
    lines = tuple(
        replace(samples.MODULE.sign_off.lines[0], id=str(n), do="Measures the stock. " * 3)
        for n in range(10)
    )
    module = replace(
        samples.MODULE,
        lessons=(samples.SHORT,),
        sign_off=replace(samples.MODULE.sign_off, lines=lines),
    )
    laid_out = lay_out(booklet_html(samples.SHOP, module, samples.SOURCES, {}, {}, {}))
    sheets = laid_out.boxes("sign-off")

    assert len(sheets) == 1
    for words in ("Yes", "Not yet", "Told", "Signature of the trainer", "this paper is kept"):
        assert words in sheets[0].text


def test_sources_say_how_they_were_read(pages: Pages) -> None:
    booklet = pages("booklet")
    last = booklet.text(len(booklet))

    assert "read in the source; checked May 4, 2026" in last
    assert "common practice of the trade; no authority found" in last


def test_the_right_option_is_given_away_by_neither_length_nor_place(
    curriculum: Curriculum,
) -> None:
    lessons = [lesson for module in curriculum.modules.values() for lesson in module.lessons]
    quizzes = [quiz(q) for lesson in lessons for q in lesson.questions if q.options]
    longest = [
        max(each.options, key=lambda option: len(option.text)).right
        and len({len(option.text) for option in each.options}) == 3
        for each in quizzes
    ]

    assert sum(longest) < len(quizzes) / 4
    for letter in LETTERS[:3]:
        share = [each.answer for each in quizzes].count(letter) / len(quizzes)
        assert 0.27 < share < 0.40, letter


def test_every_caution_has_sources_and_those_that_were_published_a_day(
    curriculum: Curriculum,
) -> None:
    lessons = [lesson for module in curriculum.modules.values() for lesson in module.lessons]
    cautions = [caution for lesson in lessons for caution in lesson.cautions]
    cited = {curriculum.sources[id_] for caution in cautions for id_ in caution.sources}

    assert [caution.id for caution in cautions if not (caution.sources and caution.call)] == []
    assert [s.id for s in cited if (s.read in ("seen", "copy")) != bool(s.checked)] == []


def test_the_same_page_twice_is_the_same_text(samples: ModuleType) -> None:
    assert samples.booklet() == samples.booklet()


def test_a_text_of_the_curriculum_is_no_template_and_no_markup(samples: ModuleType) -> None:
    lesson = replace(samples.SHORT, aim="{{ 7 * 7 }} <i>x</i>", title="A & B <")
    html = booklet_html(
        samples.SHOP, replace(samples.MODULE, lessons=(lesson,)), samples.SOURCES, {}, {}, {}
    )

    assert "{{ 7 * 7 }} &lt;i&gt;x&lt;/i&gt;" in html
    assert "A &amp; B &lt;" in html


@pytest.mark.parametrize(
    ("change", "what"),
    [
        ({"examples": ("no-such",)}, 'the problem "no-such" is not there'),
        ({"practice": ("no-such",)}, 'the problem "no-such" is not there'),
        ({"sources": ("cd",)}, 'the source "cd" is not there'),
    ],
)
def test_what_is_missing_is_named(
    change: dict[str, tuple[str, ...]], what: str, samples: ModuleType
) -> None:
    lesson = replace(samples.SHORT, **change)
    module = replace(samples.MODULE, lessons=(lesson,))

    with pytest.raises(Refusal, match=what):
        booklet_html(samples.SHOP, module, samples.SOURCES, {}, {}, {})


@pytest.mark.parametrize("name", [f"q-{n}" for n in range(20)])
def test_an_order_is_never_printed_in_the_right_order(name: str) -> None:
    asked = quiz(Question(name, "m", "l", "Order?", order=("Water", "Stock", "Soap")))

    assert asked.things != asked.question.order
    assert sorted(asked.things) == ["Soap", "Stock", "Water"]
    assert [asked.things["ABC".index(letter)] for letter in asked.answer] == [
        "Water",
        "Stock",
        "Soap",
    ]


def test_a_booklet_in_another_language_says_what_to_do_with_what_is_not_in_it(
    samples: ModuleType,
) -> None:
    told = "Si algo está en inglés, también un aviso de peligro"
    for language in ("en", "es"):
        shop = replace(samples.SHOP, language=language)
        module = replace(samples.MODULE, lessons=(samples.SHORT,))
        html = booklet_html(shop, module, samples.SOURCES, {}, {}, {})
        assert (told in html) == (language == "es")
