"""A missed must-get asked aloud: fresh items, and who may ask them."""

from __future__ import annotations

from typing import Any

import pytest

from generator.errors import Refusal
from generator.model.course import Curriculum
from generator.papers.codes import new_code
from generator.records.papers_kept import result_to_data
from generator.records.store import open_records
from generator.workflows import grade
from generator.workflows.drawing import draw_paper
from generator.workflows.oral import fresh_items, oral_event
from generator.workflows.paper import issued_event
from generator.workflows.place import Place
from generator.workflows.record import append, enter, event

DAY = "2026-02-03"


def missed_by(shop: Place, curriculum: Curriculum) -> tuple[str, str]:
    """Juno's paper in ladders, a must-get missed, marked by Mara; its code and the item."""
    module = curriculum.modules["ladders"]
    used: list[str] = []
    with open_records(shop.records) as records:
        for practice in (*[True] * module.blueprint.practice, False):
            code = new_code(used)
            used.append(code)
            sheet = draw_paper(curriculum, module, "Juno", practice, code)
            missed = next(n for n, item in enumerate(sheet.items) if item.must)
            answers = [item.answer.text for item in sheet.items]
            if not practice:
                answers[missed] = "" if sheet.items[missed].form == "write" else "D"
            result = grade.mark(sheet, answers, {missed + 1: False} if not practice else {})
            data = result_to_data(result, "answers")
            marked = event("marked", "Juno", by="Mara", **data)
            append(records, curriculum, [issued_event(sheet), marked])
    return code, sheet.items[missed].id


def test_the_shops_only_trainer_may_ask_and_it_is_said_so(
    shop: Place, curriculum: Curriculum
) -> None:
    code, item = missed_by(shop, curriculum)
    asked = oral_event(shop, curriculum, code, item, "Mara", 2, None)
    assert asked.data["alone"] is True
    enter(shop, curriculum, [asked])
    with pytest.raises(Refusal, match="asked this aloud already"):
        enter(shop, curriculum, [oral_event(shop, curriculum, code, item, "Mara", 2, None)])


def test_where_there_is_another_the_one_who_marked_may_not(
    shop: Place, curriculum: Curriculum
) -> None:
    code, item = missed_by(shop, curriculum)
    named = event("trainer-named", "Teo", by="Odile", basis="ran rigs before")
    enter(shop, curriculum, [named])
    asked = oral_event(shop, curriculum, code, item, "Mara", 2, None)
    assert "alone" not in asked.data
    with pytest.raises(Refusal, match="Mara marked this paper") as caught:
        enter(shop, curriculum, [asked])
    assert "let Teo ask" in caught.value.next
    (kept,) = enter(shop, curriculum, [oral_event(shop, curriculum, code, item, "Teo", 2, None)])
    assert (kept.by, len(kept.data["fresh"])) == ("Teo", 2)


def test_a_paper_that_was_never_marked_has_nothing_to_ask(
    shop: Place, curriculum: Curriculum
) -> None:
    with pytest.raises(Refusal, match="has not been marked"):
        oral_event(shop, curriculum, new_code(()), "x", "Mara", 2, None)


def test_the_two_items_are_fresh_and_the_same_each_time(curriculum: Curriculum) -> None:
    code = new_code(())
    musts = [(m, name) for m in curriculum.modules.values() for name in m.blueprint.must]
    for module, name in musts:
        first, second = fresh_items(curriculum, code, name)
        assert [first, second] == fresh_items(curriculum, code, name)
        if any(problem.id == name for problem in module.problems):
            assert first.ask != second.ask
        else:
            assert first.answer.text != second.answer.text


def test_no_such_item(curriculum: Curriculum) -> None:
    with pytest.raises(Refusal, match="there is no item"):
        fresh_items(curriculum, new_code(()), "acid-and-beach")


def test_another_trainer_who_is_cleared_is_known_though_not_named_in_the_entry(
    shop: Place, story: Any, curriculum: Curriculum
) -> None:
    """The record is read in part only: what the other trainers did must be in that part."""
    story.crew("Juno", "Teo", "Cal").cleared("Teo", "2026-02-02", "rig-1")
    story.add("trainer-named", "Teo", "2026-02-03", "Odile", basis="")
    shop.records.unlink()
    with open_records(shop.records, create=True) as records:
        records.append(story.events)
    lines = {line.id: "yes" for line in curriculum.modules["mixing"].sign_off.lines}
    data = {"module": "mixing", "rig": "rig-1", "lines": lines}
    sheet = event("signed-off", "Juno", seen="2026-02-04", by="Mara", **data)
    with pytest.raises(Refusal, match="Mara is not cleared for Mixing") as caught:
        enter(shop, curriculum, [sheet])
    assert "let Teo see it" in caught.value.next
    enter(shop, curriculum, [event("signed-off", "Juno", seen="2026-02-04", by="Teo", **data)])
