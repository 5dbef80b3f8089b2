"""What is due, and the audit pack made of the same record."""

from __future__ import annotations

from dataclasses import fields, replace
from typing import Any

import pytest

from generator.model.shop import Lapse, Rules
from generator.workflows.audit import audit_of, triggers
from generator.workflows.due import due_list


@pytest.fixture
def cleared(story: Any) -> Any:
    """Juno may mix on both rigs since February 2."""
    return story.crew("Juno").cleared("Juno", "2026-02-02", "rig-1", "rig-2")


def at_work(story: Any) -> None:
    for month in ("04", "06", "08", "10", "12"):
        story.add("incident", "Juno", f"2026-{month}-15", "Mara", what="at work")


def test_rigs_on_which_the_same_is_due_stand_in_one_line(cleared: Any) -> None:
    at_work(cleared)
    due = due_list(cleared.curriculum, cleared.events, "2027-01-10", "head", 30)
    mixing = [line for line in due.lines if line.module == "mix"]
    assert [(line.day, line.rigs, line.over) for line in mixing] == [
        ("2027-02-02", ("Rig 1", "Rig 2"), False)
    ]
    assert mixing[0].what == "a new written paper and a new sign-off"


def test_nothing_is_due_beyond_the_days_asked_for(cleared: Any) -> None:
    at_work(cleared)
    assert due_list(cleared.curriculum, cleared.events, "2027-01-10", "head", 20).lines == ()


def test_what_is_over_stands_first(cleared: Any) -> None:
    at_work(cleared)
    cleared.add("incident", "Juno", "2027-01-05", "Mara", module="mixing", what="splash")
    due = due_list(cleared.curriculum, cleared.events, "2027-01-10", "head", 60)
    first = due.lines[0]
    assert (first.over, first.day, first.module) == (True, "2027-01-05", "mix")
    assert first.what == "a new sign-off after the incident of 2027-01-05"
    assert [line.over for line in due.lines] == sorted((x.over for x in due.lines), reverse=True)


def test_a_re_brief_is_due_by_the_end_of_the_grace(cleared: Any) -> None:
    old = cleared.curriculum.modules["mixing"]
    raised = replace(old, edition=2)
    cleared.edition(raised, "2026-03-01")
    now = replace(cleared.curriculum, modules={**cleared.curriculum.modules, "mixing": raised})
    (line,) = due_list(now, cleared.events, "2026-03-02", "head", 60).lines
    assert (line.day, line.what) == ("2026-03-15", "be re-briefed on edition 2")


def test_absence_is_told_before_it_lapses_anyone(cleared: Any) -> None:
    (line,) = due_list(cleared.curriculum, cleared.events, "2026-04-01", "head", 60).lines
    assert (line.day, line.person, line.module) == ("2026-05-03", "Juno", "all")
    assert "since 2026-02-02" in line.what
    after = due_list(cleared.curriculum, cleared.events, "2026-05-04", "head", 60).lines
    assert after
    assert all(line.over and line.day == "2026-05-04" for line in after)


def test_absence_is_not_told_where_it_lapses_nobody(cleared: Any) -> None:
    rules = Rules(lapse=Lapse(away=False))
    shop = replace(cleared.curriculum.shop, rules=rules)
    kept = replace(cleared.curriculum, shop=shop)
    assert due_list(kept, cleared.events, "2026-04-01", "head", 60).lines == ()


def test_the_audit_shows_people_trainers_editions_and_incidents(cleared: Any) -> None:
    cleared.add("incident", "Juno", "2026-03-01", "Mara", module="mixing", what="splash")
    cleared.add("taught", "Juno", "2026-03-02", "Mara", module="mixing", lessons=["batch"])
    cleared.signed("Juno", "mixing", "2026-03-03", "rig-1")
    audit = audit_of(cleared.curriculum, cleared.events, "2026-03-10", "head", [])
    assert [file.name for file in audit.files] == ["Mara", "Juno"]
    (trainer,) = audit.trainers
    assert (trainer.name, trainer.by, trainer.basis) == ("Mara", "Odile", "six seasons at the rig")
    assert len(audit.editions) == len(cleared.curriculum.modules)
    (incident,) = audit.incidents
    assert incident.after == (
        "taught again on 2026-03-02 by Mara",
        "seen and signed on Rig 1 on 2026-03-03 by Mara",
    )


