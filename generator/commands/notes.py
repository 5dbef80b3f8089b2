"""What is noted about people: teaching, data sheets, re-briefs, suspensions, incidents."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from generator.commands.entering import (
    by_owner,
    by_trainer,
    enter_events,
    read_own,
    read_own_outline,
    seen_on,
)
from generator.model.event import CAUSES
from generator.words import LANGUAGES

if TYPE_CHECKING:
    from generator.workflows.place import Place


@click.group()
def note() -> None:
    """Note what happened: lessons taught, data sheets shown, a suspension, an incident."""


@note.command("taught")
@click.argument("module")
@click.argument("names", nargs=-1, required=True)
@click.option("--lesson", "lessons", multiple=True, help="One lesson; repeat it. Else all.")
@click.option("--minutes", type=click.IntRange(min=1), help="How long it took.")
@click.option("--language", type=click.Choice(LANGUAGES), help="The language it was taught in.")
@by_trainer
@seen_on
@click.pass_obj
def taught_(
    place: Place,
    module: str,
    names: tuple[str, ...],
    lessons: tuple[str, ...],
    minutes: int | None,
    language: str | None,
    by: str,
    seen: str | None,
) -> None:
    """Lessons of MODULE were taught to NAMES."""
    from generator.workflows.people import taught
    from generator.workflows.record import module_id

    curriculum = read_own_outline(place)
    found = curriculum.modules[module_id(curriculum, module)]
    told = {"minutes": minutes, "language": language or curriculum.shop.language}
    how = {name: value for name, value in told.items() if value}
    events = taught(found, names, lessons, by, seen, **how)
    enter_events(place, curriculum, events, f"{found.title} taught to {', '.join(names)}")


@note.command()
@click.argument("module")
@click.argument("names", nargs=-1, required=True)
@by_trainer
@seen_on
@click.pass_obj
def briefed(place: Place, module: str, names: tuple[str, ...], by: str, seen: str | None) -> None:
    """NAMES signed the re-brief sheet of MODULE's edition of today."""
    from generator.workflows.people import briefed as brief
    from generator.workflows.record import module_id

    curriculum = read_own_outline(place)
    found = curriculum.modules[module_id(curriculum, module)]
    said = f"{found.title}, edition {found.edition}: {', '.join(names)} re-briefed"
    enter_events(place, curriculum, brief(found, names, by, seen), said)


@note.command()
@click.argument("name")
@click.option("--rig", required=True)
@by_trainer
@seen_on
@click.pass_obj
def sheets(place: Place, name: str, rig: str, by: str, seen: str | None) -> None:
    """NAME was shown the data sheets of every product on a rig."""
    from generator.workflows.record import event, rig_id

    curriculum = read_own_outline(place)
    shown_ = event("sheets-shown", name, seen=seen, by=by, rig=rig_id(curriculum, rig))
    enter_events(place, curriculum, [shown_], f"Data sheets of {rig} shown to {name}")


TAKE_BACK = "Take back the pocket card: it does not know of this."


def _about_work(kind: str, help_text: str, then: str = "") -> None:
    """Add a note about a person's work, with a reason; `then` is what is to be done."""

    @note.command(kind, help=help_text)
    @click.argument("name")
    @click.option("--module", default="", help="One module only; else all work.")
    @click.option("--why", default="", help="The reason, in a few words.")
    @by_owner
    @seen_on
    @click.pass_obj
    def command(place: Place, name: str, module: str, why: str, by: str, seen: str | None) -> None:
        from generator.workflows.record import event, module_id

        curriculum = read_own_outline(place)
        named = module_id(curriculum, module) if module else ""
        noted = event(kind, name, seen=seen, by=by, module=named, why=why)
        work = curriculum.modules[named].title if named else "all work"
        enter_events(place, curriculum, [noted], f"{name}: {kind}, {work}")
        if then:
            click.echo(f"  {then}")


_about_work("suspended", "NAME may not do the work until restored.", TAKE_BACK)
_about_work("restored", "A suspension of NAME has ended.")


