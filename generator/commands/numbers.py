"""Numbers for the owner: what a paper's rules are worth, and what the crew gets wrong."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from fractions import Fraction
from typing import TYPE_CHECKING, Any, TypeVar

import click

from generator.commands.saying import as_json, say_json, say_printed

if TYPE_CHECKING:
    from generator.model.course import Curriculum
    from generator.model.tally import ModuleTally
    from generator.printing.pdf import Printed
    from generator.records.sittings import Sitting
    from generator.workflows.place import Place

Command = TypeVar("Command", bound=Callable[..., Any])


def _percent(ctx: click.Context, param: click.Parameter, typed: str) -> Fraction:
    """The percent typed, exactly, with or without its sign."""
    try:
        return Fraction(typed.rstrip("% "))
    except (ValueError, ZeroDivisionError) as trouble:
        raise click.BadParameter(f'"{typed}" is not a percent; write it like 2.5') from trouble


def _limit(name: str, default: str, help_text: str) -> Callable[[Command], Command]:
    return click.option(
        name, callback=_percent, default=default, show_default=True, metavar="%", help=help_text
    )


@click.command()
@click.argument("module", required=False)
@_limit("--low", "70", "Share known by a person who should not pass.")
@_limit("--false-pass", "5", "Of such people, at most so many may pass.")
@_limit("--high", "95", "Share known by a person who should pass.")
@_limit("--false-fail", "2", "Of such people, at most so many may be turned away.")
@click.option("--tries", type=click.IntRange(1, 9), help="Look at so many tries, not its own.")
@as_json
@click.pass_obj
def plan(
    place: Place,
    module: str | None,
    low: Fraction,
    false_pass: Fraction,
    high: Fraction,
    false_fail: Fraction,
    tries: int | None,
    json_out: bool,
) -> None:
    """Who passes MODULE's paper by what he knows, over all tries; the shortest paper that will do.

    Without a module every module is shown, one a line.
    """
    from generator.commands.plan_said import say_plan, say_plans
    from generator.reading.curriculum import read_curriculum
    from generator.workflows import plan as workflow
    from generator.workflows.record import module_id

    limits = workflow.limits_of(low, false_pass, high, false_fail)
    curriculum = read_curriculum(place.curriculum)
    ids = [module_id(curriculum, module)] if module else list(curriculum.modules)
    plans = [workflow.plan(curriculum.modules[id], limits, tries) for id in ids]
    if json_out:
        say_json({"modules": [workflow.as_data(each) for each in plans]})
    elif module:
        say_plan(plans[0])
    else:
        say_plans(plans)


@click.command()
@click.argument("module", required=False)
@click.option("--full", is_flag=True, help="Seasons apart, intervals, and item analysis as well.")
@click.option("--pdf", is_flag=True, help='Print the page "Reteach this first".')
@as_json
@click.pass_obj
def stats(place: Place, module: str | None, full: bool, pdf: bool, json_out: bool) -> None:
    """What the crew gets wrong: in MODULE, or in all modules that have marked papers."""
    from generator.commands.stats_said import say_rest, say_tally
    from generator.reading.curriculum import read_curriculum
    from generator.records.store import open_records
    from generator.workflows import stats as workflow
    from generator.workflows.record import module_id

    place.require_own()
    with open_records(place.records) as records:
        head, events = records.head(), records.events()
    curriculum = read_curriculum(place.curriculum)
    papers = workflow.marked_papers(events, module_id(curriculum, module) if module else None)
    tallies = workflow.tallies(papers, curriculum)
    page = _page(place, curriculum, tallies, head, module is not None) if pdf else None
    if json_out:
        data = [_stats_data(each, papers, curriculum, full) for each in tallies]
        say_json({"modules": data, "file": str(page.path) if page else None})
    elif page:
        say_printed("Reteach this first", page)
    else:
        for each in tallies:
            say_tally(each)
            if full:
                say_rest(each, papers, curriculum)


def _page(
    place: Place, curriculum: Curriculum, tallies: Sequence[ModuleTally], head: str, one: bool
) -> Printed:
    from generator.printing.pdf import Printer
    from generator.printing.stats import stats_html
    from generator.workflows.today import today

    html = stats_html(curriculum.shop, tallies, today(), head)
    name = f"stats-{tallies[0].module}.pdf" if one else "stats.pdf"
    return Printer().write(html, place.out / name)


def _stats_data(
    tally: ModuleTally, papers: Sequence[Sitting], curriculum: Curriculum, full: bool
) -> dict[str, Any]:
    from generator.workflows import item_analysis
    from generator.workflows import stats as workflow

    data = workflow.as_data(tally)
    if full:
        own = [sitting for sitting in papers if sitting.module == tally.module]
        data["by_season"] = {
            season: workflow.as_data(workflow.tallies(found, curriculum)[0])
            for season, found in workflow.by_season(own).items()
        }
        data["wilson_95"] = {i.id: item_analysis.right_interval(i.missed) for i in tally.items}
        data["item_analysis"] = item_analysis.as_data(item_analysis.agreement(own))
    return data
