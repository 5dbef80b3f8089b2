"""How commands speak: JSON, printed files with their notes, a bar while the person waits."""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterable, Iterator
from contextlib import contextmanager
from pathlib import Path
from shutil import get_terminal_size
from textwrap import fill
from typing import TYPE_CHECKING, Any

import click

from generator.words import LANGUAGES

if TYPE_CHECKING:
    from fractions import Fraction

    from generator.printing.pdf import Printed

WIDEST = 88
"""Columns that a sentence takes at the most."""

as_json = click.option("--json", "json_out", is_flag=True, help="Print JSON for a program.")
in_language = click.option(
    "--language", type=click.Choice(LANGUAGES), help="Print it in this language, not the shop's."
)


def say_json(data: Any) -> None:
    """One JSON value on one line, in letters that any encoding has."""
    import json

    click.echo(json.dumps(data))


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
    say_notes(printed.notes)


def say_notes(notes: Iterable[str]) -> None:
    """What a person should know of what was made, where errors are said."""
    for note in notes:
        click.echo(f"  {note}", err=True)


def say_written(what: str, path: Path, content: bytes) -> None:
    """Write a file that is not printed, and say where it is. Raises Refusal when it can't be."""
    from generator.printing.writing import write_whole

    write_whole(path, content)
    click.echo(f"{what}: {shown(path)}")


def shown(path: Path) -> str:
    """A path as short as it can be said from here."""
    try:
        return str(path.resolve().relative_to(Path.cwd()))
    except ValueError:
        return str(path)


def say(text: str, indent: str = "") -> None:
    """A sentence or more, folded to the width of the screen."""
    more, width = f"{indent}  ", min(WIDEST, get_terminal_size((WIDEST, 0)).columns)
    click.echo(
        fill(text, width, initial_indent=indent, subsequent_indent=more, break_on_hyphens=False)
    )


@contextmanager
def bar(label: str) -> Iterator[Callable[[int, int], None]]:
    """A bar of progress, moved by telling it how many of how many are done.

    It stands on a screen only, never in a file that the output goes to.
    """
    if not sys.stderr.isatty():
        yield lambda done, total: None
        return
    with click.progressbar(
        length=1, label=label, show_eta=False, show_pos=True, file=sys.stderr
    ) as shown_bar:

        def tell(done: int, total: int) -> None:
            shown_bar.length = total
            shown_bar.update(done - shown_bar.pos)

        yield tell
