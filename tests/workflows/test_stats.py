"""What the crew gets wrong, counted from papers that were drawn, answered and marked for real."""

from __future__ import annotations

import json
import re
from collections.abc import Callable
from dataclasses import replace

import pytest

from generator.errors import Refusal
from generator.marking import result as marking
from generator.model.course import Curriculum
from generator.model.event import Event
from generator.model.item import Item
from generator.model.tally import Count, Tally, worst_first
from generator.records.papers_kept import result_to_data
from generator.workflows.drawing import draw_paper
from generator.workflows.item_analysis import agreement, right_interval
from generator.workflows.paper import issued_event
from generator.workflows.stats import (
    as_data,
    by_season,
    marked_papers,
    seasons_of,
    share_text,
    tallies,
)

Answers = Callable[[Item], str]
FRACTION = "read the ratio as a fraction, as 1 to 4 for one quarter"


def right(item: Item) -> str:
    return item.answer.text


def reads_a_quarter(item: Item) -> str:
    slip = next((s for s in item.slips if s.name == FRACTION), None)
    return slip.text if slip and item.id == "ratio-strength" else right(item)


def sat(
    curriculum: Curriculum,
    person: str,
    day: str,
    answers: Answers = right,
    practice: bool = False,
    module: str = "mixing",
) -> list[Event]:
    code = f"{person}-{day}-{practice}"
    sheet = draw_paper(curriculum, curriculum.modules[module], person, practice, code, day=day)
    result = marking.mark(sheet, [answers(item) for item in sheet.items])
    data = result_to_data(result, "answers")
    return [issued_event(sheet), Event("marked", person, day, day, "Mara", data)]


def record(*events: Event) -> list[Event]:
    names = dict.fromkeys(event.person for event in events)
    joined = [Event("joined", name, "2024-01-01", "2024-01-01") for name in names]
    return [e._replace(number=n) for n, e in enumerate([*joined, *events], start=1)]


@pytest.fixture(scope="module")
def events(curriculum: Curriculum) -> list[Event]:
    """Eight people, five of whom read 1 to 4 as one quarter, after a practice paper all right."""
    crew = [f"P{number}" for number in range(8)]
    made: list[Event] = []
    for number, name in enumerate(crew):
        answers = reads_a_quarter if number < 5 else right
        made += sat(curriculum, name, "2025-03-01", practice=True)
        made += sat(curriculum, name, "2025-03-03", answers)
    made += sat(curriculum, "P0", "2025-03-05", reads_a_quarter)  # a later try
    return record(*made)


def test_five_of_eight_read_a_quarter(curriculum: Curriculum, events: list[Event]) -> None:
    (tally,) = tallies(marked_papers(events), curriculum)
    worst = tally.slips[0]
    assert worst.sentence == f"5 of 8 {FRACTION}"
    assert worst.where == "Ratio strength"
    assert worst.made == Tally(Count(5, 8), Count(0, 8), people=8)
    first = tally.items[0]
    assert (first.id, first.must, first.question) == ("ratio-strength", True, False)
    assert (first.slip, first.slip_count) == (FRACTION, 5)
    assert first.missed.first.rest == Count(3, 8)
    assert first.missed.practice.rest == Count(8, 8)
    assert sum(item.missed.main.count for item in tally.items) == 5  # nothing else was missed
    assert str(tally.papers) == (
        "8 first tries and 8 practice papers by 8 people; 1 later try not counted"
    )


def test_under_ten_people_no_share_is_said() -> None:
    assert share_text(Tally(Count(5, 9), Count(), 9)) == "too few to say"
    assert share_text(Tally(Count(5, 20), Count(), 9)) == "too few to say"
    assert share_text(Tally(Count(1, 3), Count(), 10)) == "33%"


def test_seasons_are_pooled_and_can_be_told_apart(curriculum: Curriculum) -> None:
    made: list[Event] = []
    for year, answers in (("2024", reads_a_quarter), ("2025", right)):
        for name in ("Juno", "Teo"):
            made += sat(curriculum, name, f"{year}-04-01", answers)
    papers = marked_papers(record(*made))
    (pooled,) = tallies(papers, curriculum)
    assert pooled.slips[0].made == Tally(Count(2, 4), Count(), people=2)
    assert pooled.told == "4 first tries by 2 people (seasons 2024 to 2025)"
    assert seasons_of(papers) == ("2024", "2025")
    apart = {y: tallies(found, curriculum)[0] for y, found in by_season(papers).items()}
    assert apart["2024"].slips[0].made.first == Count(2, 2)
    assert apart["2025"].slips == ()


def test_practice_is_told_where_nobody_sat_a_counted_paper(curriculum: Curriculum) -> None:
    made = sat(curriculum, "Juno", "2025-03-01", reads_a_quarter, practice=True)
    (tally,) = tallies(marked_papers(record(*made)), curriculum)
    assert tally.slips[0].sentence == f"1 of 1 {FRACTION} on practice papers"


