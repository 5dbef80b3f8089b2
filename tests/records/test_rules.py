"""What may be entered, case by case: tests/cases/rules.txt says what happened and what is said."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Any

import pytest

from generator.errors import Refusal
from generator.model.course import Curriculum
from generator.model.event import KINDS, Event
from generator.records.rules import RULES, permit
from generator.records.store import Records

CASES, WORDS = "rules.txt", ("?", "may", "no")
History = Callable[[str], tuple[Event, ...]]
Curricula = Callable[..., Curriculum]
Cases = Callable[[str, Sequence[str]], list[Any]]


def test_case(case: Any, starts: dict[str, str], history: History) -> None:
    before = history(starts[case.start] + case.events)
    (asked,) = history(case.said["?"][0])
    asked = asked._replace(number=len(before) + 1)
    if "may" in case.said:
        permit(asked, before, case.curriculum())
        return
    what, _, next_step = case.said["no"][0].partition(" -> ")
    with pytest.raises(Refusal) as caught:
        permit(asked, before, case.curriculum())
    assert what in caught.value.what
    assert next_step
    assert next_step in caught.value.next


def test_every_kind_of_event_has_its_rules_and_its_cases(cases: Cases) -> None:
    assert sorted(RULES) == sorted(KINDS)
    asked = {case.said["?"][0].split()[1] for case in cases(CASES, WORDS) if "may" in case.said}
    assert asked == set(KINDS)


def test_what_is_still_to_come_cannot_be_entered(
    starts: dict[str, str], history: History, curriculum: Curricula
) -> None:
    event = Event("left", "Ana", "2025-03-02", "2025-03-01")
    with pytest.raises(Refusal, match="2025-03-02 is still to come"):
        permit(event, history(starts["crew"]), curriculum())


def test_a_whole_day_goes_through_the_record_rule_by_rule(
    path: Path, starts: dict[str, str], history: History, curriculum: Curricula
) -> None:
    today = curriculum()
    with Records(path, create=True) as records:

        def enter(*events: Event) -> None:
            records.append(events, lambda event, past: permit(event, past, today))

        enter(*history(starts["cleared"]))
        before = records.events()
        again = before[-1]
        with pytest.raises(Refusal, match="paper M1 was marked"):
            enter(again, before[10])
        assert records.events() == before
