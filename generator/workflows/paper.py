"""Papers issued: drawn, printed with their key, and kept in the record as printed."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path

from generator.model.course import Curriculum
from generator.model.event import Event
from generator.model.paper import Paper
from generator.printing.pdf import Printer
from generator.records import crew
from generator.records.kept import plain
from generator.records.papers_kept import codes_used, paper_to_data
from generator.workflows.drawing import draw_papers
from generator.workflows.place import Place
from generator.workflows.record import enter, event, history
from generator.workflows.reword import reworded
from generator.workflows.runs import Bundle, Run, files_of, new_run, pages_of, print_run, remove
from generator.workflows.strip import strip
from generator.workflows.today import today

CLASS = 50
"""Papers of the largest class that is one document."""
PART = 10
"""Papers of each document where there are more: a page takes memory until its file is written.

They are printed one after another: each further process would take as much again.
"""


@dataclass(frozen=True)
class Order:
    """The papers asked for: of which module (its id), for whom, and how many without a name.

    `back` asks for short return papers, `large` for large print, `script` for what is read aloud.
    """

    module: str
    people: tuple[str, ...] = ()
    spare: int = 0
    practice: bool = False
    back: bool = False
    large: bool = False
    script: bool = False

    @property
    def stem(self) -> str:
        """How its files are called, up to the code."""
        kind = "practice-" if self.practice else "return-" if self.back else ""
        return f"{self.module}-{kind}{today()}"


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
    order: Order,
    printer: Printer,
    wording: Curriculum | None = None,
    tell: Callable[[int, int], None] = lambda done, total: None,
) -> Issued:
    """Draw, print and record the papers of an order, no two alike. Raises Refusal.

    The record is written last: a paper that was printed but could not be recorded is removed
    again, since it could never be marked. `wording` is the curriculum in the language of the
    papers, where that is not the shop's own. More papers than a `CLASS` are printed in parts;
    `tell` hears how many of how many are printed.
    """
    place.require_own()
    past = history(place.records)
    names = dict.fromkeys(crew.find(past, name) for name in order.people)  # each once
    wording = wording or curriculum
    papers = draw_papers(
        wording,
        wording.modules[order.module],
        [*names, *[""] * order.spare],
        order.practice,
        codes_used(past),
        back=order.back,
    )
    pages = _Pages(order, curriculum, wording, place.out, printer)
    bundles: list[Bundle] = []
    try:
        for part in parts(papers):
            bundles.append(pages.printed(part))
            tell(sum(len(bundle.papers) for bundle in bundles), len(papers))
        kept = [issued_event(paper, each.run) for each in bundles for paper in each.papers]
        enter(place, curriculum, kept)
    except BaseException:
        remove(file for bundle in bundles for file in bundle.files)
        raise
    return Issued(tuple(bundles))


def parts(papers: tuple[Paper, ...]) -> Iterator[tuple[Paper, ...]]:
    """The papers of each document: all of a class together, more of them in parts."""
    size = len(papers) if len(papers) <= CLASS else PART
    for first in range(0, len(papers), size):
        yield papers[first : first + size]


def issued_event(paper: Paper, run: Run | None = None) -> Event:
    """The event that keeps a paper whole, on the day it was printed, with its run."""
    data = {"paper": paper_to_data(paper)} | ({"run": plain(run)} if run else {})
    return event("issued", paper.person, seen=paper.printed, **data)


@dataclass(frozen=True)
class _Pages:
    """How the papers of an order are printed, and where to; the key is in the shop's language."""

    order: Order
    own: Curriculum
    wording: Curriculum
    out: Path
    printer: Printer

    def printed(self, papers: tuple[Paper, ...]) -> Bundle:
        """The papers, their key and perhaps the script; or no file at all. Raises Refusal."""
        formulas = strip(self.wording.modules[self.order.module])
        language = self.own.shop.language
        run = new_run(self.wording, papers[0], formulas, language, large=self.order.large)
        keys = papers
        if self.wording is not self.own:
            keys = tuple(reworded(paper, self.own) for paper in papers)
        pages = pages_of(run, self.wording.shop, papers, keys, self.order.script)
        files = files_of(self.out, f"{self.order.stem}-{papers[0].code}")
        return print_run(run, papers, pages, files, self.printer)
