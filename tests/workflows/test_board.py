"""The board as a table and as JSON: harmless to spreadsheets, the same shape every time."""

from __future__ import annotations

import csv
import io
import json
from dataclasses import replace

import pytest

from generator.model.board import Board, Cell, Duty, Row
from generator.model.course import Curriculum
from generator.model.event import Event
from generator.workflows.board import as_csv, as_data, board_of
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
    assert head == ["person", "role", "module", "state", "date", "missing"]
    assert row == [name, "crew", "mix, Rig 1", "not yet", "2026-01-02", 'one; the "other"']


def test_every_line_of_the_table_ends_as_rfc_4180_says() -> None:
    assert as_csv(board_with("Ann")).count("\r\n") == 2


def test_the_board_as_data_has_one_shape(shop: Place, curriculum: Curriculum) -> None:
    board = board_of(curriculum, history(shop.records), "2030-01-01", "abcd")
    data = as_data(board)
    assert json.loads(json.dumps(data)) == data
    assert list(data) == ["date", "may_mix", "people", "head"]
    assert [list(duty) for duty in data["may_mix"]] == [["rig", "sentence", "open"]] * 2
    assert [person["name"] for person in data["people"]] == ["Mara", "Juno", "Teo"]
    assert [person["role"] for person in data["people"]] == ["trainer", "crew", "crew"]
    for person in data["people"]:
        assert [each["module"] for each in person["standing"]] == list(board.modules)
        assert all(
            list(each) == ["module", "state", "date", "missing"] for each in person["standing"]
        )


def test_the_duty_stands_first_rig_by_rig(shop: Place, curriculum: Curriculum) -> None:
    board = board_of(curriculum, history(shop.records), "2030-01-01", "abcd")
    assert board.modules[:2] == ("mix, Rig 1", "mix, Rig 2")
    assert board.duties == (
        Duty("Rig 1", "Nobody may mix today.", False),
        Duty("Rig 2", "Nobody may mix today.", False),
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
