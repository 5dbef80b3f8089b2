"""What is made from the record: a person's file, the pocket card, the due list, the audit pack."""

from __future__ import annotations

from dataclasses import asdict
from typing import TYPE_CHECKING

import click

from generator.commands.entering import read_own, read_own_outline, read_record
from generator.commands.saying import as_json, say, say_json, say_printed, say_written, shown
from generator.errors import Refusal

if TYPE_CHECKING:
    from generator.model.file import DueList
    from generator.workflows.place import Place

on_day = click.option("--on", "day", metavar="DATE", help="As of another day, as 2026-04-30.")


@click.command()
@click.argument("name")
@on_day
@as_json
@click.pass_obj
def person(place: Place, name: str, day: str | None, json_out: bool) -> None:
    """Print NAME's training file: taught, tested, seen, by whom, and what is missing."""
    from generator.printing.files import file_stem
    from generator.printing.pdf import Printer
    from generator.printing.person import person_html
    from generator.records import crew
    from generator.workflows.person import person_file
    from generator.workflows.today import read_day

    curriculum = read_own(place)
    head, events = read_record(place, curriculum, day, name)
    file = person_file(curriculum, events, crew.find(events, name), read_day(day), head)
    if json_out:
        say_json(asdict(file))
        return
    path = place.out / "files" / f"{file_stem(file.name)}-file.pdf"
    say_printed("File", Printer().write(person_html(curriculum.shop, file), path))


@click.command()
@click.argument("name")
@click.pass_obj
def card(place: Place, name: str) -> None:
    """Print the pocket card of NAME: what may be mixed, on which rigs, and until when."""
    from generator.printing.files import file_stem
    from generator.printing.pdf import Printer
    from generator.printing.pocket import pocket_html
    from generator.records import crew
    from generator.workflows.pocket import pocket_card
    from generator.workflows.today import today

    curriculum = read_own(place)
    head, events = read_record(place, curriculum, None, name)
    made = pocket_card(curriculum, events, crew.find(events, name), today(), head)
    path = place.out / "files" / f"{file_stem(made.name)}-card.pdf"
    say_printed("Pocket card", Printer().write(pocket_html(curriculum.shop, made), path))
    click.echo(f"  It is void after {made.void_after}.")


@click.command()
@click.option("--days", type=click.IntRange(min=0), default=60, show_default=True)
@click.option("--pdf", is_flag=True, help="Print the list.")
@click.option("--calendar", is_flag=True, help="Write it for a calendar (iCalendar).")
@as_json
@on_day
@click.pass_obj
def due(
    place: Place, days: int, pdf: bool, calendar: bool, json_out: bool, day: str | None
) -> None:
    """What must be renewed in the coming days, and what is over already."""
    from generator.workflows.due import due_list
    from generator.workflows.today import read_day

    curriculum = read_own_outline(place)
    head, events = read_record(place, curriculum, day)
    found = due_list(curriculum, events, read_day(day), head, days)
    if json_out:
        say_json(asdict(found))
    elif not pdf and not calendar:
        _say_due(found)
    if pdf:
        from generator.printing.due import due_html
        from generator.printing.pdf import Printer

        html = due_html(curriculum.shop, found)
        say_printed("Due list", Printer().write(html, place.out / "due.pdf"))
    if calendar:
        from generator.printing.calendar import calendar_text

        say_written("Calendar", place.out / "due.ics", calendar_text(curriculum.shop, found))


def _say_due(found: DueList) -> None:
    from generator.printing.files import one_line

    for line in found.lines:
        rigs = f", {' and '.join(line.rigs)}" if line.rigs else ""
        over = "OVER since " if line.over else ""
        say(one_line(f"{over}{line.day} {line.person}, {line.module}{rigs}: {line.what}"))
    if not found.lines:
        click.echo(f"Nothing is due until {found.until}.")


@click.command()
@on_day
@click.pass_obj
def audit(place: Place, day: str | None) -> None:
    """Print the audit pack: training by person, trainers, versions, incidents, proof of lapses."""
    from generator.printing.audit import audit_html
    from generator.printing.pdf import Printer
    from generator.records.store import open_records
    from generator.workflows.audit import audit_of
    from generator.workflows.today import read_day

    curriculum = read_own(place)
    with open_records(place.records) as records:
        head, events, faults = records.head(), records.events(), records.verify()
    made = audit_of(curriculum, events, read_day(day), head, faults)
    html = audit_html(curriculum.shop, made)
    say_printed("Audit pack", Printer().write(html, place.out / "files" / "audit-pack.pdf"))
    if faults:
        raise Refusal(
            f"the record is not whole: {faults[0]}", "the pack says so; run: check --records"
        )


@click.command()
@click.argument("module")
@click.option("--for", "people", multiple=True, metavar="NAME", help="Whose sheet; repeat it.")
@click.option("--everyone", is_flag=True, help="A sheet for each person who must be re-briefed.")
@click.pass_obj
def brief(place: Place, module: str, people: tuple[str, ...], everyone: bool) -> None:
    """Print the re-brief sheet of MODULE: what changed, three questions, a signature."""
    from generator.printing.brief import brief_html, brief_key_html
    from generator.printing.pdf import Printer
    from generator.records import crew
    from generator.workflows.brief import change_of, questions_of, to_brief
    from generator.workflows.record import history, module_id, note_editions
    from generator.workflows.today import today

    curriculum = read_own(place)
    found = curriculum.modules[module_id(curriculum, module)]
    change = change_of(found)
    items = questions_of(found, change)
    note_editions(place, curriculum)
    past = history(place.records)
    names = [crew.find(past, name) for name in people]
    names += to_brief(curriculum, past, found, today()) if everyone else []
    if everyone and not names:
        raise Refusal(f"nobody must be re-briefed on {found.title}", "there is nothing to print")
    printer, stem = Printer(), f"{found.id}-brief-{found.edition}"
    pages = brief_html(curriculum.shop, found, change, items, list(dict.fromkeys(names)))
    key = brief_key_html(curriculum.shop, found, items)
    say_printed("Re-brief", printer.write(pages, place.out / "papers" / f"{stem}.pdf"))
    say_printed(
        "Answers, for the trainer only", printer.write(key, place.out / "keys" / f"{stem}-key.pdf")
    )
    click.echo(f"Afterwards: rigprimer note briefed {found.id} NAME --by TRAINER")


@click.command()
@click.option("--days", type=click.IntRange(min=0), default=14, show_default=True)
@click.option("--yes", is_flag=True, help="Do not ask.")
@click.pass_obj
def tidy(place: Place, days: int, yes: bool) -> None:
    """Delete printed keys older than so many days: on a shared computer they must not lie about."""
    from generator.workflows.tidy import old_keys, remove

    keys = old_keys(place.out, days)
    if not keys:
        click.echo(f"No key is older than {days} days.")
        return
    for key in keys:
        click.echo(f"  {shown(key)}")
    count = f"{len(keys)} key{'s' if len(keys) > 1 else ''}"
    if not yes and not click.confirm(f"Delete {count}? The papers stay, and can be marked"):
        raise Refusal("nothing was deleted", "run it again when you are ready")
    remove(keys)
    click.echo(f"Deleted {count}.")
