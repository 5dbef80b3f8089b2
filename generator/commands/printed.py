"""What is printed for people: booklets and papers."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from generator.commands.saying import as_json, in_language, say_json, say_printed
from generator.errors import Refusal
from generator.words import WRITTEN_IN

if TYPE_CHECKING:
    from generator.model.course import Curriculum
    from generator.workflows.paper import Issued
    from generator.workflows.place import Place


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
@click.argument("module")
@click.option("--for", "people", multiple=True, metavar="NAME", help="Whose paper; repeat it.")
@click.option("--everyone", is_flag=True, help="A paper for each person on the crew.")
@click.option("--spare", type=click.IntRange(min=0), default=0, help="So many without a name.")
@click.option("--practice", is_flag=True, help="Practice papers, which do not count.")
@in_language
@as_json
@click.argument("more", nargs=-1, metavar="[NAME]...")
@click.pass_obj
def paper(
    place: Place,
    module: str,
    people: tuple[str, ...],
    everyone: bool,
    spare: int,
    practice: bool,
    language: str | None,
    json_out: bool,
    more: tuple[str, ...],
) -> None:
    """Print a paper of MODULE for each person, no two alike, and one key for all of them.

    Example: rigprimer paper mixing --for Juno Teo Bram
    """
    from generator.printing.pdf import Printer
    from generator.records import crew
    from generator.workflows.paper import issue, untranslated
    from generator.workflows.record import history, module_id

    curriculum, trainers = _curricula(place, language)
    chosen = curriculum.modules[module_id(curriculum, module)]
    names = [*people, *more, *(crew.on_crew(history(place.records)) if everyone else ())]
    if not names and not spare:
        raise Refusal("it is not said whose papers", "add --for NAME, --everyone or --spare 10")
    done = issue(place, curriculum, chosen, names, spare, practice, Printer(), trainers)
    if json_out:
        _say_issued_json(chosen.id, practice, done)
        return
    for each in done.papers:
        click.echo(f"{each.code}  {each.person or 'spare, name it when marking'}")
    if left := sum(untranslated(each, curriculum) for each in done.papers):
        click.echo(f"{left} items are not translated: they stand in the language of the lessons.")
    say_printed("Papers", done.paper_file)
    say_printed("Key, for the trainer only", done.key_file)
    click.echo(f"To mark one: rigprimer grade {done.papers[0].code} --by TRAINER")


def _curricula(place: Place, language: str | None) -> tuple[Curriculum, Curriculum | None]:
    """The curriculum in the language of the papers; the shop's own, where that is another."""
    from generator.reading.curriculum import read_curriculum

    own = read_curriculum(place.curriculum)
    if language in (None, own.shop.language):
        return own, None
    return read_curriculum(place.curriculum, language), own


def _say_issued_json(module: str, practice: bool, done: Issued) -> None:
    papers = [
        {"code": p.code, "person": p.person or None, "language": p.language} for p in done.papers
    ]
    files = {"file": str(done.paper_file.path), "key": str(done.key_file.path)}
    say_json({"module": module, "practice": practice, "papers": papers, **files})