def test_the_audit_proves_that_a_lapse_stopped_work_and_when_it_began_again(cleared: Any) -> None:
    cleared.add("incident", "Juno", "2026-03-01", "Mara", module="mixing", what="splash")
    cleared.signed("Juno", "mixing", "2026-03-03", "rig-1")
    audit = audit_of(cleared.curriculum, cleared.events, "2026-03-10", "head", [])
    stops = {stop.what: (stop.day, stop.before, stop.then, stop.again) for stop in audit.stops}
    assert stops == {
        "Mixing, Rig 1": ("2026-03-01", "cleared", "lapsed", "2026-03-03"),
        "Mixing, Rig 2": ("2026-03-01", "cleared", "lapsed", ""),
    }


def test_what_speaks_against_a_duty_stops_the_duty_that_builds_on_it(cleared: Any) -> None:
    cleared.add("incident", "Juno", "2026-03-01", "Mara", module="card", what="splash")
    audit = audit_of(cleared.curriculum, cleared.events, "2026-03-10", "head", [])
    titles = ("Mixing by the card", "Mixing")
    assert sorted(stop.what for stop in audit.stops) == sorted(
        f"{title}, {rig}" for title in titles for rig in ("Rig 1", "Rig 2")
    )


def test_a_change_of_work_is_told_and_stops_whoever_was_signed_off(cleared: Any) -> None:
    data = {"module": "mixing", "rig": "rig-1", "cause": "equipment", "what": "new pump"}
    cleared.add("changed", "", "2026-03-01", "Odile", **data)
    cleared.signed("Juno", "mixing", "2026-03-03", "rig-1")
    for day, again in (("2026-03-02", ""), ("2026-03-10", "2026-03-03")):
        audit = audit_of(cleared.curriculum, cleared.events, day, "head", [])
        (change,) = audit.changes
        assert (change.work, change.trail.by) == ("Mixing, Rig 1", "Odile")
        assert change.what == "Other equipment for it: new pump"
        (stop,) = audit.stops
        assert (stop.day, stop.person, stop.what) == ("2026-03-01", "Juno", change.work)
        assert (stop.why, stop.then, stop.again) == (change.what, "lapsed", again)


def test_a_sheet_of_before_is_no_retraining_though_entered_after(cleared: Any) -> None:
    cleared.add("incident", "Juno", "2026-03-01", "Mara", module="mixing", what="splash")
    cleared.signed("Juno", "mixing", "2026-02-27", "rig-1")
    cleared.entered("2026-03-02")
    (incident,) = audit_of(cleared.curriculum, cleared.events, "2026-03-10", "x", []).incidents
    assert incident.after == ()


def test_a_lapse_by_absence_is_proved_too(cleared: Any) -> None:
    audit = audit_of(cleared.curriculum, cleared.events, "2026-06-01", "head", [])
    assert {(stop.day, stop.then) for stop in audit.stops} == {("2026-05-04", "lapsed")}
    assert all("days away" in stop.why for stop in audit.stops)


def test_who_left_stands_apart_in_the_audit(cleared: Any) -> None:
    cleared.add("left", "Juno", "2026-03-01")
    audit = audit_of(cleared.curriculum, cleared.events, "2026-03-10", "head", [])
    assert [file.name for file in audit.gone] == ["Juno"]


def test_the_triggers_are_told_as_they_are_switched() -> None:
    on, off = (
        dict(triggers(Rules())),
        dict(triggers(Rules(lapse=Lapse(*[False] * len(fields(Lapse)))))),
    )
    assert on["Time"] == "after 365 days"
    changed = {name for name in on if on[name] != off[name]}
    assert len(changed) == len(fields(Lapse))
    assert on["A change of stock"] == off["A change of stock"] == "never: it lapses nobody"
