"""Runs: papers printed in one go, kept so that the very same pages can be printed again."""

from __future__ import annotations

import gc
from collections.abc import Iterable, Sequence
from contextlib import suppress
from dataclasses import dataclass, replace
from hashlib import sha256
from pathlib import Path
from typing import Any

from generator.errors import Refusal
from generator.model.course import Curriculum
from generator.model.event import Event
from generator.model.paper import Paper
from generator.model.shop import Shop
from generator.papers.codes import read_code
from generator.printing.key import key_html
from generator.printing.paper import paper_html
from generator.printing.pdf import Printed, Printer
from generator.printing.script import script_html
from generator.records.kept import rebuilt
from generator.records.papers_kept import paper_from_data
from generator.workflows.place import Place
from generator.workflows.record import history
from generator.workflows.reword import reworded

KINDS = ("paper", "key", "script")


@dataclass(frozen=True)
class Run:
    """What the pages of one go show beside the papers, and the SHA-256 of the files made."""

    first: str  # code of its first paper
    strip: tuple[str, ...]
    shop: str
    page: str
    checked: str  # who had looked at the translation; "" for nobody
    language: str  # of the key
    large: bool
    made_with: str = ""
    paper_hash: str = ""
    key_hash: str = ""

    def of_shop(self, shop: Shop, language: str) -> Shop:
        """The shop as it was printed."""
        return replace(
            shop, name=self.shop, page=self.page, spanish_checked=self.checked, language=language
        )


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
class Again:
    """A run printed again: as it came out now, which paper was asked for, the run as it was."""

    bundle: Bundle
    asked: Paper
    first: Run

    @property
    def same(self) -> tuple[bool | None, bool | None]:
        """Of papers and key, whether the same file came out; None where no hash was kept."""
        now, first = self.bundle.run, self.first
        return _same(first.paper_hash, now.paper_hash), _same(first.key_hash, now.key_hash)


def _same(kept: str, now: str) -> bool | None:
    return kept == now if kept else None


def pages_of(
    run: Run, shop: Shop, papers: Sequence[Paper], keys: Sequence[Paper], script: bool
) -> list[str]:
    """The HTML of the papers and of their key, and of the script if it is wanted."""
    own, keys_own = run.of_shop(shop, papers[0].language), run.of_shop(shop, run.language)
    pages = [paper_html(own, papers, run.strip, run.large), key_html(keys_own, keys)]
    return [*pages, script_html(own, papers)] if script else pages


def print_run(
    run: Run,
    papers: tuple[Paper, ...],
    pages: Sequence[str],
    files: Sequence[Path],
    printer: Printer,
) -> Bundle:
    """The pages in their files, all or none; the run with the hashes of those. Raises Refusal."""
    files = files[: len(pages)]  # there may be no script
    done: list[Printed] = []
    try:
        for html, file in zip(pages, files, strict=True):
            done.append(printer.write(html, file))
            gc.collect()  # a page takes memory until it is written
    except BaseException:
        remove([*(printed.path for printed in done), *files])
        raise
    hashes = [sha256(printed.path.read_bytes()).hexdigest() for printed in done]
    printed_run = replace(
        run, made_with=printer.made_with, paper_hash=hashes[0], key_hash=hashes[1]
    )
    return Bundle(papers, printed_run, *done)


def remove(files: Iterable[Path]) -> None:
    """Take away what was printed in vain."""
    for file in files:
        with suppress(OSError):  # what stood in the way of writing is told already
            file.unlink(missing_ok=True)


def print_again(
    place: Place, curriculum: Curriculum, typed: str, script: bool, printer: Printer
) -> Again:
    """Print the run of a paper once more from the record; nothing new is recorded.

    The files lie beside the first ones, which stay as they are. Raises Refusal.
    """
    place.require_own()
    code = read_code(typed)
    run, papers = _kept(history(place.records), curriculum, code)
    keys = [_key(paper, curriculum, run.language) for paper in papers]
    pages = pages_of(run, curriculum.shop, papers, keys, script)
    files = files_of(place.out, f"{papers[0].module}-{papers[0].code}-again")
    bundle = print_run(run, tuple(papers), pages, files, printer)
    return Again(bundle, next(paper for paper in papers if paper.code == code), run)


def files_of(out: Path, stem: str) -> list[Path]:
    """Where the papers, the key and the script of a run go."""
    folders = (out / "papers", out / "keys", out / "scripts")
    return [folder / f"{stem}-{kind}.pdf" for folder, kind in zip(folders, KINDS, strict=True)]


def _kept(past: Sequence[Event], curriculum: Curriculum, code: str) -> tuple[Run, list[Paper]]:
    """The run of a code and its papers in order, those taken back since among them."""
    issued = [event for event in past if event.kind == "issued"]
    own = next((event for event in issued if event.data["paper"]["code"] == code), None)
    if own is None:
        raise Refusal(
            f"no paper {code} was printed from this record", "read the code on the paper again"
        )
    if "run" not in own.data:
        paper = paper_from_data(own.data["paper"])
        return _unkept(curriculum, paper), [paper]
    run = rebuilt(Run, own.data["run"])
    same = [event.data for event in issued if _first(event.data) == run.first]
    return run, [paper_from_data(data["paper"]) for data in same]


def _first(data: dict[str, Any]) -> str:
    return str(data.get("run", {}).get("first", ""))


def _unkept(curriculum: Curriculum, paper: Paper) -> Run:
    """A stand-in for what older records did not keep: the page as it would be today."""
    return new_run(curriculum, paper, (), curriculum.shop.language, large=False)


def new_run(
    curriculum: Curriculum, paper: Paper, strip: tuple[str, ...], language: str, *, large: bool
) -> Run:
    """A run that begins with that paper, not printed yet."""
    shop = curriculum.shop
    return Run(paper.code, strip, shop.name, shop.page, shop.spanish_checked, language, large)


def _key(paper: Paper, curriculum: Curriculum, language: str) -> Paper:
    """The paper as its key shows it: in the trainers' language, where it can still be had."""
    if language == paper.language or language != curriculum.shop.language:
        return paper
    try:
        return reworded(paper, curriculum)
    except (KeyError, Refusal):  # the module or an item of it is gone: its own words serve
        return paper
