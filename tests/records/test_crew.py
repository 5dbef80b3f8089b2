"""Who is on the crew, who is a trainer, whom a name means."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from generator.errors import Refusal
from generator.model.event import Event
from generator.records.crew import find, on_crew, trainers

History = Callable[[str], tuple[Event, ...]]
DAY = "2025-03-01"


def joined(*names: str) -> list[Event]:
    return [Event("joined", name, DAY, DAY, number=n) for n, name in enumerate(names, start=1)]


def test_joined_left_and_returned(history: History) -> None:
    events = history(
        """2025-01-01 joined Ana
           2025-01-01 joined Ben
           2025-01-01 joined Cal
           2025-02-01 left Ana
           2025-02-01 left Ben
           2025-03-01 returned Ana
           2025-03-01 voided Cal by Owner number=3 why=never-came"""
    )
    assert on_crew(events) == ("Ana",)
    assert on_crew(()) == ()


def test_trainers_are_named_by_the_owner_and_current(history: History) -> None:
    events = history(
        """2025-01-01 joined Ana
           2025-01-01 joined Ben
           2025-01-01 joined Cal
           2025-01-01 joined Dee
           2025-01-01 joined Eli
           2025-01-01 joined Flo
           2025-01-02 trainer-named Ana by Owner basis=years
           2025-01-02 trainer-named Ben by Owner basis=years
           2025-01-02 trainer-named Cal by Owner basis=years
           2025-01-02 trainer-named Dee by Owner basis=years
           2025-01-02 trainer-named Eli basis=says-so
           2025-01-02 trainer-named Flo by Owner
           2025-02-01 trainer-ended Ben by Owner
           2025-02-01 left Cal
           2025-02-02 returned Cal
           2025-02-03 suspended Dee by Owner why=phone"""
    )
    assert trainers(events) == ("Ana", "Flo")


@pytest.mark.parametrize(
    "typed", ["Ana Núñez", "ana núñez", "  ANA   NÚÑEZ ", "Ana Nu\u0301n\u0303ez"]
)
def test_a_name_is_found_however_it_is_typed(typed: str) -> None:
    assert find(joined("Ben", "Ana Núñez"), typed) == "Ana Núñez"


@pytest.mark.parametrize("name", ['O"Dell, "Ben"', "Ana\nB", "Zoë 😀", "=1+2", "x" * 300])
def test_odd_names_are_names(name: str) -> None:
    assert find(joined(name), name.upper()) == name
    assert on_crew(joined(name)) == (name,)


@pytest.mark.parametrize("typed", ["anna", "Anna", "aan", "An a"])
def test_the_nearest_name_is_offered(typed: str) -> None:
    with pytest.raises(Refusal) as caught:
        find(joined("Ana", "Boris"), typed)
    assert caught.value.what == f'"{typed}" is not on the crew'
    assert caught.value.next.startswith('did you mean "Ana"?')


def test_a_name_like_none_lists_all_and_an_empty_crew_says_how_to_begin() -> None:
    with pytest.raises(Refusal, match="use one of: Ana, Boris"):
        find(joined("Ana", "Boris"), "Qqq")
    with pytest.raises(Refusal, match=r"nobody is on the crew yet — .*rigprimer crew add"):
        find((), "Ana")


def test_someone_who_left_is_still_known(history: History) -> None:
    events = history("2025-01-01 joined Ana\n2025-02-01 left Ana")
    assert find(events, "ana") == "Ana"


@pytest.mark.parametrize(
    "line",
    [
        "taught Ana lessons=x",
        "sheets-shown Ana",
        "oral Ana by Ana",
        "signed-off Ana by Ana rig=x",
        "changed - module=x cause=hazard what=y",
    ],
)
def test_an_event_that_is_not_whole_is_named(history: History, line: str) -> None:
    events = history(f"2025-01-01 joined Ana\n2025-01-02 {line}")
    with pytest.raises(Refusal, match=r"event 2 \(.*\) is not whole"):
        on_crew(events)
