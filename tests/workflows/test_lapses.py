"""Whom an edit lapses, told before it counts; the re-brief that keeps it from happening."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import Any

import pytest

from generator.errors import Refusal
from generator.model.course import Change, Curriculum, Lesson, Module
from generator.records.store import open_records
from generator.workflows.brief import change_of, questions_of, to_brief
from generator.workflows.editions import edition_warnings
from generator.workflows.lapses import if_raised, lapses
from generator.workflows.place import Place

DAY = "2026-02-10"
Edit = Callable[[Module], Module]


@pytest.fixture
def cleared(story: Any) -> Any:
    """Juno may mix on rig 1, Teo has begun."""
    story.crew("Juno", "Teo").cleared("Juno", "2026-02-02", "rig-1")
    story.add("taught", "Teo", "2026-02-02", "Mara", module="mixing", lessons=["batch"])
    return story


def edited(curriculum: Curriculum, edit: Edit) -> Curriculum:
    """The curriculum with mixing changed, its wording looked at."""
    modules = {id: replace(m, wording=m.digest) for id, m in curriculum.modules.items()}
    return replace(curriculum, modules={**modules, "mixing": edit(modules["mixing"])})


def with_a_lesson(module: Module) -> Module:
    return replace(module, lessons=(*module.lessons, Lesson("siphon-two", "Siphon", "", 10, ())))


def raised(module: Module) -> Module:
    return replace(module, edition=module.edition + 1)


def test_files_as_they_were_noted_lapse_nobody(cleared: Any) -> None:
    assert lapses(cleared.curriculum, cleared.events, DAY) == []


def test_a_raised_edition_gives_those_who_may_work_a_fortnight(cleared: Any) -> None:
    (lapse,) = lapses(edited(cleared.curriculum, raised), cleared.events, DAY)
    assert (lapse.module.id, lapse.at_once, lapse.brief) == ("mixing", (), ("Juno",))
    assert lapse.by == "2026-02-24"


def test_a_lesson_added_without_an_edition_lapses_at_once(cleared: Any) -> None:
    (lapse,) = lapses(edited(cleared.curriculum, with_a_lesson), cleared.events, DAY)
    assert (lapse.at_once, lapse.brief) == (("Juno",), ())


def test_once_the_record_has_heard_of_it_nothing_is_told_any_more(cleared: Any) -> None:
    now = edited(cleared.curriculum, raised)
    cleared.edition(now.modules["mixing"], DAY)
    assert lapses(now, cleared.events, DAY) == []


def test_what_raising_would_do_is_told_as_well(cleared: Any) -> None:
    mixing = cleared.curriculum.modules["mixing"]
    lapse = if_raised(cleared.curriculum, cleared.events, mixing, DAY)
    assert lapse
    assert (lapse.brief, lapse.by) == (("Juno",), "2026-02-24")


def kept(shop: Place, story: Any) -> None:
    shop.records.unlink()
    with open_records(shop.records, create=True) as records:
        records.append(story.events)


def warned(curriculum: Curriculum, shop: Place) -> list[tuple[str, str]]:
    places = {("module", name): (f"{name}.yaml", 1) for name in curriculum.modules}
    found = edition_warnings(curriculum, places, shop.records)
    return [(fault.what, fault.next) for fault in found if fault.file == "mixing.yaml"]


def test_check_says_it_in_words(cleared: Any, shop: Place, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("generator.workflows.editions.today", lambda: DAY)
    kept(shop, cleared)
    ((what, next_step),) = warned(edited(cleared.curriculum, raised), shop)
    assert what == "Mixing: edition 2 lapses 1 person (Juno) after 2026-02-24"
    assert "wording only? put edition back to 1" in next_step
    assert "rigprimer brief mixing --everyone" in next_step
    ((what, next_step),) = warned(edited(cleared.curriculum, with_a_lesson), shop)
    assert what == "Mixing: this change lapses 1 person (Juno) at once"
    assert "raise edition to 2" in next_step
    changed = edited(cleared.curriculum, lambda m: replace(m, wording="000000"))
    ((what, _),) = warned(changed, shop)
    assert "raising it lapses 1 person (Juno) after 2026-02-24 without a re-brief" in what


def test_a_record_that_cannot_be_read_does_not_hide_the_faults(cleared: Any, shop: Place) -> None:
    shop.records.write_bytes(b"no record at all")
    curriculum = edited(cleared.curriculum, lambda m: m)
    (fault,) = edition_warnings(curriculum, _places(curriculum), shop.records)
    assert fault.file == str(shop.records)


def _places(curriculum: Curriculum) -> dict[tuple[str, str], tuple[str, int]]:
    return {("module", name): ("", 0) for name in curriculum.modules}


def test_a_re_brief_asks_three_questions_of_the_changed_lessons(curriculum: Curriculum) -> None:
    change = Change(1, ("Tested daily.",), ("batch", "part-full"))
    mixing = replace(curriculum.modules["mixing"], changed=change)
    items = questions_of(mixing, change_of(mixing))
    asked = {q.id: q for q in mixing.questions}
    assert len(items) == 3
    assert {asked[item.id].lesson for item in items} == {"batch", "part-full"}
    assert asked[items[0].id].must
    assert questions_of(mixing, change) == items  # one key serves every copy


@pytest.mark.parametrize(
    ("change", "what"),
    [(None, "does not say what its edition 1 changed"), (0, "is about edition 0")],
)
def test_no_sheet_without_what_changed(
    curriculum: Curriculum, change: int | None, what: str
) -> None:
    said = None if change is None else Change(change, ("x",), ("batch",))
    with pytest.raises(Refusal, match=what):
        change_of(replace(curriculum.modules["mixing"], changed=said))


def test_everybody_under_an_older_edition_gets_a_sheet(cleared: Any) -> None:
    now = edited(cleared.curriculum, raised)
    mixing = now.modules["mixing"]
    cleared.edition(mixing, DAY)
    assert to_brief(now, cleared.events, mixing, "2026-02-12") == ["Juno"]
    assert to_brief(now, cleared.events, mixing, "2026-03-12") == ["Juno"]  # lapsed by now
    data = {"module": "mixing", "lessons": [], "edition": 2, "rebrief": True}
    cleared.add("taught", "Juno", "2026-02-13", "Mara", **data)
    assert to_brief(now, cleared.events, mixing, "2026-02-14") == []
