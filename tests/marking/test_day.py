"""A day's papers in one table: its rows, and what is told of a file that is no such table."""

from __future__ import annotations

import csv
from pathlib import Path

from generator.marking.day import Row, read_day_table


def test_a_row_is_ticked_or_typed(tmp_path: Path) -> None:
    path = tmp_path / "day.csv"
    path.write_text("code,for,day,ticks,answers\nK7M-2QF,Ana,,1a,\nB3X-9TZ,Bo,2025-03-01,,A; B\n")
    rows, faults = read_day_table(path)
    assert rows == [
        Row(2, "K7M-2QF", "Ana", "", "1a", None),
        Row(3, "B3X-9TZ", "Bo", "2025-03-01", None, "A; B"),
    ]
    assert faults == []


def test_a_row_that_is_none_hides_no_other(tmp_path: Path) -> None:
    path = tmp_path / "day.csv"
    path.write_text("paper,ticks\n,1a\nK7M-2QF,0\nB3X-9TZ,\n")
    rows, faults = read_day_table(path)
    assert rows == [Row(3, "K7M-2QF", "", "", "0", None)]
    assert [(fault.line, fault.what) for fault in faults] == [
        (2, "the row names no paper"),
        (4, "the row needs ticks or answers, one of the two"),
    ]


def test_a_cell_too_long_to_read_is_told_with_its_line(tmp_path: Path) -> None:
    path = tmp_path / "day.csv"
    path.write_text(f"paper,ticks\nK7M-2QF,{'x' * (csv.field_size_limit() + 1)}\n")
    _, faults = read_day_table(path)
    assert [(fault.line, "can't be read" in fault.what) for fault in faults] == [(2, True)]
