"""What marked papers show: each once, first tries apart, slips in words, voided ones left out."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest

from generator.errors import Refusal
from generator.marking import result as marking
from generator.model.event import Event
from generator.model.item import Answer, Item, Option, SlipValue
from generator.model.paper import Paper
from generator.records.papers_kept import paper_to_data, result_to_data
from generator.records.sittings import FIRST, LATER, PRACTICE, Sitting, sittings
from generator.records.store import open_records

QUARTER = ("", "read 1 to 4 as one quarter")
SNIFFED = ("jug", 'chose "Sniff it"')
RIGHT = ("2 gal", "2 gal", "A", "AB")


def amount(place: int) -> Item:
    two = Fraction(2)
    slip = SlipValue("quarter", QUARTER[1], "Count all parts.", Fraction(5, 2), "", "2 1/2 gal")
    answer = Answer(two, two, "gal", low=two, high=two, text="2 gal")
    return Item(
        "amount", "write", place, f"How much, case {place}?", answer, slips=(slip,), lesson="batch"
    )


def paper(code: str, person: str, day: str, practice: bool = False) -> Paper:
    """Two sums of one problem, a must-get question and one that is put in order."""
    leave = (Option("Leave it.", True), Option("Sniff it.", False), Option("Pour it.", False))
    chosen, ordered = Answer(None, None, "", text="A"), Answer(None, None, "", text="AB")
    order = (Option("Water", True), Option("Stock", True))
    items = (
        amount(1),
        amount(2),
        Item("jug", "choose", 3, "A jug?", chosen, leave, lesson="log", must=True),
        Item("pour", "order", 4, "Order?", ordered, order, "AB", lesson="batch"),
    )
    return Paper(code, "0", "mixing", "Mixing", 1, "d", person, day, items, 3, practice)


def issued(sheet: Paper) -> Event:
    day = sheet.printed
    return Event("issued", sheet.person, day, day, "", {"paper": paper_to_data(sheet)})


def marked(sheet: Paper, written: Sequence[str] = RIGHT, how: str = "answers") -> Event:
    data = result_to_data(marking.mark(sheet, written), how)
    return Event("marked", sheet.person, sheet.printed, sheet.printed, "Mara", data)


def sat(code: str, person: str, day: str, *written: str, practice: bool = False) -> list[Event]:
    sheet = paper(code, person, day, practice)
    return [issued(sheet), marked(sheet, written or RIGHT)]


def read(*events: Event) -> tuple[Sitting, ...]:
    joined = [Event("joined", name, "2025-01-01", "2025-01-01") for name in ("Juno", "Teo")]
    return sittings([e._replace(number=n) for n, e in enumerate([*joined, *events], start=1)])


def shown(sitting: Sitting) -> dict[str, Any]:
    return {each.id: each for each in sitting.shown}


def test_first_tries_later_ones_and_practice_are_told_apart() -> None:
    events = [
        *sat("P", "Juno", "2025-03-01", practice=True),
        *sat("A", "Juno", "2025-03-02"),
        *sat("B", "Juno", "2025-03-04"),
        *sat("C", "Juno", "2026-03-04"),
        *sat("D", "Teo", "2025-04-01"),
    ]
    found = [(s.person, s.season, s.kind) for s in read(*events)]
    assert found == [
        ("juno", "2025", PRACTICE),
        ("juno", "2025", FIRST),
        ("juno", "2025", LATER),
        ("juno", "2026", FIRST),
        ("teo", "2025", FIRST),
    ]


def test_a_paper_for_who_comes_back_is_no_first_try() -> None:
    sheet = replace(paper("A", "Juno", "2026-03-02"), back=True)
    assert [s.kind for s in read(issued(sheet), marked(sheet))] == [LATER]


def test_the_day_it_was_sat_says_which_try_was_first() -> None:
    first, second = paper("A", "Juno", "2025-03-02"), paper("B", "Juno", "2025-03-04")
    wrong = marked(first, ("", "", "B", "BA"))
    void = Event("voided", "", "2025-03-05", "2025-03-05", "Odile", {"number": 5, "why": "x"})
    events = [issued(first), issued(second), wrong, marked(second), void, marked(first)]
    assert [(s.kind, s.right) for s in read(*events)] == [(FIRST, 4), (LATER, 4)]


def test_an_item_that_stands_twice_is_right_only_when_both_are() -> None:
    (one,) = read(*sat("A", "Juno", "2025-03-02", "2 gal", "2 1/2 gal", "A", "AB"))
    assert not shown(one)["amount"].right
    assert shown(one)["amount"].made == {QUARTER}
    assert shown(one)["jug"].right
    assert [each.id for each in one.shown] == ["amount", "jug", "pour"]


def test_slips_options_and_orders_are_named_in_words() -> None:
    (one,) = read(*sat("A", "Juno", "2025-03-02", "", "3 gal", "b)", "BA"))
    assert shown(one)["amount"].made == {("", "left it blank")}
    assert shown(one)["jug"].made == {SNIFFED}
    assert shown(one)["pour"].made == {("pour", "put them in another order")}
    assert QUARTER in shown(one)["amount"].possible
    assert SNIFFED in shown(one)["jug"].possible
    assert (shown(one)["jug"].must, shown(one)["jug"].question) == (True, True)
    assert (shown(one)["amount"].must, shown(one)["amount"].question) == (False, False)


def test_an_option_written_out_is_known_as_well() -> None:
    (one,) = read(*sat("A", "Juno", "2025-03-02", "2 gal", "2 gal", "Sniff it", "AB"))
    assert shown(one)["jug"].made == {SNIFFED}


def test_a_voided_mark_and_a_voided_paper_show_nothing() -> None:
    events = [*sat("A", "Juno", "2025-03-02"), *sat("B", "Teo", "2025-03-02")]
    void = [
        Event("voided", "", "2025-03-03", "2025-03-03", "Odile", {"number": n, "why": "wrong name"})
        for n in (4, 5)  # Juno's mark and Teo's paper
    ]
    assert read(*events, *void) == ()


def test_a_paper_marked_anew_counts_once() -> None:
    sheet = paper("A", "Juno", "2025-03-02")
    void = Event("voided", "", "2025-03-03", "2025-03-03", "Odile", {"number": 4, "why": "slip"})
    (one,) = read(issued(sheet), marked(sheet, ("", "", "A", "AB")), void, marked(sheet))
    assert one.right == 4
    assert all(each.right for each in one.shown)


def test_a_mark_without_verdicts_counts_as_a_paper_and_no_more() -> None:
    sheet = paper("A", "Juno", "2025-03-02")
    mark = marked(sheet, how="by eye")
    bare = mark._replace(data={**mark.data, "verdicts": []})
    (one,) = read(issued(sheet), bare)
    assert (one.right, one.items, one.shown) == (4, 4, ())


def by_eye(*slips: str) -> dict[str, Any]:
    """Two sums ticked wrong against the key, with the slips that were ticked."""
    sheet = paper("A", "Juno", "2025-03-02")
    mark = marked(sheet, how="by eye")
    ticked = [
        {**v, "counts": False, "kind": "slip" if slip else "wrong", "slip": slip, "written": ""}
        for v, slip in zip(mark.data["verdicts"], slips, strict=False)
    ]
    verdicts = [*ticked, *mark.data["verdicts"][len(ticked) :]]
    (one,) = read(issued(sheet), mark._replace(data={**mark.data, "verdicts": verdicts}))
    return shown(one)


def test_by_eye_without_slips_says_right_and_wrong_but_nothing_of_slips() -> None:
    found = by_eye("", "")
    assert not found["amount"].right
    assert found["jug"].right
    assert not any(each.made or each.possible for each in found.values())


def test_by_eye_with_slips_ticked_says_them_too() -> None:
    found = by_eye("quarter", "")
    assert found["amount"].made == {QUARTER}
    assert SNIFFED in found["jug"].possible


def test_all_right_by_eye_shows_that_no_slip_was_made() -> None:
    assert QUARTER in by_eye()["amount"].possible


def test_a_mark_that_is_not_whole_is_refused_by_its_number() -> None:
    sheet = paper("A", "Juno", "2025-03-02")
    mark = marked(sheet)
    lost = mark._replace(data={**mark.data, "verdicts": [{"position": 9}]})
    with pytest.raises(Refusal, match="event 4"):
        read(issued(sheet), lost)


def test_it_reads_what_the_file_keeps(tmp_path: Path) -> None:
    joined = Event("joined", "Juno", "2025-01-01", "2025-01-01")
    with open_records(tmp_path / "records.sqlite3", create=True) as records:
        records.append([joined, *sat("A", "Juno", "2025-03-02", "2 1/2 gal", "2 gal", "B", "AB")])
        (one,) = sittings(records.events())
    assert (one.module, one.title, one.right, one.items) == ("mixing", "Mixing", 2, 4)
    assert {way for each in one.shown for way in each.made} == {QUARTER, SNIFFED}
