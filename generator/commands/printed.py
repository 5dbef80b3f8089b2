"""What is printed for people: booklets and papers."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from generator.commands.saying import as_json, bar, in_language, say_json, say_printed
from generator.words import WRITTEN_IN

if TYPE_CHECKING:
    from generator.model.course import Curriculum
    from generator.workflows.paper import Bundle, Issued
    from generator.workflows.place import Place
    from generator.workflows.runs import Again


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
@click.argument("module", required=False)
@click.option("--for", "people", multiple=True, metavar="NAME", help="Whose paper; repeat it.")
@click.option("--everyone", is_flag=True, help="A paper for each person on the crew.")
@click.option("--spare", type=click.IntRange(min=0), default=0, help="So many without a name.")
@click.option("--practice", is_flag=True, help="Practice papers, which do not count.")
@click.option("--return", "back", is_flag=True, help="Short papers for those back after a while.")
@click.option("--large", is_flag=True, help="Large print, one column, room to write.")
@click.option("--script", is_flag=True, help="Print what the trainer reads aloud as well.")
@click.option("--again", metavar="CODE", help="Print that paper and its key once more.")
@in_language
@as_json
@click.argument("more", nargs=-1, metavar="[NAME]...")
@click.pass_obj
def paper(
    place: Place,
    module: str | None,
    people: tuple[str, ...],
    everyone: bool,
    spare: int,
    practice: bool,
    back: bool,
    large: bool,
    script: bool,
    again: str | None,
    language: str | None,
    json_out: bool,
    more: tuple[str, ...],
) -> None:
    """Print a paper of MODULE for each person, no two alike, and one key for all of them.

    Example: rigprimer paper mixing --for Juno Teo Bram

    Any paper can be printed again from the record: rigprimer paper --again K7M-2QF
    """
    from generator.printing.pdf import Printer
    from generator.workflows.paper import issue
    from generator.workflows.record import module_id

    if again:
        if module or people or everyone or spare or practice or back or large or language:
            raise click.UsageError(
                "a paper printed again stays as it was — give its code alone: paper --again CODE"
            )
        _print_again(place, again, script, json_out)
        return
    if module is None:
        raise click.UsageError("it is not said of which module — name it, as in: paper mixing")
    curriculum, trainers = _curricula(place, language)
    chosen = curriculum.modules[module_id(curriculum, module)]
    names = _whose(place, [*people, *more], everyone, spare)
    with bar("Printing") as tell:
        done = issue(
            place, curriculum, chosen, names, spare, practice, Printer(), trainers,
            back=back, large=large, script=script, tell=tell,
        )  # fmt: skip
    _say_issued_json(chosen.id, practice, done) if json_out else _say_issued(curriculum, done)


def _whose(place: Place, named: list[str], everyone: bool, spare: int) -> list[str]:
    from generator.records import crew
    from generator.workflows.record import history

    names = [*named, *(crew.on_crew(history(place.records)) if everyone else ())]
    if not names and not spare:
        raise click.UsageError(
            "it is not said whose papers — add --for NAME, --everyone or --spare 10"
        )
    return names


def _say_issued(curriculum: Curriculum, done: Issued) -> None:
    from generator.workflows.reword import untranslated

    for each in done.papers:
        click.echo(f"{each.code}  {each.person or 'spare, name it when marking'}")
    if left := sum(untranslated(each, curriculum) for each in done.papers):
        click.echo(f"{left} items are not translated: they stand in the language of the lessons.")
    for bundle in done.bundles:
        say_printed("Papers", bundle.paper_file)
        say_printed("Key, for the trainer only", bundle.key_file)
        if bundle.script_file:
            say_printed("Script, to read aloud", bundle.script_file)
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
    files = [_files_data(bundle) for bundle in done.bundles]
    data = {"module": module, "practice": practice, "papers": papers, **files[0]}
    say_json(data | {"files": files})


def _files_data(bundle: Bundle) -> dict[str, str]:
    files = {"file": str(bundle.paper_file.path), "key": str(bundle.key_file.path)}
    if bundle.script_file:
        files["script"] = str(bundle.script_file.path)
    return files


def _print_again(place: Place, code: str, script: bool, json_out: bool) -> None:
    from generator.printing.pdf import Printer
    from generator.reading.curriculum import read_curriculum
    from generator.workflows.runs import print_again

    done = print_again(place, read_curriculum(place.curriculum), code, script, Printer())
    if json_out:
        _say_again_json(done)
        return
    if len(done.papers) > 1:
        click.echo("Printed in one go, in this order:")
    for paper in done.papers:
        mark = "  <- this one" if paper is done.asked and len(done.papers) > 1 else ""
        click.echo(f"{paper.code}  {paper.person or 'spare, name it when marking'}{mark}")
    for what, printed, same in zip(
        ("Papers", "Key, for the trainer only"),
        (done.paper_file, done.key_file),
        done.same,
        strict=True,
    ):
        say_printed(what, printed)
        click.echo(f"  {_sameness(done, same)}")
    if done.script_file:
        say_printed("Script, to read aloud", done.script_file)


def _sameness(done: Again, same: bool | None) -> str:
    if same is None:
        return "No hash was kept with this paper, so it can't be compared."
    if same:
        return "The same file as the first time, to the last byte."
    if done.made_with == done.made_with_now:
        return "Not the same file: the pages of this program or the lessons have changed since."
    return f"Not the same file: first made with {done.made_with}, now {done.made_with_now}."


def _say_again_json(done: Again) -> None:
    papers = [{"code": p.code, "person": p.person or None} for p in done.papers]
    files = {"file": str(done.paper_file.path), "key": str(done.key_file.path)}
    same = {"paper_same": done.same[0], "key_same": done.same[1]}
    versions = {"made_with": done.made_with, "made_with_now": done.made_with_now}
    say_json({"asked": done.asked.code, "papers": papers, **files, **same, **versions})
