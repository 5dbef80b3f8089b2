"""The board: on the screen, printed, as a table, as data."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from generator.commands.entering import read_own_outline, read_record
from generator.commands.saying import as_json, say, say_json, say_printed, say_written

if TYPE_CHECKING:
    from rich.console import Console

    from generator.model.board import Board
    from generator.model.course import Curriculum
    from generator.workflows.place import Place

PERSON_WIDTH = 9
"""Columns of the screen for a person: the widest mark is `✓ yes E1`."""


@click.command()
@click.option("--pdf", is_flag=True, help="Print the board.")
@click.option("--csv", "table", is_flag=True, help="Write the board as a table.")
@as_json
@click.option("--on", "day", metavar="DATE", help="The board of another day, as 2026-04-30.")
@click.pass_obj
def board(place: Place, pdf: bool, table: bool, json_out: bool, day: str | None) -> None:
    """Who may mix today, and where everybody stands."""
    from generator.workflows import board as workflow
    from generator.workflows.today import read_day

    curriculum = read_own_outline(place)
    head, events = read_record(place, curriculum, day)
    shown_board = workflow.board_of(curriculum, events, read_day(day), head)
    if json_out:
        say_json(workflow.as_data(shown_board))
    elif not pdf and not table:
        _say_board(shown_board)
    if pdf:
        _print_board(place, curriculum, shown_board)
    if table:
        text = workflow.as_csv(shown_board)
        say_written("Table", place.out / "board.csv", text.encode("utf-8-sig"))


def _print_board(place: Place, curriculum: Curriculum, shown_board: Board) -> None:
    from generator.printing.board import board_html
    from generator.printing.pdf import Printer

    html = board_html(curriculum.shop, shown_board)
    say_printed("Board", Printer().write(html, place.out / "board.pdf"))


def _say_board(shown_board: Board) -> None:
    """Who may mix first, then a column for each person, then what each one lacks."""
    from rich.console import Console

    from generator.printing.board import MEANS, label
    from generator.printing.files import one_line

    console = Console()
    for duty in shown_board.duties:
        click.secho(one_line(f"{duty.rig}: {duty.sentence}"), bold=True)
    width = max(map(len, shown_board.modules), default=0) + 3
    fits = max((console.width - width) // (PERSON_WIDTH + 2), 1)
    for first in range(0, len(shown_board.rows), fits):
        _say_grid(console, shown_board, first, first + fits)
    say("; ".join(f"{label(state)}: {what}" for state, what in MEANS) + ".")
    for line in shown_board.exceptions:
        say(one_line(f"Exception {line}"))
    for row in shown_board.rows:
        say(one_line(f"{row.person}: {'; '.join(row.wants) or 'nothing is missing'}"))
    click.echo(f"Record {shown_board.head}")


def _say_grid(console: Console, shown_board: Board, first: int, after: int) -> None:
    from rich.markup import escape
    from rich.table import Table
    from rich.text import Text

    from generator.printing.board import label
    from generator.printing.files import one_line

    rows = shown_board.rows[first:after]
    grid = Table("", title=f"Standing on {shown_board.date}", pad_edge=False)
    for row in rows:
        grid.add_column(escape(one_line(row.person)), overflow="ellipsis", no_wrap=True)
    for number, module in enumerate(shown_board.modules):
        cells = [row.cells[number] for row in rows]
        marks = [f"{label(cell.state)} {cell.note}".strip() for cell in cells]
        grid.add_row(*(Text(text, no_wrap=True) for text in (module, *marks)))
    with console.capture() as captured:  # said as all else is, in any encoding of the screen
        console.print(grid)
    click.echo(captured.get(), nl=False)
