"""Papers: drawn, printed with their key, and kept in the record as printed."""

from __future__ import annotations

import gc
import secrets
from collections.abc import Callable, Iterable, Iterator, Sequence
from contextlib import suppress
from dataclasses import dataclass, replace
from functools import partial
from pathlib import Path
from typing import Any

from generator.errors import Refusal
from generator.items.build import unlike
from generator.maths.amounts import number_text
from generator.maths.measure import plain
from generator.maths.notation import written
from generator.model.course import Curriculum, Module
from generator.model.event import Event
from generator.model.item import Item
from generator.model.paper import Paper
from generator.model.problem import Problem
from generator.model.relation import Relation
from generator.papers.codes import new_code
from generator.papers.pick import Pick, picks, returning
from generator.printing.pdf import Printed, Printer
from generator.printing.script import script_html
from generator.records import crew
from generator.records.papers_kept import codes_used, paper_to_data
from generator.solving.arrange import arrange, units_of
from generator.solving.explain import formula_line
from generator.workflows.place import Place
from generator.workflows.record import enter, event, history
from generator.workflows.reword import drawn, reworded
from generator.workflows.runs import Run, files_of, hash_of, new_run, pages_of, with_run
from generator.workflows.today import today

CLASS = 50
"""Papers of the largest class that is one document."""
PART = 10
"""Papers of each document where there are more: a page takes memory until its file is written."""


@dataclass(frozen=True)
class Bundle:
    """Papers in one document, with their key in the same order; `run` is kept with each paper."""

    papers: tuple[Paper, ...]
    run: Run
    paper_file: Printed
    key_file: Printed
    script_file: Printed | None = None

    @property
    def files(self) -> tuple[Path, ...]:
        """What was printed."""
        printed = (self.paper_file, self.key_file, self.script_file)
        return tuple(each.path for each in printed if each)


@dataclass(frozen=True)
class Issued:
    """The papers of one go, in one document or, where they are many, in several."""

    bundles: tuple[Bundle, ...]

    @property
    def papers(self) -> tuple[Paper, ...]:
        """All of them, in order."""
        return tuple(paper for bundle in self.bundles for paper in bundle.papers)


def issue(
    place: Place,
    curriculum: Curriculum,
    module: Module,
    people: Sequence[str],
    spare: int,
    practice: bool,
    printer: Printer,
    trainers: Curriculum | None = None,
    *,
    back: bool = False,
    large: bool = False,
    script: bool = False,
    tell: Callable[[int, int], None] = lambda done, total: None,
) -> Issued:
    """Draw, print and record a paper for each person and so many spare ones. Raises Refusal.

    The record is written last: a paper that was printed but could not be recorded is removed
    again, since it could never be marked. `trainers` is the curriculum in the language of the
    key, where that is not the one of the papers. `back` makes return papers. More papers than a
    `CLASS` are printed in parts; `tell` hears how many of how many are printed.
    """
    place.require_own()
    past = history(place.records)
    names = dict.fromkeys(crew.find(past, name) for name in people)  # each once
    papers = draw_papers(
        curriculum, module, [*names, *[""] * spare], practice, codes_used(past), back=back
    )
    kind = "practice-" if practice else "return-" if back else ""
    pages = _Pages(
        printer, curriculum, trainers, place.out, f"{module.id}-{kind}{today()}", large, script
    )
    bundles: list[Bundle] = []
    try:
        for part in parts(papers):
            bundles.append(pages.printed(part))
            tell(sum(len(bundle.papers) for bundle in bundles), len(papers))
        enter(place, curriculum, [event for bundle in bundles for event in _kept(bundle)])
    except BaseException:
        _remove(file for bundle in bundles for file in bundle.files)
        raise
    return Issued(tuple(bundles))


def parts(papers: tuple[Paper, ...]) -> Iterator[tuple[Paper, ...]]:
    """The papers of each document: all of a class together, more of them in parts."""
    size = len(papers) if len(papers) <= CLASS else PART
    for first in range(0, len(papers), size):
        yield papers[first : first + size]


