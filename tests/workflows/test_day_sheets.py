"""A day's sign-off sheets from a table: all or none, each fault with its line."""

from __future__ import annotations

from pathlib import Path

import pytest

from generator.errors import Faults, Refusal
from generator.model.course import Curriculum
from generator.workflows.day_sheets import signed_sheets

HEAD = "module,name,rig,by,seen_on,not_yet,told\n"


@pytest.fixture
def table(tmp_path: Path) -> Path:
    return tmp_path / "sheets.csv"


def test_each_row_is_a_sheet_seen_on_its_own_day(table: Path, curriculum: Curriculum) -> None:
    table.write_text(
        HEAD
        + "Mixing,Juno,Rig 1,Mara,2026-03-02,label-log; eyewash,order\n"
        + 'ladder,"Teo, the tall",,,,,\n',
        encoding="utf-8-sig",
    )
    first, second = signed_sheets(curriculum, table, "Cal", "2026-03-05")
    assert (first.person, first.by, first.seen) == ("Juno", "Mara", "2026-03-02")
    assert (first.data["module"], first.data["rig"]) == ("mixing", "rig-1")
    answers = {first.data["lines"][name] for name in ("label-log", "eyewash")}
    assert answers == {"not yet"}
    assert first.data["lines"]["order"] == "told"
    assert (second.person, second.by, second.seen) == ("Teo, the tall", "Cal", "2026-03-05")
    assert first.entered > first.seen


def test_a_cell_too_long_to_read_is_refused(table: Path, curriculum: Curriculum) -> None:
    for text in (HEAD + "mixing," + "x" * 200_000, "x" * 200_000):
        table.write_text(text, encoding="utf-8")
        with pytest.raises(Refusal, match="can't be read"):
            signed_sheets(curriculum, table, "Mara", None)


def test_every_fault_is_told_with_its_line(table: Path, curriculum: Curriculum) -> None:
    rows = ("mixng,Juno,rig-1,Mara,,,", "mixing,Juno,rig-9,Mara,,,", "mixing,Juno,,Mara,,,")
    more = ("mixing,Juno,rig-1,,,,", "mixing,,rig-1,Mara,,,", "mixing,Juno,rig-1,Mara,soon,,")
    last = ("mixing,Juno,rig-1,Mara,,no-such-line,", "mixing,Juno,rig-1,Mara,,,,,")
    table.write_text(HEAD + "\n".join((*rows, *more, *last)) + "\n", encoding="utf-8")
    with pytest.raises(Faults) as caught:
        signed_sheets(curriculum, table, None, None)
    faults = caught.value.faults
    assert [fault.line for fault in faults] == list(range(2, 10))
    said = " ".join(fault.what for fault in faults)
    for words in ("mixng", "rig-9", "rig by rig", "who saw it", "whose sheet", "soon", "no-such"):
        assert words in said


@pytest.mark.parametrize(
    ("content", "what"),
    [
        (b"", "has no column"),
        (b"name,rig\nJuno,rig-1\n", 'no column "module"'),
        (b"module,name,sign\n", 'a column "sign"'),
        (HEAD.encode(), "holds no sheets"),
        (b"\xff\xfe", "not UTF-8 text"),
        (b"x" * 1_000_001, "too large"),
    ],
)
def test_a_file_that_is_no_such_table_is_refused(
    table: Path, curriculum: Curriculum, content: bytes, what: str
) -> None:
    table.write_bytes(content)
    with pytest.raises(Refusal, match=what):
        signed_sheets(curriculum, table, "Mara", None)


def test_a_file_that_is_not_there_is_said_so(table: Path, curriculum: Curriculum) -> None:
    with pytest.raises(Refusal, match="can't be read"):
        signed_sheets(curriculum, table, "Mara", None)
