"""Marking a paper: item by item, all answers on the line, or from a file."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from generator.commands.saying import as_json, say_json, say_printed
from generator.errors import Refusal

if TYPE_CHECKING:
    from generator.model.paper import Paper, Result
    from generator.workflows.place import Place


@click.command()
@click.argument("code")
@click.argument("answers", nargs=-1)
@click.option("--by", help="The trainer who marks.")
@click.option("--for", "person", metavar="NAME", help="Whose paper, if it was a spare one.")
@click.option("--seen-on", metavar="DATE", help="The day it was sat, as 2026-04-30.")
@click.option("--from", "table", type=click.Path(path_type=Path), help="CSV: item,answer.")
@click.option("--right", "right", multiple=True, type=int, metavar="N", help="Item N counts.")
@click.option("--wrong", "wrong", multiple=True, type=int, metavar="N", help="Item N does not.")
@as_json
@click.pass_obj
def grade(
    place: Place,
    code: str,
    answers: tuple[str, ...],
    by: str | None,
    person: str | None,
    seen_on: str | None,
    table: Path | None,
    right: tuple[int, ...],
    wrong: tuple[int, ...],
    json_out: bool,
) -> None:
    """Mark the paper of CODE and print its result slip.

    ANSWERS go one after the other, or in one text with ; between them. Without any you are
    asked item by item, and can correct one before the end.
    """
    from generator.printing.pdf import Printer
    from generator.reading.curriculum import read_curriculum
    from generator.workflows.grade import keep, mark, paper_to_mark

    curriculum = read_curriculum(place.curriculum)
    sheet = paper_to_mark(place, code, person)
    written = _written(sheet, answers, table)
    by = by or _asked_by(sheet)
    decisions = dict.fromkeys(right, True) | dict.fromkeys(wrong, False)
    result = mark(sheet, written, decisions or _decisions(sheet, written))
    done = keep(place, curriculum, result, by, seen_on, Printer())
    if json_out:
        say_json(_result_data(result))
        return
    _say_result(result, done.today)
    if done.slip:
        say_printed("Result slip", done.slip)


def _written(paper: Paper, answers: tuple[str, ...], table: Path | None) -> list[str]:
    from generator.marking.answers import parse_csv, parse_line

    count = len(paper.items)
    if table:
        if answers:
            raise Refusal("answers come from the file and from the line", "use one of the two")
        return parse_csv(table, count)
    if len(answers) == 1:
        return parse_line(answers[0], count)
    if answers:
        return parse_line(";".join(answers), count)
    if not sys.stdin.isatty():
        raise Refusal("no answers were given", "put them on the line, or use --from answers.csv")
    return _item_by_item(paper)


def _item_by_item(paper: Paper) -> list[str]:
    """Ask for each answer; then any can be corrected by its number."""
    click.echo(f"{paper.module_title}, {paper.code}, {paper.person}. Enter for a blank.")
    written = [_answer(paper, place) for place in range(len(paper.items))]
    while True:
        for place, text in enumerate(written, 1):
            click.echo(f"{place:3}  {text}")
        typed = click.prompt(
            "Number to correct, or Enter when all is right", default="", show_default=False
        )
        if not typed:
            return written
        if typed.isdigit() and 1 <= int(typed) <= len(written):
            written[int(typed) - 1] = _answer(paper, int(typed) - 1)


def _answer(paper: Paper, place: int) -> str:
    from generator.maths.units import parse_unit, shown

    item = paper.items[place]
    unit = shown(parse_unit(item.answer.unit)) if item.form == "write" else ""
    forms = {"choose": "A, B or C", "order": "letters in order"}
    hint = forms.get(item.form) or unit or "a number"
    return str(click.prompt(f"{place + 1:3} ({hint})", default="", show_default=False))


def _asked_by(paper: Paper) -> str:
    if sys.stdin.isatty():
        return str(click.prompt("Who marks it? Trainer's name"))
    raise Refusal("it is not said who marks", "add --by with the trainer's name")


def _decisions(paper: Paper, written: list[str]) -> dict[int, bool]:
    """Ask the trainer about each answer that can't be read for certain."""
    from generator.marking.result import mark, waiting

    if not sys.stdin.isatty():
        return {}
    return {
        place: click.confirm(
            f'Item {place}: "{written[place - 1]}" can\'t be read for certain. The answer is '
            f"{paper.items[place - 1].answer.text}. Does it count?"
        )
        for place in waiting(mark(paper, written))
    }


def _say_result(result: Result, may: str) -> None:
    paper = result.paper
    click.echo(
        f"{paper.person}: {result.right} of {len(paper.items)}. Needed {paper.cut}. "
        f"{'Passed.' if result.passed else 'Not yet.'}"
    )
    for verdict in result.verdicts:
        if not verdict.counts:
            must = " (must-get)" if verdict.position in result.must_missed else ""
            item = paper.items[verdict.position - 1]
            wrote = verdict.written or "nothing"
            click.echo(
                f"  item {verdict.position}{must}: wrote {wrote}, right is "
                f"{item.answer.text}. {verdict.tell}"
            )
    click.echo(may if not paper.practice else "Practice: it does not count.")


def _result_data(result: Result) -> dict[str, Any]:
    return {
        "code": result.paper.code,
        "person": result.paper.person,
        "right": result.right,
        "items": len(result.paper.items),
        "cut": result.paper.cut,
        "passed": result.passed,
        "must_missed": list(result.must_missed),
        "verdicts": [
            {
                "item": v.position,
                "written": v.written,
                "verdict": v.kind,
                "counts": v.counts,
                "slip": v.slip or None,
                "tell": v.tell,
            }
            for v in result.verdicts
        ],
    }
