"""Papers: printed for people with their key, and printed again."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from generator.commands.saying import as_json, bar, in_language, say_json, say_printed

if TYPE_CHECKING:
    from generator.model.course import Curriculum
    from generator.model.paper import Paper
    from generator.printing.pdf import Printed
    from generator.workflows.paper import Issued, Order
    from generator.workflows.place import Place
    from generator.workflows.runs import Again, Bundle


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
    from generator.workflows.paper import Order, issue
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
    curriculum, wording = _curricula(place, language)
    names = _whose(place, [*people, *more], everyone, spare)
    chosen = module_id(curriculum, module)
    order = Order(chosen, tuple(names), spare, practice, back, large, script)
    with bar("Printing") as tell:
        done = issue(place, curriculum, order, Printer(), wording, tell)
    if json_out:
        _say_issued_json(order, done)
    else:
        _say_issued(done, wording or curriculum)


def _whose(place: Place, named: list[str], everyone: bool, spare: int) -> list[str]:
    from generator.records import crew
    from generator.workflows.record import history

    names = [*named, *(crew.on_crew(history(place.records)) if everyone else ())]
    if not names and not spare:
        raise click.UsageError(
            "it is not said whose papers — add --for NAME, --everyone or --spare 10"
        )
    return names


def _say_issued(done: Issued, wording: Curriculum) -> None:
    from generator.workflows.reword import untranslated

    for each in done.papers:
        click.echo(_named(each))
    if left := sum(untranslated(each, wording) for each in done.papers):
        click.echo(f"{left} items are not translated: they stand in the language of the lessons.")
    for bundle in done.bundles:
        for what, printed in _labelled(bundle):
            say_printed(what, printed)
    click.echo(f"To mark one: rigprimer grade {done.papers[0].code} --by TRAINER")


def _named(paper: Paper) -> str:
    return f"{paper.code}  {paper.person or 'spare, name it when marking'}"


def _labelled(bundle: Bundle) -> list[tuple[str, Printed]]:
    """The files of a bundle, each with what it is."""
    files = [("Papers", bundle.paper_file), ("Key, for the trainer only", bundle.key_file)]
    return files + ([("Script, to read aloud", bundle.script_file)] if bundle.script_file else [])


def _curricula(place: Place, language: str | None) -> tuple[Curriculum, Curriculum | None]:
    """The shop's own curriculum; that in the language of the papers, where it is another."""
    from generator.reading.curriculum import read_curriculum

    own = read_curriculum(place.curriculum)
    if language in (None, own.shop.language):
        return own, None
    return own, read_curriculum(place.curriculum, language)


def _say_issued_json(order: Order, done: Issued) -> None:
    papers = [
        {"code": p.code, "person": p.person or None, "language": p.language} for p in done.papers
    ]
    files = [_files_data(bundle) for bundle in done.bundles]
    data = {"module": order.module, "practice": order.practice, "papers": papers, **files[0]}
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
    papers = done.bundle.papers
    if len(papers) > 1:
        click.echo("Printed in one go, in this order:")
    for paper in papers:
        mark = "  <- this one" if paper is done.asked and len(papers) > 1 else ""
        click.echo(f"{_named(paper)}{mark}")
    compared = (*done.same, None)  # of a script no hash is kept
    for (what, printed), same in zip(_labelled(done.bundle), compared, strict=False):
        say_printed(what, printed)
        if printed is not done.bundle.script_file:
            click.echo(f"  {_sameness(done, same)}")


def _sameness(done: Again, same: bool | None) -> str:
    if same is None:
        return "No hash was kept with this paper, so it can't be compared."
    if same:
        return "The same file as the first time, to the last byte."
    first, now = done.first.made_with, done.bundle.run.made_with
    if first == now:
        return "Not the same file: the pages of this program or the lessons have changed since."
    return f"Not the same file: first made with {first}, now {now}."


def _say_again_json(done: Again) -> None:
    bundle = done.bundle
    papers = [{"code": p.code, "person": p.person or None} for p in bundle.papers]
    same = {"paper_same": done.same[0], "key_same": done.same[1]}
    versions = {"made_with": done.first.made_with, "made_with_now": bundle.run.made_with}
    say_json({"asked": done.asked.code, "papers": papers} | _files_data(bundle) | same | versions)
