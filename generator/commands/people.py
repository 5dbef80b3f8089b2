"""People: the crew, what was taught and seen, sign-offs, and the board."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

from generator.commands.saying import as_json, say_json, say_printed, shown
from generator.errors import Refusal

if TYPE_CHECKING:
    from generator.model.board import Board
    from generator.model.course import Curriculum
    from generator.model.event import Event
    from generator.workflows.place import Place

seen_on = click.option("--seen-on", "seen", metavar="DATE", help="The day, as 2026-04-30.")
by_trainer = click.option("--by", required=True, help="The trainer who states it.")
by_owner = click.option("--by", required=True, help="Who states it, such as the owner.")


def _enter(place: Place, curriculum: Curriculum, events: list[Event], said: str) -> None:
    from generator.workflows.record import enter

    added = enter(place, curriculum, events)
    numbers = ", ".join(str(event.number) for event in added)
    click.echo(f"{said} (event {numbers})")


def _read(place: Place) -> Curriculum:
    from generator.reading.curriculum import read_curriculum

    place.require_own()
    return read_curriculum(place.curriculum)


@click.group()
def crew() -> None:
    """Who is on the crew, and who trains."""


@crew.command()
@click.argument("names", nargs=-1, required=True)
@seen_on
@click.pass_obj
def add(place: Place, names: tuple[str, ...], seen: str | None) -> None:
    """Add each of NAMES to the crew."""
    from generator.workflows.record import event

    events = [event("joined", name.strip(), seen=seen) for name in names]
    _enter(place, _read(place), events, f"On the crew: {', '.join(names)}")


@crew.command()
@click.argument("name")
@seen_on
@click.pass_obj
def left(place: Place, name: str, seen: str | None) -> None:
    """NAME left the crew."""
    from generator.workflows.record import event

    _enter(place, _read(place), [event("left", name, seen=seen)], f"{name} left")


@crew.command()
@click.argument("name")
@seen_on
@click.pass_obj
def returned(place: Place, name: str, seen: str | None) -> None:
    """NAME came back to the crew."""
    from generator.workflows.record import event

    _enter(place, _read(place), [event("returned", name, seen=seen)], f"{name} is back")


@crew.command()
@click.argument("name")
@by_owner
@click.option("--basis", default="", help="Why NAME can judge the work: years, a course.")
@click.option("--end", is_flag=True, help="NAME is no trainer any more.")
@seen_on
@click.pass_obj
def trainer(place: Place, name: str, by: str, basis: str, end: bool, seen: str | None) -> None:
    """The owner names NAME a trainer, or ends it."""
    from generator.workflows.record import event

    if end:
        event_, said = event("trainer-ended", name, seen=seen, by=by), f"{name} trains no more"
    else:
        event_ = event("trainer-named", name, seen=seen, by=by, basis=basis)
        said = f"{name} is a trainer"
    _enter(place, _read(place), [event_], said)


@click.group()
def note() -> None:
    """Note what happened: lessons taught, data sheets shown, a suspension, an incident."""


@note.command("taught")
@click.argument("module")
@click.argument("names", nargs=-1, required=True)
@click.option("--lesson", "lessons", multiple=True, help="One lesson; repeat it. Else all.")
@by_trainer
@seen_on
@click.pass_obj
def taught_(
    place: Place,
    module: str,
    names: tuple[str, ...],
    lessons: tuple[str, ...],
    by: str,
    seen: str | None,
) -> None:
    """Lessons of MODULE were taught to NAMES."""
    from generator.workflows.people import taught
    from generator.workflows.record import module_id

    curriculum = _read(place)
    found = curriculum.modules[module_id(curriculum, module)]
    events = taught(found, names, lessons, by, seen)
    _enter(place, curriculum, events, f"{found.title} taught to {', '.join(names)}")


@note.command()
@click.argument("name")
@click.option("--rig", required=True)
@by_trainer
@seen_on
@click.pass_obj
def sheets(place: Place, name: str, rig: str, by: str, seen: str | None) -> None:
    """NAME was shown the data sheets of every product on a rig."""
    from generator.workflows.record import event, rig_id

    curriculum = _read(place)
    shown_ = event("sheets-shown", name, seen=seen, by=by, rig=rig_id(curriculum, rig))
    _enter(place, curriculum, [shown_], f"Data sheets of {rig} shown to {name}")


def _about_work(kind: str, word: str, help_text: str) -> None:
    """Add a note about a person's work, with a reason and perhaps a module."""

    @note.command(word, help=help_text)
    @click.argument("name")
    @click.option("--module", default="", help="One module only; else all work.")
    @click.option("--why", default="", help="The reason, in a few words.")
    @by_owner
    @seen_on
    @click.pass_obj
    def command(place: Place, name: str, module: str, why: str, by: str, seen: str | None) -> None:
        from generator.workflows.record import event, module_id

        curriculum = _read(place)
        named = module_id(curriculum, module) if module else ""
        noted = event(kind, name, seen=seen, by=by, module=named, why=why)
        _enter(place, curriculum, [noted], f"{name}: {word}")


