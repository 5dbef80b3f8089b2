"""Answers as they are typed in: on one line, or as a table of rows `item,answer`."""

from __future__ import annotations

import csv
import io
import re
from collections.abc import Iterator
from pathlib import Path

from generator.errors import Fault, Faults, Refusal

LONGEST = 1_000_000
"""Bytes of a table; a day's papers are far fewer."""
_HEADS = frozenset({"item", "position", "no", "number", "nr", "#", "question", "pregunta"})
_COLUMNS = re.compile(r'\s*"?[\w #]*"?\s*([,;\t])')
_ROW = "write the row as item,answer"
_SHOWN = 6
"""How many items without a row are named; of more it is said how many they are."""


def parse_line(text: str, count: int) -> list[str]:
    """The answers typed on one line with `;` between them, blanks being kept.

    Raises Refusal unless there are `count` of them.

    >>> parse_line("13 qt; 1:4; ; never", 4)
    ['13 qt', '1:4', '', 'never']
    """
    answers = [part.strip() for part in text.split(";")]
    if len(answers) == count + 1 and not answers[-1]:
        answers.pop()
    if len(answers) != count:
        read = 0 if answers == [""] else len(answers)
        raise Refusal(
            f"{read} {'answer was' if read == 1 else 'answers were'} read and {count} are needed",
            "put ; between the answers, and nothing between two ; where an item is blank",
        )
    return answers


def parse_csv(source: Path | str, count: int) -> list[str]:
    """The answers of a table, a file or its text, in the order of the items 1 to `count`.

    A first row that names the columns is left out; rows may stand in any order. Raises Faults
    with everything wrong in the table, Refusal when the file can't be read.
    """
    name = str(source) if isinstance(source, Path) else "answers"
    text = read_table(source) if isinstance(source, Path) else source
    answers: dict[int, str] = {}
    faults: list[Fault] = []
    for line, row in _rows(text.removeprefix("\ufeff"), name, faults):
        try:
            item = _item(row, count, answers)
            answers[item] = row[1].strip()
        except Refusal as refusal:
            faults.append(refusal.at(name, line))
    faults.extend(_missing(name, count, answers))
    if faults:
        raise Faults(faults)
    return [answers[item] for item in range(1, count + 1)]


def read_table(path: Path) -> str:
    """The text of a table. Raises Refusal when the file can't be read, or is none of ours."""
    try:
        with path.open("rb") as file:
            raw = file.read(LONGEST + 1)
        if len(raw) > LONGEST:
            raise Refusal(f"{path} is too large for such a table", "name the right file")
        return raw.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        raise Refusal(f"{path} is not UTF-8 text", "save it as CSV UTF-8") from error
    except OSError as error:
        raise Refusal(f"{path} can't be read", "look at the name of the file") from error


def _rows(text: str, name: str, faults: list[Fault]) -> Iterator[tuple[int, list[str]]]:
    """Each row that is not empty with its line; a broken quotation ends them with a fault."""
    found = _COLUMNS.match(text[:100])
    lines = io.StringIO(text, newline="")  # a line end inside quotes is part of the answer
    rows = csv.reader(lines, delimiter=found[1] if found else ",", strict=True)
    start = 1
    try:
        for row in rows:
            if any(cell.strip() for cell in row) and not (start == 1 and _is_head(row)):
                yield start, row
            start = rows.line_num + 1
    except csv.Error as error:
        faults.append(Fault(name, start, f"the row can't be read ({error})", _ROW))


def _is_head(row: list[str]) -> bool:
    return row[0].strip().casefold() in _HEADS


def _item(row: list[str], count: int, answers: dict[int, str]) -> int:
    """The number of the item that `row` answers. Raises Refusal when the row has no sense."""
    if len(row) != 2:
        raise Refusal(f"{len(row)} columns", f"{_ROW}; put an answer with a comma in quotes")
    number = row[0].strip()
    if not re.fullmatch(r"[0-9]{1,4}", number):
        raise Refusal(f'"{number}" is not the number of an item', _ROW)
    item = int(number)
    if not 1 <= item <= count:
        raise Refusal(f"there is no item {item}", f"the paper has items 1 to {count}")
    if item in answers:
        raise Refusal(f"item {item} stands here a second time", "keep one of the two rows")
    return item


def _missing(name: str, count: int, answers: dict[int, str]) -> Iterator[Fault]:
    """One fault for all the items that no row answers."""
    missing = [str(item) for item in range(1, count + 1) if item not in answers]
    if missing:
        few = len(missing) <= _SHOWN
        named = ", ".join(missing) if few else f"{missing[0]} and {len(missing) - 1} more"
        what = f"no row for item {named}"
        yield Fault(name, 0, what, "add it, with an empty answer where nothing was written")
