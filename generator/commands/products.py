"""What is printed beside the papers: booklets, one sheet, or everything that has changed."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

from generator.commands.saying import (
    as_json,
    bar,
    in_language,
    say_json,
    say_notes,
    say_printed,
    shown,
)
from generator.words import WRITTEN_IN

if TYPE_CHECKING:
    from generator.model.season import Season
    from generator.workflows.build import Built
    from generator.workflows.place import Place
    from generator.workflows.sheets import Product

SEASON = 180
"""Days of a season that nobody gave a length."""


@click.command()
@click.argument("what", nargs=-1)
@as_json
@click.pass_obj
def build(place: Place, what: tuple[str, ...], json_out: bool) -> None:
    """Print everything that has changed since the last build, or only WHAT you name.

    WHAT is one or more of: booklets phone sheets sign-offs cards leaflet guides.
    """
    from generator.workflows.build import build as make

    with bar("Printing") as tell:
        built = make(place.curriculum, place.out, what, tell)
    if json_out:
        say_json(_built_data(built, place.out))
        return
    for name in built.printed:
        for file in built.made[name].files:
            click.echo(f"  {shown(place.out / file.name):52}{_pages(file.pages)}")
    say_notes(built.notes)
    files = sum(len(made.files) for made in built.made.values())
    click.echo(f"{_news(built)} There are {files} files, {built.pages:,} pages.")


def _news(built: Built) -> str:
    if not built.printed:
        return "Nothing has changed."
    count = len(built.printed)
    return f"{count} of {len(built.made)} printed."


def _pages(count: int) -> str:
    if not count:
        return "for the browser"
    return f"{count} page{'s' if count > 1 else ''}"


def _built_data(built: Built, out: Path) -> dict[str, object]:
    return {
        "printed": built.printed,
        "pages": built.pages,
        "files": [
            {
                "id": name,
                "kind": made.kind,
                "title": made.title,
                "file": str(out / file.name),
                "pages": file.pages,
            }
            for name, made in built.made.items()
            for file in made.files
        ],
        "notes": built.notes,
    }


@click.command()
@click.argument("modules", nargs=-1)
@click.option("--fold", is_flag=True, help="Half pages, two to a sheet: duplex, fold, staple.")
@in_language
@click.pass_obj
def booklet(place: Place, modules: tuple[str, ...], fold: bool, language: str | None) -> None:
    """Print the booklet of each of MODULES, or of all of them.

    With --fold print the copy on both sides, flipped on the short edge; fold it and staple it.
    """
    from generator.reading.curriculum import read_curriculum
    from generator.workflows.booklet import print_booklets
    from generator.workflows.record import module_id

    curriculum = read_curriculum(place.curriculum, language)
    ids = [module_id(curriculum, name) for name in modules] or list(curriculum.modules)
    wanted = [curriculum.modules[name] for name in dict.fromkeys(ids)]
    done = print_booklets(curriculum, wanted, place.out, fold)
    for module, printed in zip(wanted, done, strict=True):
        say_printed(module.title, printed)
    if curriculum.shop.language != WRITTEN_IN:
        own = curriculum.shop.language
        click.echo(f"Texts that are not translated: rigprimer check --language {own}")


@click.command()
@click.argument("sheet_id", metavar="[ID]", required=False)
@click.option("--start", metavar="DATE", help="First day of the season, for review days.")
@click.option("--days", type=click.IntRange(7, 366), help="Length of the season.")
@in_language
@as_json
@click.pass_obj
def sheet(
    place: Place,
    sheet_id: str | None,
    start: str | None,
    days: int | None,
    language: str | None,
    json_out: bool,
) -> None:
    """Print the sheet, card, leaflet or guide of that ID; with no ID, list them.

    Example: rigprimer sheet season-plan --start 2026-04-01 --days 200
    """
    from generator.reading.curriculum import read_curriculum
    from generator.workflows.sheets import print_one, products

    curriculum = read_curriculum(place.curriculum, language)
    if sheet_id is None:
        if start or days or language:
            raise click.UsageError(
                "it is not said which sheet — as in: sheet season-plan --days 90"
            )
        _list(list(products(curriculum).values()), json_out)
        return
    done = print_one(curriculum, sheet_id, place.out, _season(start, days), language)
    if json_out:
        files = [{"file": str(path), "pages": pages} for path, pages in done.pages]
        say_json({"id": sheet_id, "files": files, "notes": list(done.printed.notes)})
        return
    for path, pages in done.pages:
        click.echo(f"{done.job.name}: {shown(path)}, {_pages(pages)}")
    say_notes(done.printed.notes)


def _season(start: str | None, days: int | None) -> Season | None:
    from datetime import date

    from generator.model.season import Season
    from generator.workflows.today import read_day

    if not start and days is None:
        return None
    return Season(days or SEASON, date.fromisoformat(read_day(start)) if start else None)


def _list(known: list[Product], json_out: bool) -> None:
    if json_out:
        say_json([{"id": p.id, "kind": p.kind, "title": p.title} for p in known])
        return
    for product in known:
        click.echo(f"{product.id:26}{product.kind:11}{product.title}")
    click.echo("\nTo print one: rigprimer sheet ID")
