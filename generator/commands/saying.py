"""How commands speak: JSON, printed files with their notes."""

from __future__ import annotations

import json
from fractions import Fraction
from pathlib import Path
from textwrap import fill
from typing import TYPE_CHECKING, Any

import click

from generator.words import LANGUAGES

if TYPE_CHECKING:
    from generator.printing.pdf import Printed

as_json = click.option("--json", "json_out", is_flag=True, help="Print JSON for a program.")
in_language = click.option(
    "--language", type=click.Choice(LANGUAGES), help="Print it in this language, not the shop's."
)


def say_json(data: Any) -> None:
    """One JSON value on one line."""
    click.echo(json.dumps(data, ensure_ascii=False))


def number(value: Fraction | None) -> int | float | None:
    """A number as JSON has it; the exact one goes beside it as text."""
    if value is None:
        return None
    return int(value) if value.denominator == 1 else float(value)


def exact_text(value: Fraction | None) -> str | None:
    """The exact number, as 13/4."""
    return None if value is None else str(value)


def say_printed(what: str, printed: Printed) -> None:
    """Where a file is, and what its printing noted."""
    click.echo(f"{what}: {shown(printed.path)}")
    for note in printed.notes:
        click.echo(f"  {note}", err=True)


def shown(path: Path) -> str:
    """A path as short as it can be said from here."""
    try:
        return str(path.resolve().relative_to(Path.cwd()))
    except ValueError:
        return str(path)


def say(text: str, indent: str = "") -> None:
    """A sentence or more, folded to the width of a screen."""
    more = f"{indent}  "
    click.echo(
        fill(text, 88, initial_indent=indent, subsequent_indent=more, break_on_hyphens=False)
    )
