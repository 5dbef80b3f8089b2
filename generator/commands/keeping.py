"""The record kept safe: backup, restore, export, import."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

from generator.commands.saying import shown

if TYPE_CHECKING:
    from generator.records.copies import Copied
    from generator.workflows.place import Place

file_or_none = click.argument("file", type=click.Path(path_type=Path), required=False)
file_to_read = click.argument("file", type=click.Path(path_type=Path))
anyway = click.option("--yes", is_flag=True, help="Do it though events are only in what is there.")


@click.command()
@file_or_none
@anyway
@click.option("--damaged", is_flag=True, help="Copy the record though it is not whole.")
@click.pass_obj
def backup(place: Place, file: Path | None, yes: bool, damaged: bool) -> None:
    """Write a tested copy of the record to FILE, or to a new file in the folder backups.

    Keep one away from this computer: on a stick in the safe, say.
    """
    from generator.workflows.keeping import backup as write

    done = write(place, file, yes, damaged)
    _say(done, "Backup" if not damaged else "Backup, not tested for damage")
    click.echo(f"To go back to it: rigprimer restore {shown(done.path)}")


@click.command()
@file_or_none
@anyway
@click.pass_obj
def restore(place: Place, file: Path | None, yes: bool) -> None:
    """Put the backup FILE in the place of the record; what was there is kept beside it."""
    from generator.workflows.keeping import newest_backup
    from generator.workflows.keeping import restore as bring_back

    if file is None:
        newest = newest_backup(place)
        hint = f"the newest here is {shown(newest)}" if newest else "there is none in backups"
        raise click.UsageError(f"it is not said which backup — name its file; {hint}")
    done = bring_back(place, file, yes)
    _say(done, "Restored")
    if done.aside:
        click.echo(f"What was there before is kept as {shown(done.aside)}")


@click.command()
@file_to_read
@click.pass_obj
def export(place: Place, file: Path) -> None:
    """Write the whole record to FILE as open text: JSON, one event a line, nothing lost."""
    from generator.workflows.keeping import write_text

    _say(write_text(place, file), "Exported")


@click.command(name="import")
@file_to_read
@click.pass_obj
def import_(place: Place, file: Path) -> None:
    """Make the record from FILE, an export, where there is none yet."""
    from generator.workflows.keeping import read_text

    _say(read_text(place, file), "Imported")


def _say(done: Copied, what: str) -> None:
    events = "event" if done.last.number == 1 else "events"
    click.echo(f"{what}: {shown(done.path)}, {done.last.number} {events}, head {done.head}")
