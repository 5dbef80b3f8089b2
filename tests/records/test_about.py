"""A part of the record about a few people gives the same facts of them as the whole of it."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from pathlib import Path
from random import Random

import pytest

from generator.errors import Refusal
from generator.model.course import Curriculum
from generator.model.event import Event
from generator.model.standing import Standing
from generator.records.about import About, about_events, about_people
from generator.records.gather import gather
from generator.records.rules import permit
from generator.records.standing import person_standings, standings
from generator.records.store import Records

History = Callable[[str], tuple[Event, ...]]
Curricula = Callable[..., Curriculum]

CREW = ("Ana", "ana", "Ben", "Cal", "Boss", "Dee")
TRAINERS = ("Boss", "Cal", "CAL", "Dee")
LINES = (
    "{day} joined {who}",
    "{day} left {who}",
    "{day} returned {who}",
    "{day} trainer-named {who} by Owner basis=years",
    "{day} trainer-ended {who} by Owner why=office",
    "{day} suspended {who} by Owner module=mixing why=goggles",
    "{day} suspended {who} by Owner why=speeding",
    "{day} restored {who} by Owner module=mixing",
    "{day} incident {who} by Owner what=splash",
    "{day} exception {who} by Owner module=gear allow=try why=busy",
    "{day} taught {who} by {by} module=gear lessons=hoses",
    "{day} taught {who} by {by} module=mixing lessons=percent,ratios",
    "{day} sheets-shown {who} by {by} rig=rig-1",
    "{day} signed-off {who} by {by} module=mixing rig=rig-1 goggles=yes pour=yes tidy=yes",
    "{day} signed-off {who} by {by} module=ladders footing=yes",
    "{day} sat {who} by {by} P{n} gear 4/4",
    "{day} sat {who} by {by} P{n} mixing 4/4 missed=acid",
    "{day} sat {who} by {by} P{n} mixing 3/4 spare",
    "{day} sat {who} by {by} P{n} ladders 2/4 practice",
    "{day} marked {who} by {by} P{old} mixing 4/4",
    "{day} oral {who} by {by} module=mixing item=acid right_in_a_row=2 paper=P{old}",
    "{day} edition - module=mixing edition=2 lessons=percent must=goggles",
    "{day} changed - by Owner module=mixing rig=rig-1 cause=equipment what=pump",
    "{day} issued - Q{n} mixing edition=2 spare",
    "{day} voided - by Owner number={number} why=mistake",
)


def random_history(random: Random, history: History, size: int) -> tuple[Event, ...]:
    lines = [f"2025-01-01 joined {name}" for name in ("Ana", "Ben", "Cal", "Boss")]
    lines += ["2025-01-01 trainer-named Boss by Owner basis=years"]
    for n in range(size):
        day = f"2025-{random.randint(1, 12):02}-{random.randint(1, 28):02}"
        line = random.choice(LINES).format(
            day=day,
            who=random.choice(CREW),
            by=random.choice(TRAINERS),
            n=n,
            old=random.randrange(n + 1),
            number=random.randint(1, n + 5),
        )
        lines.append(line)
    return history("\n".join(lines))


@pytest.mark.parametrize("seed", range(25))
def test_facts_and_standing_of_a_person_are_the_same(
    path: Path, seed: int, history: History, curriculum: Curricula
) -> None:
    random, today = Random(seed), curriculum(mixing={"edition": 1 + seed % 2})
    with Records(path, create=True) as records:
        events = records.append(random_history(random, history, 60))
        whole = gather(events)
        for name in ("Ana", "BEN", "Cal", "Boss"):
            part = records.events(about_people([name]))
            assert all(event == events[event.number - 1] for event in part)
            assert gather(part).person(name) == whole.person(name)
            assert gather(part).raised == whole.raised
            for on in ("2025-06-30", "2025-12-31"):
                assert standing_of(name, part, today, on) == standing_of(name, events, today, on)


@pytest.mark.parametrize("seed", range(25))
def test_an_outline_of_the_record_gives_everybody_the_same_standing(
    path: Path, seed: int, history: History, curriculum: Curricula
) -> None:
    random, today = Random(500 + seed), curriculum(mixing={"edition": 1 + seed % 2})
    with Records(path, create=True) as records:
        events = records.append(random_history(random, history, 60))
        outline = records.outline()
    assert [event.number for event in outline] == [event.number for event in events]
    for on in ("2025-06-30", "2025-12-31"):
        assert standings(outline, today, on) == standings(events, today, on)


def test_an_outline_has_the_items_of_a_paper_only_where_a_must_get_was_missed(
    path: Path, starts: dict[str, str], history: History
) -> None:
    missed = "2025-01-08 sat Cal by Boss M2 mixing 3/4 missed=acid\n"
    with Records(path, create=True) as records:
        records.append(history(starts["papered"] + missed))
        papers = [e.data["paper"] for e in records.outline() if e.kind == "issued"]
    assert {paper["code"]: "items" in paper for paper in papers} == {
        "G1": False,
        "M1": False,
        "M2": True,
    }


HEARD_ON_PAPER = """
2025-02-01 edition - module=mixing edition=2 lessons=percent,ratios must=goggles,pour
2025-02-01 joined Eli
2025-02-01 issued Eli M7 mixing edition=2
2025-03-01 issued - M8 mixing edition=2 spare
2025-03-02 voided - by Owner number=14 why=too-early
2025-03-02 edition - module=mixing edition=2 lessons=percent,ratios must=goggles,pour
"""
TORN = "2025-03-02 voided - by Owner number=16 why=torn\n"
NOT_TORN = "2025-03-02 voided - by Owner number=20 why=found-again\n"


@pytest.mark.parametrize(
    ("voids", "state"), [("", "lapsed"), (TORN, "re-brief"), (TORN + NOT_TORN, "lapsed")]
)
def test_an_edition_first_heard_of_on_the_paper_of_another(
    path: Path,
    history: History,
    starts: dict[str, str],
    curriculum: Curricula,
    voids: str,
    state: str,
) -> None:
    today = curriculum(mixing={"edition": 2})
    with Records(path, create=True) as records:
        whole = records.append(history(starts["cleared"] + HEARD_ON_PAPER + voids))
        assert [whole[n - 1].kind for n in (14, 16)] == ["edition", "issued"]
        part = records.events(about_people(["Ana"]))
    for events in (whole, part):
        found = standing_of("Ana", events, today, "2025-03-03")
        assert [s.state for s in found if s.rig == "rig-1"] == [state]


def standing_of(
    name: str, events: Sequence[Event], curriculum: Curriculum, on: str
) -> tuple[Standing, ...]:
    book = gather(events, on)
    who = book.person(name)
    return person_standings(book, who, curriculum, on) if who else ()


def answer(event: Event, past: Sequence[Event], curriculum: Curriculum) -> str:
    try:
        permit(event, past, curriculum)
    except Refusal as refusal:
        return str(refusal)
    return "may"


@pytest.mark.parametrize("seed", range(25))
def test_what_may_be_entered_is_decided_the_same(
    path: Path, seed: int, history: History, curriculum: Curricula
) -> None:
    random, today = Random(1000 + seed), curriculum(mixing={"edition": 1 + seed % 2})
    events = random_history(random, history, 80)
    with Records(path, create=True) as records:
        past = records.append(events[:50])
        answers = set()
        for event in events[50:]:
            asked = event._replace(number=len(past) + 1, entered="2025-12-31")
            part = records.events(about_events([asked]))
            said = answer(asked, part, today)
            assert said == answer(asked, past, today), asked
            answers.add(said)
    assert len(answers) > 3


def test_little_is_read_for_one_person(path: Path, history: History) -> None:
    lines = [f"2025-01-01 joined Crew{n}" for n in range(40)]
    for n in range(40):
        lines += [f"2025-01-02 sat Crew{n} by Crew0 P{n} gear 4/4"]
        lines += [f"2025-01-03 taught Crew{n} by Crew0 module=gear lessons=hoses"] * 5
    with Records(path, create=True) as records:
        records.append(history("\n".join(lines)))
        assert len(records.events()) == 320
        assert len(records.events(about_people(["crew7"]))) == 40 + 2 + 5
        assert len(records.events(About((), papers=("P9",)))) == 40 + 2


def test_names_with_anything_in_them_are_found(path: Path) -> None:
    names = ['Ña "Q", O\'Dell\r\n\t\x00<b>', "x\x00y", "😀", "=cmd|' /C calc'!A0", "مرحبا"]
    with Records(path, create=True) as records:
        records.append([Event("joined", name, "2025-03-01", "2025-03-01") for name in names])
        for name in names:
            noted = Event("incident", name, "2025-03-01", "2025-03-01")
            records.append([noted])
            found = [e for e in records.events(about_people([name])) if e.kind == "incident"]
            assert [e.person for e in found] == [name]
