"""The owner's desk: start, check, work, problem, demo."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from generator.commands.saying import (
    as_json,
    exact_text,
    in_language,
    number,
    say_json,
    shown,
)
from generator.errors import Faults, Refusal, nearest
from generator.words import LANGUAGES

if TYPE_CHECKING:
    from generator.model.item import Item
    from generator.model.problem import Problem
    from generator.model.relation import Relation
    from generator.workflows.place import Place
    from generator.workflows.work import Answered


RECORDS_BROKEN = (
    "The records are not whole. Leave the file as it is. See what a backup says of the same events "
    "(rigprimer check --records --against FILE), then go back to one that is whole "
    "(rigprimer restore FILE)."
)


@click.command()
@click.argument("folder", type=click.Path(path_type=Path))
def start(folder: Path) -> None:
    """Make a shop folder: a dozen plain questions, then files to edit."""
    from generator.workflows.start import start as make

    click.echo("A few questions about your shop. Enter takes the answer in [brackets].\n")
    made = make(folder, lambda text, default: str(click.prompt(text, default=default)), click.echo)
    click.echo(f"\nYour shop folder is {shown(made)}. Next:")
    click.echo(f"  1. open {shown(made / 'curriculum' / 'shop.yaml')} and look it over")
    click.echo(f"  2. go into the folder (cd {shown(made)}) and run: rigprimer check")
    click.echo("  3. rigprimer crew add NAME, for each of your people")


@click.command()
@as_json
@click.option("--records", "check_records", is_flag=True, help="Test the records file as well.")
@click.option("--head", metavar="HEX", help="Look for a printed head in the records.")
@click.option("--against", type=click.Path(path_type=Path), help="Compare with a backup.")
@click.option("--reading", is_flag=True, help="Show how hard each module is to read.")
@click.option("--language", type=click.Choice(LANGUAGES[1:]), help="Show what is not translated.")
@click.pass_obj
def check(
    place: Place,
    json_out: bool,
    check_records: bool,
    head: str | None,
    against: Path | None,
    reading: bool,
    language: str | None,
) -> None:
    """Find every fault in the curriculum, with file and line."""
    from generator.commands.check_said import report_data, say_report
    from generator.workflows.check import check as find

    report = find(place.curriculum, place.records if place.own else None)
    check_records = check_records or bool(head or against)
    broken, noted = _examined(place, head, against) if check_records else ((), ())
    if json_out:
        say_json(report_data(report) | {"records": [*broken]})
    else:
        say_report(place, report, reading, language)
        for line in (*broken, *noted):
            click.echo(line)
        if check_records:
            click.echo(RECORDS_BROKEN if broken else "The records are whole.")
    if report.faults or broken:
        raise click.exceptions.Exit(1)


def _examined(
    place: Place, head: str | None, against: Path | None
) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """What is wrong with the records, and what is worth knowing of them."""
    from generator.workflows.keeping import examine

    found = examine(place, head, against)
    return found.faults, found.notes


@click.command()
@click.argument("relation", required=False)
@click.argument("given", nargs=-1)
@click.option("--find", help="The quantity to work out.")
@as_json
@click.pass_obj
def work(
    place: Place, relation: str | None, given: tuple[str, ...], find: str | None, json_out: bool
) -> None:
    """Work out one RELATION with your numbers, GIVEN as name=NUMBER or 'name=NUMBER UNIT'.

    With no relation the relations are listed. Example:
    rigprimer work batch stock=12.5 target=2 total=50 --find amount
    """
    from generator.reading.curriculum import read_curriculum
    from generator.workflows.work import answer, only_unknown

    relations = read_curriculum(place.curriculum).relations
    if relation is None:
        _list_relations(relations)
        return
    if relation not in relations:
        raise Refusal(f'there is no relation "{relation}"', nearest(relation, relations))
    find = find or only_unknown(relations[relation], given)
    done = answer(relations[relation], given, find)
    if json_out:
        say_json(_answer_data(done, find))
        return
    for line in done.working:
        click.echo(line)
    click.echo(f"\n{find}: {done.text}")


def _list_relations(relations: Mapping[str, Relation]) -> None:
    width = max(map(len, relations)) + 2
    for each in relations.values():
        names = " ".join([*each.quantities, *each.columns])
        click.echo(f"{each.id:{width}}{each.title}: {names}")


def _answer_data(done: Answered, find: str) -> dict[str, Any]:
    value = done.outcome.value
    return {
        "relation": done.relation.id,
        "find": find,
        "value": number(value),
        "exact": exact_text(value),
        "unit": done.unit,
        "word": done.outcome.word or None,
        "working": list(done.working),
        "inexact": done.inexact,
    }


@click.command()
@click.argument("problem_id", metavar="[ID]", required=False)
@click.option("--seed", type=click.IntRange(min=0), default=1, show_default=True)
@click.option("--count", type=click.IntRange(min=1), default=1, show_default=True)
@in_language
@as_json
@click.pass_obj
def problem(
    place: Place,
    problem_id: str | None,
    seed: int,
    count: int,
    language: str | None,
    json_out: bool,
) -> None:
    """See what a problem draws; with no ID, a table of all problems.

    Faults elsewhere in the curriculum do not matter. With --json one item is printed on each line.
    """
    from generator.commands.problem_said import item_data, list_problems, say_item
    from generator.reading.curriculum import read_all

    reading = read_all(place.curriculum, language)
    curriculum = reading.curriculum
    if curriculum is None:
        raise Faults(reading.faults)
    problems = curriculum.problems
    if problem_id is None:
        list_problems(problems, json_out)
        return
    found = curriculum.problem(problem_id)
    if found is None:
        if faults := [fault for fault in reading.faults if problem_id in fault.what]:
            raise Faults(faults)
        hint = nearest(problem_id, [p.id for p in problems])
        raise Refusal(f'there is no problem "{problem_id}"', hint)
    for place_in_row in range(count):
        item = _with_options(found, seed + place_in_row)
        if json_out:
            say_json(item_data(item, found))
        else:
            say_item(item)


def _with_options(problem: Problem, seed: int) -> Item:
    """An item as it is asked in writing, and the options it would have to choose among."""
    from generator.items.build import draw_item

    options = draw_item(problem, seed, "choose").options
    return replace(draw_item(problem, seed), options=options)


@click.command()
@click.pass_obj
def demo(place: Place) -> None:
    """Take an invented crew through the whole loop, into build/demo."""
    from generator.reading.curriculum import read_curriculum
    from generator.workflows.demo import run
    from generator.workflows.place import starter

    curriculum = read_curriculum(starter())
    made = run(curriculum, place.out / "demo", click.echo)
    click.echo("\nMade:")
    for each in made:
        click.echo(f"  {shown(each.path):58}{each.what}")
    click.echo("\nOpen the board first: it says who may mix today, and what the others lack.")
