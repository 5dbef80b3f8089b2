"""A person's file: every field an auditor asks for, each with who said so, when it was entered."""

from __future__ import annotations

import json
from dataclasses import asdict
from typing import Any

import pytest

from generator.errors import Refusal
from generator.model.course import Curriculum
from generator.model.file import ModuleFile, PersonFile
from generator.workflows.person import person_file
from generator.workflows.pocket import pocket_card

DAY = "2026-03-10"


def file_of(story: Any, name: str = "Juno") -> PersonFile:
    return person_file(story.curriculum, story.events, name, DAY, "head")


def module(file: PersonFile, wanted: str) -> ModuleFile:
    return next(each for each in file.modules if each.id == wanted)


@pytest.fixture
def cleared(story: Any) -> Any:
    """Juno may mix on rig 1."""
    return story.crew("Juno", "Teo").cleared("Juno", "2026-02-02", "rig-1")


def test_every_field_of_a_module_is_there(cleared: Any) -> None:
    mixing = module(file_of(cleared), "mixing")
    (lessons,), (sitting,), (signature,) = mixing.lessons, mixing.sittings, mixing.signatures
    why = "named by Odile on 2026-01-05: six seasons at the rig"
    assert (lessons.trail.by, lessons.trail.basis) == ("Mara", why)
    assert (lessons.minutes, len(lessons.titles)) == (45, 7)
    assert (sitting.kind, sitting.edition, sitting.language) == ("counted", 1, "en")
    assert (sitting.right, sitting.items, sitting.cut, sitting.passed) == (24, 24, 22, True)
    assert sitting.how == "written, answers typed in"
    assert (signature.rig, len(signature.lines)) == ("Rig 1", 10)
    assert any(line.must and line.answer == "yes" for line in signature.lines)
    states = {state.rig: (state.state, state.may) for state in mixing.states}
    assert states == {"Rig 1": ("cleared", True), "Rig 2": ("passed paper", False)}


def test_the_day_it_was_seen_and_the_day_it_was_entered_are_kept_apart(cleared: Any) -> None:
    cleared.signed("Juno", "mixing", "2026-02-20", "rig-2")
    cleared.entered("2026-02-27")
    trail = module(file_of(cleared), "mixing").signatures[-1].trail
    assert (trail.seen, trail.entered) == ("2026-02-20", "2026-02-27")


def test_a_must_get_asked_aloud_is_on_file(cleared: Any) -> None:
    must = cleared.curriculum.modules["ladders"].blueprint.must[0]
    code = cleared.sat("Juno", "ladders", "2026-02-10", missed=must)
    asked = {"module": "ladders", "item": must, "paper": code, "right_in_a_row": 2, "alone": True}
    cleared.add("oral", "Juno", "2026-02-10", "Mara", **asked)
    (sitting,) = module(file_of(cleared), "ladders").sittings
    assert (sitting.missed, sitting.passed) == ((must,), True)
    assert [(oral.item, oral.right, oral.alone) for oral in sitting.orals] == [(must, 2, True)]


def test_a_correction_can_be_read_and_what_it_took_back_is_gone(cleared: Any) -> None:
    sign = next(e for e in cleared.events if e.kind == "signed-off")
    cleared.add("voided", "Juno", "2026-02-03", "Odile", number=sign.number, why="was Teo")
    file = file_of(cleared)
    assert module(file, sign.data["module"]).signatures == ()
    assert f"Entry {sign.number} (signed-off) was taken back: was Teo" in [
        remark.what for remark in file.remarks
    ]


def test_all_else_that_was_noted_is_on_file(cleared: Any) -> None:
    cleared.add("suspended", "Juno", "2026-02-10", "Odile", module="mixing", why="no goggles")
    cleared.add("restored", "Juno", "2026-02-11", "Odile", module="mixing", why="")
    cleared.add("incident", "Juno", "2026-02-12", "Mara", what="splash", near_miss=True)
    cleared.add("under-age", "Juno", "2026-02-12", "Odile", until="2026-02-13")
    said = [remark.what for remark in file_of(cleared).remarks]
    assert said == [
        "Joined the crew",
        "Shown the data sheets of Rig 1",
        "Suspended from Mixing: no goggles",
        "Restored: may do the work again",
        "Near miss: splash",
        "Under age for mixing until 2026-02-13",
    ]


def test_what_is_not_the_persons_is_not_on_file(cleared: Any) -> None:
    cleared.sat("Teo", "mixing", "2026-02-05")
    assert len(module(file_of(cleared), "mixing").sittings) == 1
    assert not any(each.begun for each in file_of(cleared, "Mara").modules)


def test_the_file_of_a_past_day_knows_no_later_one(cleared: Any) -> None:
    past = person_file(cleared.curriculum, cleared.events, "Juno", "2026-02-01", "head")
    assert not any(each.begun for each in past.modules)


def test_the_file_is_plain_data(cleared: Any) -> None:
    data = asdict(file_of(cleared))
    assert json.loads(json.dumps(data))["name"] == "Juno"


def test_the_card_says_what_may_be_mixed_where_and_until_when(cleared: Any) -> None:
    card = pocket_card(cleared.curriculum, cleared.events, "Juno", DAY, "head")
    assert [(duty.what, duty.rigs) for duty in card.duties] == [("Any mix", ("Rig 1",))]
    assert card.void_after == "2026-05-03"  # ninety days from the last one seen at work


def test_the_card_never_outlives_the_board(cleared: Any) -> None:
    story = cleared.curriculum, cleared.events, "Juno"
    card = pocket_card(*story, DAY, "head")
    assert pocket_card(*story, card.void_after, "head").duties == card.duties
    with pytest.raises(Refusal, match="may not mix on any rig today"):
        pocket_card(*story, "2026-06-08", "head")  # ninety days from the day it was printed


def test_the_card_is_void_when_the_first_thing_on_it_is_due(cleared: Any) -> None:
    day = "2027-01-20"
    for month in ("04", "06", "08", "10", "12"):
        cleared.add("incident", "Juno", f"2026-{month}-01", "Mara", what="at work")
    card = pocket_card(cleared.curriculum, cleared.events, "Juno", day, "head")
    assert card.void_after == "2027-02-02"


def test_by_the_card_alone_is_said_so(cleared: Any) -> None:
    cleared.add("suspended", "Juno", "2026-02-10", "Odile", module="mixing", why="too strong")
    card = pocket_card(cleared.curriculum, cleared.events, "Juno", DAY, "head")
    assert [duty.what for duty in card.duties] == ["By the rig’s card, empty tank,"]


def test_who_may_not_mix_gets_no_card(cleared: Any, curriculum: Curriculum) -> None:
    with pytest.raises(Refusal, match="Teo may not mix on any rig today"):
        pocket_card(curriculum, cleared.events, "Teo", DAY, "head")
