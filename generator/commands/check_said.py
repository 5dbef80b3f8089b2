"""What a check found, in words on the screen and as data."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from typing import Any

import click

from generator.commands.saying import say
from generator.errors import Fault
from generator.papers.chances import Limits
from generator.workflows.check import PLENTY, Report
from generator.workflows.place import Place
from generator.workflows.plan import at_most, out_of_hundred
from generator.workflows.reading_level import ModuleLevel, levels
from generator.workflows.translation import translation_lines


def say_report(place: Place, report: Report, reading: bool, language: str | None) -> None:
    """Faults first, then what is worth a look, then what was asked for, then the counts."""
    for fault in report.faults:
        click.echo(str(fault))
    for warning in report.warnings:
        click.echo(f"worth a look: {warning}")
    if reading:
        _say_levels(levels(report.documents))
    for line in translation_lines(place.curriculum, report.documents, language):
        click.echo(line)
    _say_distinct(report.distinct)
    _say_false_passes(report.false_pass)
    if not place.own:
        click.echo("This is no shop's folder: the lessons that come with Rigprimer were checked.")
    counts = ", ".join(f"{count} {name}" for name, count in report.counts.items())
    found = len(report.faults)
    click.echo(f"{found or 'No'} {'fault' if found == 1 else 'faults'} in {counts}.")


def report_data(report: Report) -> dict[str, Any]:
    """A report as plain data for --json; chances from 0 to 1."""
    return {
        "faults": [_fault_data(fault) for fault in report.faults],
        "counts": report.counts,
        "warnings": [_fault_data(fault) for fault in report.warnings],
        "distinct": report.distinct,
        "false_pass": {name: float(chance) for name, chance in report.false_pass.items()},
    }


def _fault_data(fault: Fault) -> dict[str, Any]:
    return {"file": fault.file, "line": fault.line, "what": fault.what, "next": fault.next}


def _say_distinct(distinct: dict[str, int]) -> None:
    """The problems that make the fewest different items."""
    few = sorted((count, name) for name, count in distinct.items() if count < PLENTY)
    fewest = ", ".join(f"{name} {count}" for count, name in few[:3])
    rest = f"{len(distinct) - len(few)} problems make {PLENTY} different items or more"
    click.echo(f"{rest}; the fewest: {fewest}." if few else f"{rest}.")


def _say_false_passes(false_pass: dict[str, Fraction]) -> None:
    """The modules whose papers let too many through who know too little, worst first."""
    if not false_pass:
        return
    limits = Limits()
    worst = sorted(false_pass.items(), key=lambda found: -found[1])
    counts = ", ".join(f"{name} {out_of_hundred(chance)}" for name, chance in worst)
    say(
        f"Of 100 people who know only {at_most(limits.low)}, more than "
        f"{out_of_hundred(limits.false_pass)} may pass the papers of: {counts}. What to do: "
        f"rigprimer plan"
    )


def _say_levels(levels: Sequence[ModuleLevel]) -> None:
    """A line for each module: US school grades of its paragraphs, words of its sentences."""
    click.echo(f"{'module':18}{'paragraphs':>11}{'median grade':>14}{'hardest':>9}", nl=False)
    click.echo(f"{'sentences':>11}{'longest':>9}{'to look at':>12}")
    for each in levels:
        click.echo(f"{each.module:18}{each.paragraphs:>11}{float(each.median):>14.1f}", nl=False)
        click.echo(
            f"{float(each.hardest):>9.1f}{each.sentences:>11}{each.longest:>9}{each.warnings:>12}"
        )