@note.command()
@click.argument("name")
@click.option("--module", default="", help="The skill it speaks against: to be shown again.")
@click.option("--what", required=True, help="What happened, in a few words. Nothing medical.")
@click.option("--near-miss", is_flag=True, help="Nobody was hurt and nothing broken.")
@by_owner
@seen_on
@click.pass_obj
def incident(
    place: Place, name: str, module: str, what: str, near_miss: bool, by: str, seen: str | None
) -> None:
    """An incident or near miss that NAME had."""
    from generator.workflows.record import event, module_id

    curriculum = read_own_outline(place)
    named = module_id(curriculum, module) if module else ""
    data = {"module": named, "what": what, "near_miss": near_miss}
    noted = event("incident", name, seen=seen, by=by, **data)
    enter_events(place, curriculum, [noted], f"{name}: {'near miss' if near_miss else 'incident'}")


@note.command()
@click.argument("module")
@click.option(
    "--cause",
    required=True,
    type=click.Choice([cause.replace("_", "-") for cause in CAUSES]),
    help="A new hazard, other equipment, or another device that tests the stock.",
)
@click.option("--what", required=True, help="What it is, in a few words.")
@click.option("--rig", default="", help="On this rig only; else on all.")
@by_owner
@seen_on
@click.pass_obj
def changed(
    place: Place, module: str, cause: str, what: str, rig: str, by: str, seen: str | None
) -> None:
    """The work of MODULE has changed: whoever was signed off is to be seen at it again."""
    from generator.workflows.record import event, module_id, rig_id

    curriculum = read_own_outline(place)
    found = curriculum.modules[module_id(curriculum, module)]
    on = rig_id(curriculum, rig) if rig else ""
    data = {"module": found.id, "rig": on, "cause": cause.replace("-", "_"), "what": what}
    noted = event("changed", "", seen=seen, by=by, **data)
    enter_events(place, curriculum, [noted], f"{found.title} has changed: {what}")
    click.echo("  Whoever was signed off before is to be seen again: rigprimer board")
    click.echo("  Take back their pocket cards: those do not know of this.")


@note.command()
@click.argument("name")
@click.option("--module", required=True, help="The module whose next try is opened early.")
@click.option("--why", required=True, help="The reason, in a few words; it shows on the board.")
@by_owner
@seen_on
@click.pass_obj
def exception(place: Place, name: str, module: str, why: str, by: str, seen: str | None) -> None:
    """The owner lets NAME sit a paper again early; never in a module that clears for a duty."""
    from generator.workflows.record import event, module_id

    curriculum = read_own_outline(place)
    data = {"module": module_id(curriculum, module), "allow": "try", "why": why}
    enter_events(
        place,
        curriculum,
        [event("exception", name, seen=seen, by=by, **data)],
        f"{name}: a try in {module} is open; it shows on the board",
    )


@note.command("under-age")
@click.argument("name")
@click.option("--until", required=True, metavar="DATE", help="The day the rule on age is met.")
@by_owner
@click.pass_obj
def under_age(place: Place, name: str, until: str, by: str) -> None:
    """NAME may not be cleared for mixing before a day. No date of birth is kept."""
    from generator.workflows.record import event

    noted = event("under-age", name, by=by, until=until)
    enter_events(place, read_own_outline(place), [noted], f"{name} may not mix before {until}")


@note.command()
@click.argument("code")
@click.argument("item")
@by_trainer
@click.option("--right-in-a-row", type=click.IntRange(min=0), help="Else both were right.")
@click.option("--show", is_flag=True, help="Only show the two fresh items to ask.")
@seen_on
@click.pass_obj
def oral(
    place: Place,
    code: str,
    item: str,
    by: str,
    right_in_a_row: int | None,
    show: bool,
    seen: str | None,
) -> None:
    """A missed must-get ITEM of paper CODE was asked aloud, twice, fresh, by another trainer.

    Both right, one after the other, puts it right. Missed again, it is a new paper.
    """
    from generator.model.item import LETTERS
    from generator.model.paper import IN_A_ROW
    from generator.workflows.oral import fresh_items, oral_event

    curriculum = read_own(place)
    if show:
        for number, each in enumerate(fresh_items(curriculum, code, item), 1):
            offered = zip(LETTERS, each.options, strict=False)
            lines = [f"{letter}  {option.text}" for letter, option in offered]
            click.echo("\n   ".join([f"{number}. {each.ask}", *lines]))
            click.echo(f"   Right: {each.answer.text}\n")
        return
    right = IN_A_ROW if right_in_a_row is None else right_in_a_row
    asked = oral_event(place, curriculum, code, item, by, right, seen)
    enter_events(place, curriculum, [asked], f"{asked.person}: {item} asked aloud")
    if asked.data.get("alone"):
        click.echo("  The shop has no other trainer for this: it is recorded as that.")
