"""The board as a table and as JSON: harmless to spreadsheets, the same shape every time."""

from __future__ import annotations

import csv
import io
import json
from dataclasses import replace
from typing import Any

import pytest

from generator.model.board import Board, Cell, Duty, Row
from generator.model.course import Curriculum
from generator.model.event import Event
from generator.workflows.board import as_csv, as_data, board_of, in_order
from generator.workflows.place import Place
from generator.workflows.record import enter, event, history


def board_with(name: str, missing: tuple[str, ...] = ()) -> Board:
    cell = Cell("not yet", "2026-01-02", missing)
    return Board("2026-01-02", ("mix, Rig 1",), (), (Row(name, "crew", (cell,)),), "", "ab")


@pytest.mark.parametrize(
    "name",
    ["=cmd|'/C calc'!A1", "+1", "-1", "@SUM(A1)", "\t=1", "\r=1", "\n=1"],
)
def test_a_cell_that_a_spreadsheet_would_run_is_made_a_text(name: str) -> None:
    (_, row) = csv.reader(io.StringIO(as_csv(board_with(name)), newline=""))
    assert row[0] == f"'{name}"


@pytest.mark.parametrize("name", ['Ann "Bo" Lee', "a,b", "two\nlines", "Niño", "Jo; Di", "O'Hara"])
def test_an_odd_name_comes_back_as_it_was(name: str) -> None:
    text = as_csv(board_with(name, ("one", 'the "other"')))
    head, row = csv.reader(io.StringIO(text, newline=""), strict=True)
    first, more = ["person", "role", "module", "state", "date", "missing"], ["since", "due"]
    assert head == [*first, *more, "exception"]
    assert row[:6] == [name, "crew", "mix, Rig 1", "not yet", "2026-01-02", 'one; the "other"']


def test_every_line_of_the_table_ends_as_rfc_4180_says() -> None:
    assert as_csv(board_with("Ann")).count("\r\n") == 2


def test_the_board_as_data_has_one_shape(shop: Place, curriculum: Curriculum) -> None:
    board = board_of(curriculum, history(shop.records), "2030-01-01", "abcd")
    data = as_data(board)
    assert json.loads(json.dumps(data)) == data
    assert list(data) == ["date", "may_mix", "people", "head", "exceptions"]
    assert [list(duty) for duty in data["may_mix"]] == [["rig", "sentence", "open"]] * 2
    assert [person["name"] for person in data["people"]] == ["Mara", "Juno", "Teo"]
    assert [person["role"] for person in data["people"]] == ["trainer", "crew", "crew"]
    for person in data["people"]:
        assert [each["module"] for each in person["standing"]] == list(board.modules)
        keys = ["module", "state", "date", "since", "due", "missing", "exception"]
        assert all(list(each) == keys for each in person["standing"])


def test_the_duty_stands_first_rig_by_rig(shop: Place, curriculum: Curriculum) -> None:
    board = board_of(curriculum, history(shop.records), "2030-01-01", "abcd")
    assert board.modules[:2] == ("mix, Rig 1", "mix, Rig 2")
    assert board.duties == (
        Duty("Rig 1", "Nobody may mix on 2030-01-01.", False),
        Duty("Rig 2", "Nobody may mix on 2030-01-01.", False),
    )


def test_who_left_is_not_on_the_board(shop: Place, curriculum: Curriculum) -> None:
    enter(shop, curriculum, [event("left", "Teo")])
    board = board_of(curriculum, history(shop.records), "2030-01-01", "abcd")
    assert [row.person for row in board.rows] == ["Mara", "Juno"]


def test_the_board_of_a_day_before_somebody_joined_leaves_the_person_out(
    curriculum: Curriculum,
) -> None:
    events = [
        Event("joined", "Juno", "2026-03-01", "2026-03-01", number=1),
        Event("joined", "Teo", "2026-06-01", "2026-06-01", number=2),
    ]
    board = board_of(curriculum, events, "2026-04-01", "head")
    assert [row.person for row in board.rows] == ["Juno"]


