"""Marking several papers from one table: all of them are looked at first, then all are entered."""

from __future__ import annotations

from pathlib import Path

from generator.errors import Faults, Refusal
from generator.marking.answers import parse_line
from generator.marking.day import Row, read_day_table
from generator.marking.ticks import mark_by_eye, parse_ticks
from generator.model.course import Curriculum
from generator.model.paper import Paper, Result
from generator.printing.pdf import Printer
from generator.workflows.grade import Graded, Marked, keep_all, mark, paper_to_mark
from generator.workflows.place import Place


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
    graded: dict[str, Graded] = {}  # by code
    rows, faults = read_day_table(table)
    for row in rows:
        try:
            paper = paper_to_mark(place, row.code, row.name or None)
            if paper.code in graded:
                raise Refusal(f"paper {paper.code} stands here twice", "keep one of the two rows")
            result, how = _result(paper, row)
            day, help_told = row.seen or seen, row.help_given or help_given
            graded[paper.code] = Graded(result, how, day, help_told)
        except Refusal as refusal:
            faults.append(refusal.at(str(table), row.line))
    if faults:
        raise Faults(faults)
    return keep_all(place, curriculum, list(graded.values()), by, printer)


def _result(paper: Paper, row: Row) -> tuple[Result, str]:
    """The result, and how it was marked."""
    if row.ticks is not None:
        return by_eye(paper, row.ticks), "by eye"
    written = parse_line(row.answers or "", len(paper.items))
    try:
        return mark(paper, written, {}), "answers"
    except Refusal as refusal:
        alone = f"take the row out and mark it alone: rigprimer grade {paper.code}"
        raise Refusal(refusal.what, alone) from refusal


def by_eye(paper: Paper, ticks: str) -> Result:
    """The result of a paper from the ticks typed. Raises Refusal."""
    return mark_by_eye(paper, parse_ticks(ticks, len(paper.items)))