def test_one_module_only(curriculum: Curriculum) -> None:
    made = sat(curriculum, "Juno", "2025-03-01")
    made += sat(curriculum, "Juno", "2025-03-02", module="debris")
    events = record(*made)
    both = tallies(marked_papers(events), curriculum)
    order = [module for module in curriculum.modules if module in ("mixing", "debris")]
    assert [tally.module for tally in both] == order
    (one,) = tallies(marked_papers(events, "debris"), curriculum)
    assert one.module == "debris"


def test_a_module_that_is_gone_is_still_told(curriculum: Curriculum) -> None:
    events = record(*sat(curriculum, "Juno", "2025-03-01", reads_a_quarter))
    without = {id: module for id, module in curriculum.modules.items() if id != "mixing"}
    (tally,) = tallies(marked_papers(events), replace(curriculum, modules=without))
    assert (tally.module, tally.title, tally.short) == ("mixing", "Mixing", "mixing")
    assert tally.items[0].lesson == "Batch"  # its title is not known any more


def test_no_marked_paper_is_said_with_what_to_do(curriculum: Curriculum) -> None:
    with pytest.raises(Refusal, match=r"no paper has been marked yet.*rigprimer grade"):
        marked_papers([])
    events = record(*sat(curriculum, "Juno", "2025-03-01"))
    with pytest.raises(Refusal, match="yet in debris"):
        marked_papers(events, "debris")


def test_what_one_paper_shows_stands_behind_what_more_do(
    curriculum: Curriculum, events: list[Event]
) -> None:
    (tally,) = tallies(marked_papers(events), curriculum)
    item = tally.items[0]
    counts = {"one": Count(1, 1), "few": Count(2, 16), "many": Count(5, 8), "none": Count(0, 9)}
    things = [
        replace(item, id=name, must=False, missed=Tally(count, Count(), 8))
        for name, count in counts.items()
    ]
    assert [thing.id for thing in worst_first(things)] == ["many", "few", "one", "none"]


def test_must_gets_stand_first_and_a_single_practice_miss_last(
    curriculum: Curriculum, events: list[Event]
) -> None:
    (tally,) = tallies(marked_papers(events), curriculum)
    none = Count()
    counts = {
        "must-once": (True, Count(1, 4), none),
        "often": (False, Count(6, 8), none),
        "practice": (False, none, Count(2, 3)),
        "must-practice-once": (True, none, Count(1, 1)),
        "practice-once": (False, none, Count(1, 1)),
        "must-right": (True, Count(0, 8), none),
    }
    things = [
        replace(tally.items[0], id=name, must=must, missed=Tally(first, practice, 8))
        for name, (must, first, practice) in counts.items()
    ]
    assert [thing.id for thing in worst_first(reversed(things))] == list(counts)


def test_as_data_counts_right_answers_and_slips(
    curriculum: Curriculum, events: list[Event]
) -> None:
    (tally,) = tallies(marked_papers(events), curriculum)
    data = as_data(tally)
    assert json.loads(json.dumps(data)) == data
    assert data["items"][0]["first_tries"] == {"right": 3, "of": 8}
    assert data["items"][0]["practice"] == {"right": 8, "of": 8}
    assert data["items"][0]["too_few"] is True
    assert data["slips"][0]["first_tries"] == {"made": 5, "of": 8}
    assert (data["later_tries_not_counted"], data["marked_without_items"]) == (1, 0)


def test_item_analysis_of_the_first_tries(curriculum: Curriculum, events: list[Event]) -> None:
    papers = marked_papers(events)
    found = agreement(papers)
    assert found.papers == 8
    shared = set.intersection(
        *({shown.id for shown in p.shown} for p in papers if p.kind == "first")
    )
    assert found.shared == len(shared) >= len(curriculum.modules["mixing"].blueprint.must)
    assert found.items["ratio-strength"] is None  # all the rest was right, so nothing to compare
    assert found.kr20 == pytest.approx(0)  # one item alone differs
    (tally,) = tallies(papers, curriculum)
    assert right_interval(tally.items[0].missed) == (13, 70)  # 3 of 8, widened


def test_item_analysis_of_nothing_says_nothing() -> None:
    found = agreement([])
    assert (found.papers, found.shared, found.kr20, found.kr21, found.items) == (
        0, 0, None, None, {},
    )  # fmt: skip


def test_slips_are_named_so_that_they_can_be_told_of_others(curriculum: Curriculum) -> None:
    names = [slip.name for problem in curriculum.problems for slip in problem.slips]
    assert names
    assert [name for name in names if re.search(r"\byou(r|rs|rself)?\b", name)] == []
