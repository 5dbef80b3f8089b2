"""Marking papers: ticks against the key, answers on the line, item by item, or from a file."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from generator.commands.saying import as_json, say_json, say_printed

if TYPE_CHECKING:
    from generator.model.course import Curriculum
    from generator.model.paper import Paper, Result
    from generator.workflows.grade import Marked
    from generator.workflows.place import Place


@click.command()
@click.argument("code", required=False)
@click.argument("answers", nargs=-1)
@click.option("--by", help="The trainer who marks.")
@click.option("--for", "person", metavar="NAME", help="Whose paper, if it was a spare one.")
@click.option("--seen-on", metavar="DATE", help="The day it was sat, as 2026-04-30.")
@click.option(
    "--from",
    "table",
    type=click.Path(path_type=Path),
    help="CSV: item,answer; without CODE: paper,name,ticks.",
)
@click.option("--ticks", help='By eye, the key\'s letters: "1a 5b 7x 9-"; 0 for all right.')
@click.option("--right", "right", multiple=True, type=int, metavar="N", help="Item N counts.")
@click.option("--wrong", "wrong", multiple=True, type=int, metavar="N", help="Item N does not.")
@click.option("--read-aloud", is_flag=True, help="The items were read to the person.")
@click.option("--language", default="", help="Language they were read in or put into, such as es.")
@as_json
@click.pass_obj
def grade(
    place: Place,
    code: str | None,
    answers: tuple[str, ...],
    by: str | None,
    person: str | None,
    seen_on: str | None,
    table: Path | None,
    ticks: str | None,
    right: tuple[int, ...],
    wrong: tuple[int, ...],
    read_aloud: bool,
    language: str,
    json_out: bool,
) -> None:
    """Mark the paper of CODE and print its result slip.

    ANSWERS go one after the other, or in one text with ; between them. Without any you are
    asked item by item, and can correct one before the end. By eye, only what is wrong is typed:
    1a is slip a of item 1 on the key, 7x another wrong answer, 9- a blank.

    Without CODE, --from marks a day's papers, a row each: paper,name,ticks or paper,name,answers;
    a column help may say what help was given. It stands in the person's file.
    """
    from generator.printing.pdf import Printer
    from generator.reading.curriculum import read_curriculum
    from generator.workflows.grade import Graded, help_in_words, keep, paper_to_mark

    curriculum = read_curriculum(place.curriculum)
    help_given = help_in_words(read_aloud, language)
    if code is None:
        done = _mark_table(place, curriculum, table, by, seen_on, help_given)
    else:
        paper = paper_to_mark(place, code, person)
        result = _by_eye(paper, ticks, answers, table)
        how = "by eye" if result else "answers"
        result = result or _read(paper, _written(paper, answers, table), right, wrong)
        by = by or _asked_by()
        graded = Graded(result, how, seen_on, help_given)
        done = [keep(place, curriculum, graded, by, Printer())]
    _say_marked(done, json_out, alone=code is not None)


def _say_marked(done: list[Marked], json_out: bool, alone: bool) -> None:
    if json_out:
        data = [_result_data(each.result) for each in done]
        say_json(data[0] if alone else data)
        return
    for each in done:
        _say_result(each.result, each.today)
        if each.slip:
            say_printed("Result slip", each.slip)


def _mark_table(
    place: Place,
    curriculum: Curriculum,
    table: Path | None,
    by: str | None,
    seen: str | None,
    help_given: str,
) -> list[Marked]:
    from generator.printing.pdf import Printer
    from generator.workflows.grade_day import grade_table

    if table is None:
        raise click.UsageError(
            "it is not said which paper — add the code on it, or --from with a day's papers"
        )
    by = by or _asked_by()
    return grade_table(place, curriculum, table, by, seen, Printer(), help_given)


def _by_eye(
    paper: Paper, ticks: str | None, answers: tuple[str, ...], table: Path | None
) -> Result | None:
    """The result of the ticks, if any were given."""
    from generator.workflows.grade_day import by_eye

    if ticks is None:
        return None
    if answers or table:
        raise click.UsageError("ticks and answers are both given — use one of the two")
    return by_eye(paper, ticks)


def _read(
    paper: Paper, written: list[str], right: tuple[int, ...], wrong: tuple[int, ...]
) -> Result:
    from generator.workflows.grade import mark

    if both := sorted({*right} & {*wrong}):
        raise click.UsageError(
            f"item {both[0]} is said to be right and wrong — keep one of the two"
        )
    decisions = dict.fromkeys(right, True) | dict.fromkeys(wrong, False)
    return mark(paper, written, decisions or _decisions(paper, written))


def _written(paper: Paper, answers: tuple[str, ...], table: Path | None) -> list[str]:
    from generator.marking.answers import parse_csv, parse_line

    count = len(paper.items)
    if table:
        if answers:
            raise click.UsageError(
                "answers come from the file and from the line — use one of the two"
            )
        return parse_csv(table, count)
    if len(answers) == 1:
        return parse_line(answers[0], count)
    if answers:
        return parse_line(";".join(answers), count)
    if not sys.stdin.isatty():
        raise click.UsageError(
            "no answers were given — put them on the line, or use --ticks, or --from answers.csv"
        )
    return _item_by_item(paper)


def _item_by_item(paper: Paper) -> list[str]:
    """Ask for each answer; then any can be corrected by its number."""
    click.echo(f"{paper.module_title}, {paper.code}, {paper.person}. Enter for a blank.")
    written = [_answer(paper, place) for place in range(len(paper.items))]
    _show(written)
    correct = "Number to correct, or Enter when all is right"
    while typed := click.prompt(correct, default="", show_default=False):
        if typed.isdecimal() and 1 <= int(typed) <= len(written):
            written[int(typed) - 1] = _answer(paper, int(typed) - 1)
            _show(written)
        else:
            click.echo(f'"{typed}" is not an item — type a number from 1 to {len(written)}')
    return written


def _show(written: list[str]) -> None:
    for place, text in enumerate(written, 1):
        click.echo(f"{place:3}  {text}")


def _answer(paper: Paper, place: int) -> str:
    from generator.maths.units import parse_unit, shown

    item = paper.items[place]
    unit = shown(parse_unit(item.answer.unit)) if item.form == "write" else ""
    forms = {"choose": "A, B or C", "order": "letters in order"}
    hint = forms.get(item.form) or unit or "a number"
    return str(click.prompt(f"{place + 1:3} ({hint})", default="", show_default=False))


def _asked_by() -> str:
    if sys.stdin.isatty():
        return str(click.prompt("Who marks it? Trainer's name"))
    raise click.UsageError("it is not said who marks — add --by with the trainer's name")


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
    from generator.workflows.slip import slips_made

    paper = result.paper
    click.echo(f"{paper.person}: {result.right} of {len(paper.items)}{_came_out(result)}")
    if made := slips_made(result):
        click.echo(made)
    for verdict in result.verdicts:
        if not verdict.counts:
            must = " (must-get)" if verdict.position in result.must_missed else ""
            item = paper.items[verdict.position - 1]
            wrote = verdict.written or ("nothing" if verdict.kind == "blank" else "something else")
            click.echo(
                f"  item {verdict.position}{must}: wrote {wrote}, right is "
                f"{item.answer.text}. {verdict.tell}".rstrip()
            )
    if not paper.practice:
        click.echo(may)


def _came_out(result: Result) -> str:
    """What the score was held against, and what came of it."""
    paper = result.paper
    if not paper.practice:
        return f". Needed {paper.cut}. {'Passed.' if result.passed else 'Not yet.'}"
    if not paper.practice_cut:
        return ", practice: it does not count."
    done = "Done." if result.done else "Not done yet: print another one."
    return f", practice. Needed {paper.practice_cut}. {done}"


def _result_data(result: Result) -> dict[str, Any]:
    return {
        "code": result.paper.code,
        "person": result.paper.person,
        "right": result.right,
        "items": len(result.paper.items),
        "cut": result.paper.cut,
        "practice": result.paper.practice,
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
