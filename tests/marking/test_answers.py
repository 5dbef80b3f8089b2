"""Answers typed on one line or as a table, and every fault of a table in one run."""

from __future__ import annotations

import csv
import io
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.errors import Faults, Refusal
from generator.marking.answers import parse_csv, parse_line


@pytest.mark.parametrize(
    ("text", "answers"),
    [
        ("3 1/4; 13 qt; never", ["3 1/4", "13 qt", "never"]),
        ("3,25;1,280; 5'6\"", ["3,25", "1,280", "5'6\""]),
        ("A;;C", ["A", "", "C"]),
        (";;", ["", "", ""]),
        ("A; B; C;", ["A", "B", "C"]),
        ("  A ;\tB; C  \n", ["A", "B", "C"]),
    ],
)
def test_answers_on_one_line(text: str, answers: list[str]) -> None:
    assert parse_line(text, 3) == answers


@pytest.mark.parametrize(
    ("text", "read"), [("A; B", 2), ("A; B; C; D", 4), ("", 0), ("A;B;C;;", 5)]
)
def test_too_few_and_too_many_are_counted(text: str, read: int) -> None:
    with pytest.raises(Refusal, match=f"{read} answers were read and 3 are needed"):
        parse_line(text, 3)


TABLES = [
    "1,3 1/4\n2,13 qt\n3,never\n",
    "item,answer\n1,3 1/4\n2,13 qt\n3,never",
    "\ufeffItem,Answer\r\n1,3 1/4\r\n2,13 qt\r\n3,never\r\n",
    'item,answer\n"1","3 1/4"\n"2","13 qt"\n"3","never"\n',
    "1;3 1/4\n2;13 qt\n3;never\n",
    "Pregunta;Respuesta\n1;3 1/4\n2;13 qt\n3;never\n",
    "#\tanswer\n1\t3 1/4\n2\t13 qt\n3\tnever\n",
    "\n 3 , never \n\n2,13 qt\n1,3 1/4\n,\n",
]


@pytest.mark.parametrize("table", TABLES)
def test_a_table_of_answers(table: str) -> None:
    assert parse_csv(table, 3) == ["3 1/4", "13 qt", "never"]


@pytest.mark.parametrize("table", TABLES)
def test_a_table_in_a_file(table: str, tmp_path: Path) -> None:
    path = tmp_path / "answers.csv"
    path.write_bytes(table.encode())
    assert parse_csv(path, 3) == ["3 1/4", "13 qt", "never"]


def test_quotes_keep_commas_and_strokes() -> None:
    table = 'item,answer\n1,"1,280"\n2,5\'6"\n3,"5\'6"""\n4,\n'
    assert parse_csv(table, 4) == ["1,280", "5'6\"", "5'6\"", ""]


def faults_of(table: str, count: int) -> list[str]:
    with pytest.raises(Faults) as caught:
        parse_csv(table, count)
    return [f"{fault.line}: {fault.what}" for fault in caught.value.faults]


def test_every_fault_is_told_in_one_run() -> None:
    table = "item,answer\n1,2,88\nx,3\n2,5\n2,6\n9,never\n3\n"
    assert faults_of(table, 4) == [
        "0: no row for item 1, 3, 4",
        "2: 3 columns",
        '3: "x" is not the number of an item',
        "5: item 2 stands here a second time",
        "6: there is no item 9",
        "7: 1 columns",
    ]


def test_a_quotation_left_open_is_told_with_its_line() -> None:
    faults = faults_of('1,3\n2,"never\n3,4\n', 3)
    assert faults[0] == "0: no row for item 2, 3"
    assert faults[1].startswith("2: the row can't be read")


def test_an_empty_table_has_no_rows() -> None:
    assert faults_of("", 2) == ["0: no row for item 1, 2"]
    assert faults_of("1,A", 24) == ["0: no row for item 2 and 22 more"]


def test_a_line_end_inside_quotes_is_part_of_the_answer() -> None:
    assert parse_csv('1,"3\ngal"\n2,4\n', 2) == ["3\ngal", "4"]
    assert faults_of('1,"3\ngal"\nx,4\n', 1) == ['3: "x" is not the number of an item']


def test_a_file_that_cannot_be_read_is_refused(tmp_path: Path) -> None:
    with pytest.raises(Refusal, match="can't be read"):
        parse_csv(tmp_path / "none.csv", 3)
    path = tmp_path / "old.csv"
    path.write_bytes("1,ma\xf1ana\n".encode("latin-1"))
    with pytest.raises(Refusal, match="is not UTF-8 text — save it as CSV UTF-8"):
        parse_csv(path, 1)


@given(st.lists(st.text(st.characters(codec="utf-8"), max_size=20), min_size=1, max_size=6))
def test_what_a_table_writer_wrote_is_read_back(answers: list[str]) -> None:
    table = io.StringIO(newline="")
    csv.writer(table).writerows([("item", "answer"), *enumerate(answers, start=1)])
    assert parse_csv(table.getvalue(), len(answers)) == [answer.strip() for answer in answers]


@given(st.text(max_size=60))
def test_no_text_without_a_row_for_an_item_passes(text: str) -> None:
    with pytest.raises(Faults, match="no row for item"):
        parse_csv(text, 10**4)
