"""Marking several papers from one table: all of them are looked at first, then all are entered."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from pathlib import Path

from generator.errors import Fault, Faults, Refusal
from generator.marking.answers import parse_line
from generator.marking.day import Row, read_day_table
from generator.marking.ticks import mark_by_eye, parse_ticks
from generator.model.course import Curriculum
from generator.model.paper import Paper, Result
from generator.printing.pdf import Printer
from generator.workflows.grade import Marked, Sheet, keep_all, mark, paper_to_mark
from generator.workflows.place import Place


@dataclass
class _Sheets:
    done: dict[str, Sheet] = field(default_factory=dict)  # by code
    faults: list[Fault] = field(default_factory=list)


def grade_table(
    place: Place,
    curriculum: Curriculum,
    table: Path,
    by: str,
    seen: str | None,
    printer: Printer | None,
    help_given: str = "",
) -> list[Marked]:
    """Mark every paper of the table; `seen` and `help_given` are those of rows that name none.

    Raises Faults with all that is wrong, each with its line, and Refusal; nothing recorded then.
    """
    sheets = _Sheets()
    for row in read_day_table(table):
        try:
            paper = paper_to_mark(place, row.code, row.name or None)
            if paper.code in sheets.done:
                raise Refusal(f"paper {paper.code} stands here twice", "keep one of the two rows")
            sheet = _sheet(paper, row, row.seen or seen)
            sheets.done[paper.code] = replace(sheet, help_given=row.help_given or help_given)
        except Refusal as refusal:
            sheets.faults.append(refusal.at(str(table), row.line))
    if sheets.faults:
        raise Faults(sheets.faults)
    return keep_all(place, curriculum, list(sheets.done.values()), by, printer)


def _sheet(paper: Paper, row: Row, seen: str | None) -> Sheet:
    if row.ticks is not None:
        return Sheet(by_eye(paper, row.ticks), "by eye", seen)
    written: Sequence[str] = parse_line(row.answers or "", len(paper.items))
    try:
        return Sheet(mark(paper, written, {}), "answers", seen)
    except Refusal as refusal:
        alone = f"take the row out and mark it alone: rigprimer grade {paper.code}"
        raise Refusal(refusal.what, alone) from refusal


def by_eye(paper: Paper, ticks: str) -> Result:
    """The result of a paper from the ticks typed. Raises Refusal."""
    return mark_by_eye(paper, parse_ticks(ticks, len(paper.items)))
