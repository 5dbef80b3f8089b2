"""The result slip: the score in words, what went wrong, what one may do today."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from types import ModuleType
from typing import Any

from generator.printing.slip import Advice, slip_html

Pages = Callable[[str], Any]


def test_half_a_page_says_it_all(pages: Pages) -> None:
    slip = pages("slip")
    (half,) = slip.boxes("half")

    assert half.bottom < 0.55 * slip.sizes[0][1]
    for words in (
        "Ada",
        "20 of 24. Needed 22.",
        "A pass needs every must-get (◆) as well.",
        "Not yet",
        "2 4 1/4 gal You used the label strength.",
        "12 nothing You left it blank.",
        "◆ You must get this one.",
        "Read again: Ratios and fractions (page 3)",
        "Today: Wash, rinse, fill water and help. Do not mix alone.",
    ):
        assert words in half.text


def test_fresh_items_stand_below_the_fold_and_their_working_on_another_page(pages: Pages) -> None:
    slip = pages("slip")
    (half,), (behind,), (turn,) = (slip.boxes(name) for name in ("half", "behind", "turn"))

    assert [box.text.split()[0] for box in slip.boxes("practice")] == ["1", "2"]
    assert min(box.top for box in slip.boxes("practice")) > half.bottom
    assert turn.page < behind.page == len(slip)
    assert "2 3/4 gal" not in slip.text(1).split("Try these")[1]
    assert [box.text[:13] for box in slip.boxes("solved")] == ["1 2 3/4 gal R", "2 4 1/2 gal R"]
    for words in ("stock to measure =", "= 1 × 45 ÷ 10"):
        assert words in behind.text


def test_slips_and_misses_are_counted_and_what_was_not_typed_in_says_so(
    samples: ModuleType,
) -> None:
    marked = samples.result()
    unread = replace(marked.verdicts[4], written="", kind="wrong", tell="")
    verdicts = (*marked.verdicts[:4], unread, *marked.verdicts[5:])
    html = slip_html(
        samples.SHOP,
        samples.MODULE,
        replace(marked, verdicts=verdicts),
        Advice(made="Two slips made three misses."),
    )

    assert '<p class="made">Two slips made three misses.</p>' in html
    assert "<td>see your paper</td><td>Ask your trainer to show you.</td>" in html


def test_a_pass_says_so_and_lists_nothing(pages: Pages) -> None:
    text = pages("slip-passed").text(1)

    assert "24 of 24. Needed 22." in text
    assert "✓ Passed" in text
    assert "You wrote" not in text
    assert "Try these" not in text


def test_practice_is_never_a_pass(pages: Pages) -> None:
    text = pages("slip-practice").text(1)

    assert "Mixing: practice" in text
    assert "Passed" not in text
    assert "Do not mix alone" in text


def test_practice_is_done_from_its_own_cut_on(samples: ModuleType) -> None:
    marked = samples.result()
    for cut, said in (
        (0, ("20 of 24.<", ">Practice<")),
        (20, ("20 of 24. Needed 20.", "✓ Done")),
        (21, ("20 of 24. Needed 21.", "Not yet")),
    ):
        paper = replace(marked.paper, practice=True, practice_cut=cut)
        html = slip_html(samples.SHOP, samples.MODULE, replace(marked, paper=paper), Advice())
        assert all(words in html for words in said)
        assert html.count("✓ Done") + html.count("Not yet<") == (cut > 0)


def test_today_is_what_the_record_allows(samples: ModuleType) -> None:
    html = slip_html(
        samples.SHOP, samples.MODULE, samples.result(passed=True), Advice("Mix on Rig 1.")
    )

    assert "<b>Today:</b> Mix on Rig 1." in html


def test_what_is_still_to_do_is_a_list(samples: ModuleType) -> None:
    to_do = ("be shown the data sheets of Rig 1", "be signed off on Rig 1")
    html = slip_html(samples.SHOP, samples.MODULE, samples.result(), Advice(to_do=to_do))

    assert "<b>Still to do:</b>" in html
    assert "<li>be shown the data sheets of Rig 1</li><li>be signed off on Rig 1</li>" in html


def test_there_is_room_to_work_out_each_fresh_item(pages: Pages) -> None:
    slip = pages("slip")

    assert len(slip.boxes("room")) == len(slip.boxes("practice")) == 2