def test_a_module_that_clears_for_mixing_has_a_column_for_each_rig(curriculum: Curriculum) -> None:
    mixing = curriculum.modules["mixing"]
    once = replace(mixing, sign_off=replace(mixing.sign_off, per_rig=False))
    changed = replace(curriculum, modules={**curriculum.modules, "mixing": once})
    joined = Event("joined", "Juno", "2026-03-01", "2026-03-01", number=1)
    board = board_of(changed, [joined], "2026-04-01", "head")
    assert [name for name in board.modules if name.startswith("mix")] == [
        "mix, Rig 1",
        "mix, Rig 2",
    ]


def test_modules_stand_in_the_order_in_which_they_are_required(curriculum: Curriculum) -> None:
    names = [module.id for module in in_order(curriculum)]
    assert names[:2] == ["mixing", "card"]
    others = names[2:]
    for name in others:
        needed = set(curriculum.modules[name].requires) & set(others)
        assert all(others.index(each) < others.index(name) for each in needed)


def test_what_is_missing_is_told_once_for_modules_and_rigs_that_lack_the_same(
    story: Any, curriculum: Curriculum
) -> None:
    story.crew("Juno").cleared("Juno", "2026-02-02", "rig-1")
    board = board_of(curriculum, story.events, "2026-02-03", "head")
    juno = next(row for row in board.rows if row.person == "Juno")
    assert juno.wants[:2] == (
        "mix, card, gear on Rig 2: sign-off",
        "data sheets on Rig 2",
    )
    assert juno.wants[-1].startswith("not begun: ")
    assert [duty.sentence for duty in board.duties] == [
        "Juno may mix on 2026-02-03.",
        "Nobody may mix on 2026-02-03.",
    ]


def test_who_mixes_by_the_card_alone_is_said_apart(story: Any, curriculum: Curriculum) -> None:
    story.crew("Juno", "Teo")
    for name in ("Juno", "Teo"):
        story.cleared(name, "2026-02-02", "rig-1")
    story.add("suspended", "Teo", "2026-02-03", "Odile", module="mixing", why="too strong")
    board = board_of(curriculum, story.events, "2026-02-03", "head")
    assert board.duties[0].sentence == "Juno may mix on 2026-02-03. By the card: Teo."


def test_an_exception_is_marked_until_another_paper_is_sat(
    story: Any, curriculum: Curriculum
) -> None:
    story.crew("Juno")
    why = {"module": "ladders", "allow": "try", "why": "gutter job on Friday"}
    story.add("exception", "Juno", "2026-02-02", "Odile", **why)
    told = ("E1 Juno, ladder: Odile opened a try early on 2026-02-02: gutter job on Friday",)
    column = [name.split(",")[0] for name in board_of(curriculum, [], "2026-02-03", "").modules]

    def now() -> tuple[tuple[str, ...], str]:
        board = board_of(curriculum, story.events, "2026-04-01", "head")
        return board.exceptions, board.rows[-1].cells[column.index("ladder")].note

    assert now() == (told, "E1")
    story.sat("Juno", "ladders", "2026-02-03")
    assert now() == (told, "E1")
    story.sat("Juno", "ladders", "2026-03-03")
    assert now() == ((), "")


def test_the_board_of_a_past_day_knows_what_was_taken_back_since(
    story: Any, curriculum: Curriculum
) -> None:
    story.crew("Juno").cleared("Juno", "2026-02-02", "rig-1")
    mark = next(e for e in story.events if e.kind == "signed-off" and e.data["module"] == "mixing")
    story.add("voided", "Juno", "2026-03-01", "Odile", number=mark.number, why="was Teo")
    board = board_of(curriculum, story.events, "2026-02-10", "head")
    assert board.duties[0].sentence.startswith("Nobody may mix on 2026-02-10.")