_about_work("suspended", "suspended", "NAME may not do the work until restored.")
_about_work("restored", "restored", "A suspension of NAME has ended.")
_about_work("incident", "incident", "An incident or near miss that NAME had.")


@note.command()
@click.argument("code")
@click.argument("item")
@by_trainer
@click.option("--right-in-a-row", default=2, show_default=True, type=click.IntRange(min=0))
@seen_on
@click.pass_obj
def oral(
    place: Place, code: str, item: str, by: str, right_in_a_row: int, seen: str | None
) -> None:
    """A missed must-get ITEM of paper CODE was asked aloud, fresh, by another trainer."""
    from generator.workflows.oral import oral_event

    curriculum = _read(place)
    asked = oral_event(place, code, item, by, right_in_a_row, seen)
    _enter(place, curriculum, [asked], f"{asked.person}: {item} asked aloud")


@click.command()
@click.argument("module")
@click.argument("name")
@click.option("--rig", help="The rig it was seen on, where that matters.")
@by_trainer
@click.option("--not-yet", "not_yet", multiple=True, metavar="LINE", help="A line not yet right.")
@click.option("--told", multiple=True, metavar="LINE", help="A line right only when told.")
@seen_on
@click.pass_obj
def signoff(
    place: Place,
    module: str,
    name: str,
    rig: str | None,
    by: str,
    not_yet: tuple[str, ...],
    told: tuple[str, ...],
    seen: str | None,
) -> None:
    """A trainer saw NAME do every line of MODULE's sign-off sheet (Yes, but for what is named)."""
    from generator.workflows.people import on_rig, signed_off
    from generator.workflows.record import module_id, rig_id

    curriculum = _read(place)
    found = curriculum.modules[module_id(curriculum, module)]
    on = on_rig(curriculum, found, rig_id(curriculum, rig) if rig else None)
    answers = dict.fromkeys(not_yet, "not yet") | dict.fromkeys(told, "told")
    signed = signed_off(found, name, on, by, seen, answers)
    said = f"{name}: {found.title}{f' on {on}' if on else ''} seen by {by}"
    _enter(place, curriculum, [signed], said)


@click.command()
@click.argument("number", type=int)
@by_owner
@click.option("--why", required=True, help="The reason, in a few words.")
@click.pass_obj
def void(place: Place, number: int, by: str, why: str) -> None:
    """Event NUMBER was a mistake: it no longer counts, and stays readable."""
    from generator.workflows.record import event

    voided = event("voided", "", by=by, number=number, why=why)
    _enter(place, _read(place), [voided], f"Event {number} no longer counts")


@click.command()
@click.option("--pdf", is_flag=True, help="Print the board.")
@click.option("--csv", "table", is_flag=True, help="Write the board as a table.")
@as_json
@click.option("--on", "day", metavar="DATE", help="The board of another day, as 2026-04-30.")
@click.pass_obj
def board(place: Place, pdf: bool, table: bool, json_out: bool, day: str | None) -> None:
    """Who may mix today, and where everybody stands."""
    from generator.records.store import open_records
    from generator.workflows import board as workflow
    from generator.workflows.today import read_day

    curriculum = _read(place)
    with open_records(place.records) as records:
        head, events = records.head(), records.events()
    shown_board = workflow.board_of(curriculum, events, read_day(day), head)
    if json_out:
        say_json(workflow.as_data(shown_board))
    elif not pdf and not table:
        _say_board(shown_board)
    if pdf:
        _print_board(place, curriculum, shown_board)
    if table:
        _write_table(place.out / "board.csv", workflow.as_csv(shown_board))


def _print_board(place: Place, curriculum: Curriculum, shown_board: Board) -> None:
    from generator.printing.board import board_html
    from generator.printing.pdf import Printer

    html = board_html(curriculum.shop, shown_board)
    say_printed("Board", Printer().write(html, place.out / "board.pdf"))


def _write_table(path: Path, text: str) -> None:
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8-sig", newline="")
    except OSError as trouble:
        reason = (trouble.strerror or "it failed").lower()
        raise Refusal(
            f"{path} can't be written: {reason}", "name another folder: --out"
        ) from trouble
    click.echo(f"Table: {shown(path)}")


def _say_board(shown_board: Board) -> None:
    from rich.console import Console
    from rich.table import Table

    console = Console()
    for duty in shown_board.duties:
        console.print(f"[bold]{duty.rig}:[/bold] {duty.sentence}", highlight=False)
    grid = Table("", *shown_board.modules, title=f"Standing on {shown_board.date}")
    for row in shown_board.rows:
        cells = [f"{cell.state} {cell.day}".strip() for cell in row.cells]
        name = f"{row.person} (trainer)" if row.role == "trainer" else row.person
        grid.add_row(name, *cells)
    console.print(grid)
    for row in shown_board.rows:
        for module, cell in zip(shown_board.modules, row.cells, strict=True):
            if cell.missing:
                console.print(f"{row.person}, {module}: {'; '.join(cell.missing)}", highlight=False)
    console.print(f"Record {shown_board.head}", highlight=False)
