"""A day's papers in one table: its rows, and what is told of a file that is no such table."""

from __future__ import annotations

import csv
from pathlib import Path

import pytest

from generator.errors import Faults
from generator.marking.day import Row, read_day_table


def test_a_row_is_ticked_or_typed(tmp_path: Path) -> None:
    path = tmp_path / "day.csv"
    path.write_text("code,for,day,ticks,answers\nK7M-2QF,Ana,,1a,\nB3X-9TZ,Bo,2025-03-01,,A; B\n")
    assert read_day_table(path) == [
        Row(2, "K7M-2QF", "Ana", "", "1a", None),
        Row(3, "B3X-9TZ", "Bo", "2025-03-01", None, "A; B"),
    ]


def test_a_cell_too_long_to_read_is_told_with_its_line(tmp_path: Path) -> None:
    path = tmp_path / "day.csv"
    path.write_text(f"paper,ticks\nK7M-2QF,{'x' * (csv.field_size_limit() + 1)}\n")
    with pytest.raises(Faults) as caught:
        read_day_table(path)
    assert [(fault.line, "can't be read" in fault.what) for fault in caught.value.faults] == [
        (2, True)
    ]
