"""Several papers in one table: a row a paper, with ticks against the key or with its answers."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from generator.errors import Fault, Refusal
from generator.marking.answers import read_table

_COLUMNS = {"paper": ("paper", "code"), "name": ("name", "for"), "seen": ("seen", "day", "date")}
_HELP = "help"
"""The column that says in words what help there was, such as: read aloud."""
_MARKS = ("ticks", "answers")
_HEAD = "let the first row be paper,name,ticks (or paper,name,answers with ; between them)"


@dataclass(frozen=True)
class Row:
    """A paper of the table: its line, its code, what was ticked or written, and any help given."""

    line: int
    code: str
    name: str
    seen: str
    ticks: str | None
    answers: str | None
    help_given: str = ""


def read_day_table(path: Path) -> tuple[list[Row], list[Fault]]:
    """The papers of a table in its order, and what is wrong with rows that name none.

    Raises Refusal when the file can't be read.
    """
    text = read_table(path)
    lines = io.StringIO(text, newline="")
    first = text.partition("\n")[0]
    reader = csv.reader(lines, delimiter=";" if "," not in first and ";" in first else ",")
    faults: list[Fault] = []
    rows: list[Row] = []
    try:
        rows.extend(_rows(reader, str(path), faults))
    except csv.Error as error:
        faults.append(Fault(str(path), reader.line_num, f"the row can't be read ({error})", _HEAD))
    if not rows and not faults:
        faults.append(Fault(str(path), 0, "the table names no paper", _HEAD))
    return rows, faults


def _rows(reader: Any, name: str, faults: list[Fault]) -> Iterator[Row]:
    head = _head(next(reader, []))
    if "paper" not in head or not set(_MARKS) & set(head):
        faults.append(Fault(name, 1, "the columns are not named", _HEAD))
        return
    for row in reader:
        line = reader.line_num  # a cell in quotes may hold line ends
        cells = {key: cell.strip() for key, cell in zip(head, row, strict=False)}
        if not any(cells.values()):
            continue
        try:
            yield _row(line, cells, row, len(head))
        except Refusal as refusal:
            faults.append(refusal.at(name, line))


def _head(row: list[str]) -> list[str]:
    names = {other: key for key, others in _COLUMNS.items() for other in others}
    return [names.get(cell.strip().casefold(), cell.strip().casefold()) for cell in row]


def _row(line: int, cells: dict[str, str], row: list[str], wide: int) -> Row:
    if len(row) > wide:
        raise Refusal("the row is longer than the first one", "put a cell with a comma in quotes")
    if not cells.get("paper"):
        raise Refusal("the row names no paper", "write the code printed on the paper")
    ticks, answers = cells.get("ticks"), cells.get("answers")
    if bool(ticks) == bool(answers):
        raise Refusal(
            "the row needs ticks or answers, one of the two",
            "write 0 as ticks where everything is right",
        )
    name, seen = cells.get("name", ""), cells.get("seen", "")
    help_given = " ".join(cells.get(_HELP, "").split())
    return Row(line, cells["paper"], name, seen, ticks or None, answers or None, help_given)
