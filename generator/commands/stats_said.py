"""What the crew gets wrong, in words on the screen."""

from __future__ import annotations

from collections.abc import Sequence

import click

from generator.commands.saying import say
from generator.model.course import Curriculum
from generator.model.tally import Count, ItemTally, ModuleTally
from generator.papers.analysis import FEW
from generator.records.sittings import Sitting
from generator.workflows.item_analysis import Agreement, agreement, right_interval
from generator.workflows.stats import TOO_FEW, by_season, share_text, tallies

SLIPS = 8
"""Slips told; the rest are rarer than anyone reteaches at once."""


def say_tally(tally: ModuleTally) -> None:
    """One module: its slips in words, then what was missed."""
    say(f"{tally.title}: {tally.told}.")
    if tally.slips:
        click.echo("\n  What goes wrong, worst first")
    for slip in tally.slips[:SLIPS]:
        practice = f" (practice: {slip.made.practice})" if slip.made.practice.count else ""
        told = practice if slip.made.first.of else ""
        say(f"{slip.sentence}{told}. In: {slip.where}", "  ")
    missed = [i for i in tally.items if i.missed.first.count or i.missed.practice.count]
    _say_items(missed)
    if left := len(tally.items) - len(missed):
        click.echo(f"  {left} {'others were' if missed else 'were all'} right every time.")
    click.echo()


def say_rest(tally: ModuleTally, papers: Sequence[Sitting], curriculum: Curriculum) -> None:
    """What else there is of one module: its seasons apart, and the analysis of its items."""
    own = [sitting for sitting in papers if sitting.module == tally.module]
    seasons = by_season(own)
    for found in seasons.values() if len(seasons) > 1 else ():
        for part in tallies(found, curriculum):
            say_tally(part)
    _say_analysis(tally, agreement(own))


def _say_items(items: Sequence[ItemTally]) -> None:
    if not items:
        return
    few = all(each.missed.people < FEW for each in items)
    row = "  {:40}{:>12}{:>12}  {}".format
    head = row("Right on", "first tries", "practice", "" if few else "missed")
    click.echo(f"\n{head.rstrip()}")
    for each in items:
        first, practice = (_right(c) for c in (each.missed.first, each.missed.practice))
        line = row(_name(each), first, practice, "" if few else share_text(each.missed))
        click.echo(line.rstrip())
    if few:
        click.echo(f"  Fewer than {FEW} people: {TOO_FEW} more than these counts.")


def _name(each: ItemTally) -> str:
    return f"{each.words}{' ◆' if each.must else ''}"


def _right(missed: Count) -> str:
    return str(missed.rest) if missed.of else "-"


def _say_analysis(tally: ModuleTally, found: Agreement) -> None:
    """Intervals and correlations; of first tries, or of practice where there is none."""
    row = "  {:40}{:>12}{:>22}{:>12}".format
    click.echo(row("Share right", "counted", "95% interval (Wilson)", "r with rest"))
    for each in tally.items:
        low, high = right_interval(each.missed)
        agrees = _figure(found.items.get(each.id))
        right = str(each.missed.main.rest)
        click.echo(row(_name(each), right, f"{low} to {high}%", agrees))
    say(
        f"KR-20 over the {found.shared} items that all {found.papers} first tries have: "
        f"{_figure(found.kr20)}. KR-21 from their scores: {_figure(found.kr21)}.",
        "  ",
    )
    if tally.papers.people < FEW:
        say(f"With fewer than {FEW} people none of these figures says much.", "  ")
    click.echo()


def _figure(value: float | None) -> str:
    return "-" if value is None else f"{value:.2f}"
