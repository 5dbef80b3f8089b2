"""Papers: drawn, printed with their key, and kept in the record as printed."""

from __future__ import annotations

import secrets
from collections.abc import Iterable, Sequence
from contextlib import suppress
from dataclasses import dataclass, replace
from pathlib import Path

from generator.items.build import draw_item, question_item
from generator.maths.amounts import number_text
from generator.maths.measure import plain
from generator.maths.notation import written
from generator.model.course import Curriculum, Module, Question
from generator.model.event import Event
from generator.model.item import Item
from generator.model.paper import Paper
from generator.model.problem import Problem
from generator.model.relation import Relation
from generator.papers.codes import new_code
from generator.papers.pick import Pick, picks
from generator.printing.key import key_html
from generator.printing.paper import paper_html
from generator.printing.pdf import Printed, Printer
from generator.records import crew
from generator.records.papers_kept import codes_used, paper_to_data
from generator.solving.arrange import arrange, units_of
from generator.solving.explain import formula_line
from generator.workflows.place import Place
from generator.workflows.record import enter, event, history
from generator.workflows.today import today


@dataclass(frozen=True)
class Issued:
    """The papers of one go, and the two files they were printed to."""

    papers: tuple[Paper, ...]
    paper_file: Printed
    key_file: Printed


def issue(
    place: Place,
    curriculum: Curriculum,
    module: Module,
    people: Sequence[str],
    spare: int,
    practice: bool,
    printer: Printer,
    trainers: Curriculum | None = None,
) -> Issued:
    """Draw, print and record a paper for each person and so many spare ones. Raises Refusal.

    The record is written last but one: a paper that was printed but could not be recorded is
    removed again, since it could never be marked. `trainers` is the curriculum in the language of
    the key, where that is not the one of the papers.
    """
    place.require_own()
    past = history(place.records)
    names = dict.fromkeys(crew.find(past, name) for name in people)  # each once
    papers = draw_papers(curriculum, module, [*names, *[""] * spare], practice, codes_used(past))
    keys = [reworded(paper, trainers) for paper in papers] if trainers else papers
    stem = f"{module.id}-{'practice-' if practice else ''}{today()}-{papers[0].code}"
    folders = place.out / "papers", place.out / "keys"
    files = [folder / f"{stem}-{kind}.pdf" for folder, kind in zip(folders, KINDS, strict=True)]
    key_shop = (trainers or curriculum).shop
    pages = paper_html(curriculum.shop, papers, strip(module)), key_html(key_shop, keys)
    printed: list[Printed] = []
    try:
        printed = [printer.write(*pair) for pair in zip(pages, files, strict=True)]
        enter(place, curriculum, [issued_event(paper) for paper in papers])
    except BaseException:
        _remove([*(done.path for done in printed), *files])
        raise
    return Issued(papers, printed[0], printed[1])


KINDS = ("paper", "key")


def reworded(paper: Paper, curriculum: Curriculum) -> Paper:
    """The same paper, its items with the same numbers, in the language of a curriculum."""
    module = curriculum.modules[paper.module]
    things = _things(module)
    items = tuple(_item(Pick(things[item.id], item.seed), item.seed) for item in paper.items)
    language = curriculum.shop.language
    return replace(paper, items=items, module_title=module.title, language=language)


def untranslated(paper: Paper, curriculum: Curriculum) -> int:
    """How many items of the paper stand in another language than the paper's own."""
    things = _things(curriculum.modules[paper.module])
    return sum(things[item.id].language != paper.language for item in paper.items)


def _things(module: Module) -> dict[str, Problem | Question]:
    problems: dict[str, Problem | Question] = {each.id: each for each in module.problems}
    return problems | {each.id: each for each in module.questions}


def issued_event(paper: Paper) -> Event:
    """The event that keeps a paper whole, on the day it was printed."""
    return event("issued", paper.person, seen=paper.printed, paper=paper_to_data(paper))


def draw_papers(
    curriculum: Curriculum,
    module: Module,
    people: Sequence[str],
    practice: bool,
    used: Iterable[str] = (),
    day: str | None = None,
) -> tuple[Paper, ...]:
    """A paper each, no two alike, printed on that day (today if none); "" for a spare one.

    No code of `used` is given again. Raises Refusal.
    """
    papers: list[Paper] = []
    taken = set(used)
    for person in people:
        code = new_code(taken)
        taken.add(code)
        papers.append(draw_paper(curriculum, module, person, practice, code, day=day))
    return tuple(papers)


def draw_paper(
    curriculum: Curriculum,
    module: Module,
    person: str,
    practice: bool,
    code: str,
    seed: str | None = None,
    day: str | None = None,
) -> Paper:
    """One paper, printed on that day (today if none).

    `seed` is 128 random bits in hex; the same seed gives the same items.
    """
    seed = seed or secrets.token_hex(16)
    return Paper(
        code=code,
        seed=seed,
        module=module.id,
        module_title=module.title,
        edition=module.edition,
        curriculum=curriculum.digest,
        person=person,
        printed=day or today(),
        items=_items(picks(module, seed)),
        cut=module.blueprint.cut,
        practice=practice,
        language=curriculum.shop.language,
    )


def _items(chosen: Sequence[Pick]) -> tuple[Item, ...]:
    """The items, each with numbers no other item of the paper has."""
    items: dict[str, Item] = {}
    for pick in chosen:
        item, seed = _item(pick, pick.seed), pick.seed
        while item.ask in items:
            seed += 1
            item = _item(pick, seed)
        items[item.ask] = item
    return tuple(items.values())


def _item(pick: Pick, seed: int) -> Item:
    if isinstance(pick.thing, Problem):
        return draw_item(pick.thing, seed)
    return question_item(pick.thing, seed)


def strip(module: Module) -> tuple[str, ...]:
    """The formula strip of a module: what its problems need, in words, each line once."""
    named = module.blueprint.strip
    shown = [p for p in module.problems if not named or p.relation.id in named]
    return tuple(dict.fromkeys(line for problem in shown for line in _strip_lines(problem)))


def _strip_lines(problem: Problem) -> list[str]:
    """The relation as it stands; where units need a factor, rearranged with the factor named."""
    relation, units = problem.relation, units_of(problem.relation)
    if all(plain(equation, units) == equation for equation in relation.equations):
        return [
            written(equation, lambda name: _label(relation, name), relation.language)
            for equation in relation.equations
        ]
    given = frozenset(choice.name for choice in problem.choices)
    steps = arrange(relation, given, problem.find).steps
    return [formula_line(relation, step) for step in steps]


def _label(relation: Relation, name: str) -> str:
    quantity = relation.quantity(name)
    return quantity.label if quantity else number_text(relation.constants[name].value)


def _remove(files: Sequence[Path]) -> None:
    for file in files:
        with suppress(OSError):  # what stood in the way of writing is told already
            file.unlink(missing_ok=True)