def _kept(bundle: Bundle) -> list[Event]:
    """The events that keep the papers of a bundle."""
    return [with_run(issued_event(paper), bundle.run) for paper in bundle.papers]


@dataclass(frozen=True)
class _Pages:
    """How the papers of one go are printed, and where to."""

    printer: Printer
    curriculum: Curriculum
    trainers: Curriculum | None
    out: Path
    stem: str
    large: bool
    script: bool

    def printed(self, papers: tuple[Paper, ...]) -> Bundle:
        """The papers, their key and perhaps the script; or no file at all. Raises Refusal."""
        shop, trainers = self.curriculum.shop, self.trainers
        module = self.curriculum.modules[papers[0].module]
        language = (trainers or self.curriculum).shop.language
        run = new_run(self.curriculum, papers[0], strip(module), language, large=self.large)
        keys = [reworded(paper, trainers) for paper in papers] if trainers else papers
        pages = [*pages_of(run, shop, papers, keys)]
        pages += [script_html(shop, papers)] if self.script else []
        files = files_of(self.out, f"{self.stem}-{papers[0].code}")[: len(pages)]
        done = self._written(pages, files)
        run = replace(
            run,
            made_with=self.printer.made_with,
            paper_hash=hash_of(done[0]),
            key_hash=hash_of(done[1]),
        )
        return Bundle(papers, run, *done)

    def _written(self, pages: Sequence[str], files: Sequence[Path]) -> list[Printed]:
        """The pages in their files; memory is given back after each."""
        done: list[Printed] = []
        try:
            for html, file in zip(pages, files, strict=True):
                done.append(self.printer.write(html, file))
                gc.collect()
        except BaseException:
            _remove([*(printed.path for printed in done), *files])
            raise
        return done


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
    *,
    back: bool = False,
) -> tuple[Paper, ...]:
    """A paper each, no two alike, printed on that day (today if none); "" for a spare one.

    No code of `used` is given again. Raises Refusal.
    """
    papers: dict[tuple[Any, ...], Paper] = {}
    taken = set(used)
    for person in people:
        code = new_code(taken)
        taken.add(code)
        for _ in range(_DRAWS):
            paper = draw_paper(curriculum, module, person, practice, code, day=day, back=back)
            if _asked(paper) not in papers:
                break
        else:
            raise Refusal(
                f"{module.title} has too few items for {len(people)} papers, no two alike",
                "write more questions or problems, or print fewer at a time",
            )
        papers[_asked(paper)] = paper
    return tuple(papers.values())


_DRAWS = 50


def _asked(paper: Paper) -> tuple[Any, ...]:
    """What a person sees of a paper: papers that ask the same in the same order are alike."""
    return tuple((item.ask, tuple(o.text for o in item.options)) for item in paper.items)


def draw_paper(
    curriculum: Curriculum,
    module: Module,
    person: str,
    practice: bool,
    code: str,
    seed: str | None = None,
    day: str | None = None,
    *,
    back: bool = False,
) -> Paper:
    """One paper, printed on that day (today if none); `back` makes it a short return paper.

    `seed` is 128 random bits in hex; the same seed gives the same items.
    """
    seed = seed or secrets.token_hex(16)
    asked = returning(module) if back else module
    return Paper(
        code=code,
        seed=seed,
        module=module.id,
        module_title=module.title,
        edition=module.edition,
        curriculum=curriculum.digest,
        person=person,
        printed=day or today(),
        items=_items(picks(asked, seed)),
        cut=asked.blueprint.cut,
        practice=practice,
        language=curriculum.shop.language,
        back=back,
    )


def _items(chosen: Sequence[Pick]) -> tuple[Item, ...]:
    """The items, each with numbers no other item of the paper has."""
    items: dict[str, Item] = {}
    for pick in chosen:
        item = unlike(partial(drawn, pick.thing), pick.seed, items, lambda item: True)
        items[item.ask] = item
    return tuple(items.values())


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


def _remove(files: Iterable[Path]) -> None:
    for file in files:
        with suppress(OSError):  # what stood in the way of writing is told already
            file.unlink(missing_ok=True)
