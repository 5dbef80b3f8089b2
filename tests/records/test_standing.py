"""Standing, case by case: tests/cases/standing.txt says what happened and what follows."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from typing import Any

from generator.model.course import Curriculum
from generator.model.event import Event
from generator.model.standing import STATES, Standing
from generator.records.crew import known
from generator.records.gather import gather
from generator.records.standing import (
    may_mix,
    person_standings,
    standings,
    unnoted_editions,
)

CASES, WORDS = "standing.txt", ("on", "=>")
History = Callable[[str], tuple[Event, ...]]
Cases = Callable[[str, Sequence[str]], list[Any]]


def check(expected: str, found: tuple[Standing, ...]) -> None:
    text, _, days = expected.partition(" [")
    head, *words = text.split(" | ")
    person, module, rig, state = head.split(" ", 3)
    assert state in STATES
    key = (person, module, "" if rig == "-" else rig)
    (one,) = [each for each in found if (each.person, each.module, each.rig) == key]
    assert (one.state, one.missing) == (state, one.missing)
    for word in words:
        if word == "nothing":
            assert one.missing == ()
        else:
            assert any(word in each for each in one.missing), one.missing
    for name, day in re.findall(r"(since|due)=(\S*?)[\] ]", days + " "):
        assert getattr(one, name) == day


def test_case(case: Any, starts: dict[str, str], history: History) -> None:
    events = history(starts[case.start] + case.events)
    found = standings(events, case.curriculum(), case.said["on"][0])
    assert case.said["=>"]
    for expected in case.said["=>"]:
        check(expected, found)


def test_there_are_cases_enough_and_every_state_has_one(cases: Cases) -> None:
    known = cases(CASES, WORDS)
    assert len(known) >= 40
    said = " ".join(line.split(" | ")[0] for case in known for line in case.said["=>"])
    assert [state for state in STATES if state not in said] == []


def test_one_line_for_each_person_module_and_rig(
    starts: dict[str, str], history: History, curriculum: Callable[..., Curriculum]
) -> None:
    found = standings(history(starts["cleared"]), curriculum(), "2025-01-10")
    keys = [(each.person, each.module, each.rig) for each in found]
    assert keys[:4] == [
        ("Boss", "gear", ""),
        ("Boss", "mixing", "rig-1"),
        ("Boss", "mixing", "rig-2"),
        ("Boss", "ladders", ""),
    ]
    assert len(keys) == len(set(keys)) == 12


def test_who_may_mix_is_told_rig_by_rig(
    starts: dict[str, str], history: History, curriculum: Callable[..., Curriculum]
) -> None:
    found = standings(history(starts["cleared"]), curriculum(), "2025-01-10")
    assert may_mix(found, ["rig-1", "rig-2"]) == {"rig-1": ("Ana",), "rig-2": ()}
    assert may_mix(found, ["rig-1"], duty="mix-acid") == {"rig-1": ()}


def test_in_another_language_a_missed_must_get_is_told_by_its_place_on_the_paper(
    starts: dict[str, str], history: History, curriculum: Callable[..., Curriculum]
) -> None:
    sat = "2025-01-08 sat Ana by Boss M1 mixing 3/4 missed=water-first\n"
    book = gather(history(starts["gear"] + sat))
    found = person_standings(book, known(book, "Ana"), curriculum(), "2025-01-08", "es")
    (told,) = {each for line in found for each in line.missing if "obligatoria" in each}
    assert "pregunta 4 del examen M1" in told


def test_an_edition_is_noted_once(
    starts: dict[str, str], history: History, curriculum: Callable[..., Curriculum]
) -> None:
    events = history(starts["crew"])
    modules = curriculum().modules.values()
    noted = unnoted_editions(gather(events), modules, "2025-01-03")
    assert [event.data["module"] for event in noted] == ["gear", "mixing", "ladders"]
    assert noted[1].data == {
        "module": "mixing",
        "edition": 1,
        "lessons": ["percent", "ratios"],
        "must": ["goggles", "pour"],
    }
    assert unnoted_editions(gather([*events, *noted]), modules, "2025-01-04") == ()
