"""The trainer's guide: the round, what to ask, slips to listen for, taken from the module."""

from __future__ import annotations

import itertools
from collections.abc import Callable
from typing import Any

from generator.model.course import Curriculum
from generator.printing.guide import MOST_ASKED, guide_html, right_answer, stops


def test_stops_follow_the_lessons_and_their_minutes(curriculum: Curriculum) -> None:
    module = curriculum.modules["card"]
    found = stops(module)

    assert [stop.lesson.id for stop in found] == [lesson.id for lesson in module.lessons]
    for before, after in itertools.pairwise(found):
        assert after.starts == before.starts + before.lesson.minutes


def test_slips_come_from_the_problems_of_the_lesson(curriculum: Curriculum) -> None:
    module = curriculum.modules["card"]
    (ratios,) = (stop for stop in stops(module) if stop.lesson.id == "ratios")
    heard = {each.said for each in ratios.heard}
    slips = {slip.name for p in module.problems if p.lesson == "ratios" for slip in p.slips}

    assert heard == slips
    assert "read the ratio as a fraction, as 1 to 4 for one quarter" in heard


def test_must_gets_are_asked_first_and_few_questions_in_all(curriculum: Curriculum) -> None:
    for module in curriculum.modules.values():
        for stop in stops(module):
            musts = [question.must for question in stop.asked]
            assert musts == sorted(musts, reverse=True)
            assert len(stop.asked) <= MOST_ASKED


def test_the_guide_prints_it_all(curriculum: Curriculum, lay_out: Callable[[str], Any]) -> None:
    module = curriculum.modules["card"]
    pages = lay_out(guide_html(curriculum.shop, module))
    text = " ".join(pages.text(n) for n in range(1, len(pages) + 1))

    assert f"{sum(lesson.minutes for lesson in module.lessons)} minutes" in text
    for stop in stops(module):
        assert stop.lesson.title in text
        for question in stop.asked:
            assert right_answer(question) in text
        for heard in stop.heard:
            assert heard.said[1:] in text
    for lesson in module.lessons:
        for caution in lesson.cautions:
            assert caution.title in text
