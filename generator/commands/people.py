"""The crew, sign-offs, and taking an entry back."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

from generator.commands.entering import by_owner, enter_events, read_own_outline, seen_on

if TYPE_CHECKING:
    from generator.workflows.place import Place


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

    if listed := [name for name in names if name.rstrip().endswith(",")]:
        raise click.UsageError(
            f'"{listed[0]}" ends with a comma — put blanks between names, and quotes around one of '
            "several words"
        )
    events = [event("joined", " ".join(name.split()), seen=seen) for name in names]
    enter_events(place, read_own_outline(place), events, f"On the crew: {', '.join(names)}")


@crew.command()
@click.argument("name")
@seen_on
@click.pass_obj
def left(place: Place, name: str, seen: str | None) -> None:
    """NAME left the crew."""
    from generator.workflows.record import event

    enter_events(place, read_own_outline(place), [event("left", name, seen=seen)], f"{name} left")


@crew.command()
@click.argument("name")
@seen_on
@click.pass_obj
def returned(place: Place, name: str, seen: str | None) -> None:
    """NAME came back to the crew."""
    from generator.workflows.record import event

    enter_events(
        place, read_own_outline(place), [event("returned", name, seen=seen)], f"{name} is back"
    )


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
    enter_events(place, read_own_outline(place), [event_], said)


@click.command()
@click.argument("module", required=False)
@click.argument("name", required=False)
@click.option("--rig", help="The rig it was seen on, where that matters.")
@click.option("--by", help="The trainer who saw it.")
@click.option("--from", "sheets_file", type=click.Path(path_type=Path), help="CSV: a day's sheets.")
@click.option("--not-yet", "not_yet", multiple=True, metavar="LINE", help="A line not yet right.")
@click.option("--told", multiple=True, metavar="LINE", help="A line right only when told.")
@seen_on
@click.pass_obj
def signoff(
    place: Place,
    module: str | None,
    name: str | None,
    rig: str | None,
    by: str | None,
    sheets_file: Path | None,
    not_yet: tuple[str, ...],
    told: tuple[str, ...],
    seen: str | None,
) -> None:
    """A trainer saw NAME do every line of MODULE's sign-off sheet (Yes, but for what is named).

    With --from a file's rows are entered, all or none. Its first row names the columns: module,
    name, rig, by, seen_on, not_yet, told; several lines in one cell have a blank between them.
    """
    from generator.workflows.day_sheets import signed_sheets
    from generator.workflows.people import on_rig, signed_off
    from generator.workflows.record import module_id, rig_id

    curriculum = read_own_outline(place)
    if sheets_file:
        events = signed_sheets(curriculum, sheets_file, by, seen)
        enter_events(place, curriculum, events, f"{len(events)} sign-off sheets entered")
        return
    if not (module and name and by):
        raise click.UsageError(
            "it is not said what was seen, of whom, by whom — add MODULE NAME --by TRAINER"
        )
    found = curriculum.modules[module_id(curriculum, module)]
    on = on_rig(curriculum, found, rig_id(curriculum, rig) if rig else None)
    answers = dict.fromkeys(not_yet, "not yet") | dict.fromkeys(told, "told")
    signed = signed_off(found, name, on, by, seen, answers)
    said = f"{name}: {found.title}{f' on {on}' if on else ''} seen by {by}"
    enter_events(place, curriculum, [signed], said)


@click.command()
@click.argument("number", type=int)
@by_owner
@click.option("--why", required=True, help="The reason, in a few words.")
@click.pass_obj
def void(place: Place, number: int, by: str, why: str) -> None:
    """Event NUMBER was a mistake: it no longer counts, and stays readable."""
    from generator.records.about import About
    from generator.workflows.record import event, history

    curriculum = read_own_outline(place)
    told = history(place.records, About((), numbers=(number,)))
    was = next((each for each in told if each.number == number), None)
    what = f" ({', '.join(filter(None, (was.kind, was.person, was.seen)))})" if was else ""
    voided = event("voided", "", by=by, number=number, why=why)
    enter_events(place, curriculum, [voided], f"Event {number}{what} no longer counts")
