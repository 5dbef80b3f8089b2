"""What may be entered, case by case: tests/cases/rules.txt says what happened and what is said."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field, replace
from pathlib import Path
from typing import Any

import pytest

from generator.errors import Refusal
from generator.model.course import Curriculum
from generator.model.event import KINDS, Event
from generator.records.rules import RULES, permit
from generator.records.store import Records

CASES = Path(__file__).parents[1] / "cases" / "rules.txt"
History = Callable[[str], tuple[Event, ...]]
Curricula = Callable[..., Curriculum]


@dataclass
class Case:
    """A case as written in the file."""

    title: str
    line: int
    start: str = ""
    before: str = ""
    asked: str = ""
    answer: str = ""
    now: dict[str, dict[str, Any]] = field(default_factory=dict)

    def read(self, line: str) -> None:
        word, _, rest = line.partition(" ")
        if word == "from":
            self.start = rest
        elif word == "now":
            module, *pairs = rest.split()
            said = dict(pair.split("=") for pair in pairs)
            self.now[module] = {k: int(v) if v.isdigit() else v for k, v in said.items()}
        elif word == "?":
            self.asked = rest
        elif word in ("may", "no"):
            self.answer = line
        else:
            self.before += line + "\n"


def read_cases() -> list[Case]:
    cases: list[Case] = []
    for number, line in enumerate(CASES.read_text("utf-8").splitlines(), start=1):
        if line.startswith("== "):
            cases.append(Case(line[3:], number))
        elif line.strip() and not line.startswith("#"):
            cases[-1].read(line)
    return cases


@pytest.mark.parametrize("case", read_cases(), ids=lambda case: f"{case.line}: {case.title}")
def test_case(case: Case, starts: dict[str, str], history: History, curriculum: Curricula) -> None:
    before = history(starts[case.start] + case.before)
    (asked,) = history(case.asked)
    asked = replace(asked, number=len(before) + 1)
    if case.answer == "may":
        permit(asked, before, curriculum(**case.now))
        return
    what, _, next_step = case.answer.removeprefix("no ").partition(" -> ")
    with pytest.raises(Refusal) as caught:
        permit(asked, before, curriculum(**case.now))
    assert what in caught.value.what
    assert next_step
    assert next_step in caught.value.next


def test_every_kind_of_event_has_its_rules_and_its_cases() -> None:
    assert sorted(RULES) == sorted(KINDS)
    asked = {case.asked.split()[1] for case in read_cases() if case.answer == "may"}
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
