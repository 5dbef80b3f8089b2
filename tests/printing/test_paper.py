"""Quiz papers: own page numbers, whole items, nothing given away."""

from __future__ import annotations

import itertools
import re
from collections.abc import Callable
from dataclasses import replace
from types import ModuleType
from typing import Any

import segno

from generator.printing.key import key_html
from generator.printing.paper import paper_html
from generator.printing.signs import code_square

Pages = Callable[[str], Any]


def test_each_paper_counts_its_own_pages(pages: Pages) -> None:
    papers = pages("paper")
    numbers = [re.findall(r"Page (\d+) of (\d+)", papers.text(n))[0] for n in range(1, 7)]

    assert numbers == [("1", "4"), ("2", "4"), ("3", "4"), ("4", "4"), ("1", "2"), ("2", "2")]


def test_code_and_name_stand_on_every_page(pages: Pages) -> None:
    papers = pages("paper")

    assert [n for n in range(1, 5) if not {"7K3Q-M", "Ada"} <= set(papers.text(n).split())] == []
    assert [n for n in range(5, 7) if not {"9XPD-4", "Name"} <= set(papers.text(n).split())] == []


def test_no_item_is_torn_and_none_lies_over_another(pages: Pages) -> None:
    papers = pages("paper")
    items = papers.boxes("item")

    assert len(items) == 24 + 10
    assert [item.text for item in items if item.bottom > papers.sizes[0][1] - 40] == []
    for one, other in itertools.pairwise(items):
        assert other.page > one.page or other.top >= one.bottom - 1


def test_items_come_in_order_with_their_numbers(samples: ModuleType, pages: Pages) -> None:
    items = pages("paper").boxes("item")[:24]

    assert [item.text.split()[0] for item in items] == [str(n) for n in range(1, 25)]


def test_nothing_tells_which_items_must_be_right(samples: ModuleType) -> None:
    marked = samples.paper("AAA-1", "Ada")
    plain = replace(marked, items=tuple(replace(item, must=False) for item in marked.items))

    assert paper_html(samples.SHOP, [marked]) == paper_html(samples.SHOP, [plain])


def test_no_answer_slip_or_working_is_on_a_paper(samples: ModuleType) -> None:
    paper = samples.paper("AAA-1", "Ada")
    bare = tuple(
        replace(
            item,
            slips=(),
            working=(),
            order="",
            answer=replace(item.answer, value=None, exact=None, low=None, high=None, text=""),
            options=tuple(replace(option, right=False, reason="") for option in item.options),
        )
        for item in paper.items
    )

    assert paper_html(samples.SHOP, [paper]) == paper_html(
        samples.SHOP, [replace(paper, items=bare)]
    )


def test_the_unit_is_printed_or_asked_for(pages: Pages) -> None:
    printed, asked = pages("paper").boxes("answer")[0], pages("paper").boxes("answer")[3]

    assert printed.text == "Answer gal or write: cannot"
    assert asked.text == "Answer unit or write: never"


def test_the_rules_say_what_is_allowed_and_needed(pages: Pages) -> None:
    (rules, _) = pages("paper").boxes("rules")

    for words in ("calculator", "no clock", "read any item aloud", "unit", "22 of 24"):
        assert words in rules.text


def test_a_practice_paper_says_that_it_does_not_count(samples: ModuleType) -> None:
    html = paper_html(samples.SHOP, [samples.paper("AAA-1", "Ada", practice=True, items=3)])

    assert "This is practice. It does not count." in html
    assert "<li>You need" not in html
    assert "Formulas" not in html
    assert "It is done" not in html


def test_a_practice_paper_says_how_many_right_make_it_done(samples: ModuleType) -> None:
    paper = replace(samples.paper("AAA-1", "Ada", practice=True, items=3), practice_cut=2)

    assert "It does not count. It is done when 2 of 3 are right." in paper_html(
        samples.SHOP, [paper]
    )
    assert "done when 2 of 3 are right" in key_html(samples.SHOP, [paper])


def test_the_square_holds_the_code_alone() -> None:
    """The symbol drawn is the one of the code and of nothing else."""
    wanted = segno.make("7K3Q-M", micro=False, error="m")

    assert code_square("7K3Q-M") == wanted.svg_data_uri(scale=4, border=4, dark="#1a1a1a")
    assert code_square("7K3Q-M") != code_square("7K3Q-N")


def test_the_language_of_the_page_is_that_of_the_paper(samples: ModuleType) -> None:
    spanish = replace(samples.paper("AAA-1", "Ada", items=1), language="es")

    assert '<html lang="es">' in paper_html(samples.SHOP, [spanish])
