"""What is printed for people: booklets and papers."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from generator.commands.saying import as_json, say_json, say_printed
from generator.errors import Refusal

if TYPE_CHECKING:
    from generator.workflows.place import Place


@click.command()
@click.argument("modules", nargs=-1)
@click.pass_obj
def booklet(place: Place, modules: tuple[str, ...]) -> None:
    """Print the booklet of each of MODULES, or of all of them."""
    from generator.reading.curriculum import read_curriculum
    from generator.workflows.booklet import print_booklets
    from generator.workflows.record import module_id

    curriculum = read_curriculum(place.curriculum)
    ids = [module_id(curriculum, name) for name in modules] or list(curriculum.modules)
    wanted = [curriculum.modules[name] for name in dict.fromkeys(ids)]
    for module, printed in zip(wanted, print_booklets(curriculum, wanted, place.out), strict=True):
        say_printed(module.title, printed)


@click.command()
@click.argument("module")
@click.option("--for", "people", multiple=True, metavar="NAME", help="Whose paper; repeat it.")
@click.option("--everyone", is_flag=True, help="A paper for each person on the crew.")
@click.option("--spare", type=click.IntRange(min=0), default=0, help="So many without a name.")
@click.option("--practice", is_flag=True, help="Practice papers, which do not count.")
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
    json_out: bool,
    more: tuple[str, ...],
) -> None:
    """Print a paper of MODULE for each person, no two alike, and one key for all of them.

    Example: rigprimer paper mixing --for Juno Teo Bram
    """
    from generator.printing.pdf import Printer
    from generator.reading.curriculum import read_curriculum
    from generator.records import crew
    from generator.workflows.paper import issue
    from generator.workflows.record import history, module_id

    curriculum = read_curriculum(place.curriculum)
    chosen = curriculum.modules[module_id(curriculum, module)]
    names = [*people, *more, *(crew.on_crew(history(place.records)) if everyone else ())]
    if not names and not spare:
        raise Refusal("it is not said whose papers", "add --for NAME, --everyone or --spare 10")
    done = issue(place, curriculum, chosen, names, spare, practice, Printer())
    if json_out:
        papers = [{"code": p.code, "person": p.person or None} for p in done.papers]
        files = {"file": str(done.paper_file.path), "key": str(done.key_file.path)}
        say_json({"module": chosen.id, "practice": practice, "papers": papers, **files})
        return
    for each in done.papers:
        click.echo(f"{each.code}  {each.person or 'spare, name it when marking'}")
    say_printed("Papers", done.paper_file)
    say_printed("Key, for the trainer only", done.key_file)
    click.echo(f"To mark one: rigprimer grade {done.papers[0].code} --by TRAINER")
