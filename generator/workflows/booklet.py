"""A module's booklet as a PDF: lessons, worked examples that fade, practice, answers, sign-off."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import partial
from pathlib import Path

from generator.items.build import draw_item, unlike
from generator.model.course import Curriculum, Module
from generator.model.item import Item
from generator.model.problem import Problem
from generator.printing.booklet import booklet_html
from generator.printing.pdf import Printed
from generator.words import WRITTEN_IN
from generator.workflows.press import Done, Job, run_off

EXAMPLES, PRACTICE = 3, 2
"""Worked examples of a problem (full, last step blank, bare), and practice items of one."""

_FIRST_EXAMPLE, _FIRST_PRACTICE = 1_000, 2_000  # seeds; a booklet is the same in every print


def print_booklets(
    curriculum: Curriculum, modules: Sequence[Module], out: Path, fold: bool = False
) -> list[Printed]:
    """Print several booklets, each in one of as many processes as there are cores.

    With `fold` they are printed on half pages, two to a sheet, to be folded and stapled. Raises
    Refusal. The longest goes first, so that no core is left with it at the end.
    """
    jobs = [_job(curriculum, module, out, fold) for module in modules]
    jobs.sort(key=lambda job: -len(job.html))
    done = {each.job.id: each for each in run_off(jobs)}
    return [_printed(done[module.id]) for module in modules]


def _job(curriculum: Curriculum, module: Module, out: Path, fold: bool) -> Job:
    html, stem = html_of(curriculum, module, fold), file_stem(curriculum, module)
    if not fold:
        return Job(module.id, module.title, html, out / f"{stem}.pdf")
    halves, copy = out / f"{stem}-half.pdf", out / f"{stem}-fold.pdf"
    return Job(module.id, module.title, html, halves, copy)


def file_stem(curriculum: Curriculum, module: Module) -> str:
    """What a booklet's file is called, without its ending: `card-booklet`, `card-booklet-es`."""
    language = curriculum.shop.language
    return f"{module.id}-booklet" + (f"-{language}" if language != WRITTEN_IN else "")


def _printed(done: Done) -> Printed:
    """What was printed: the copy for folding, where there is one."""
    path, _ = done.pages[-1]
    return Printed(path, done.printed.notes)


def html_of(curriculum: Curriculum, module: Module, half: bool = False) -> str:
    """The booklet as HTML, with `half` on pages of half the size."""
    problems = {problem.id: problem for problem in module.problems}
    examples = {name: _example(problems[name]) for x in module.lessons for name in x.examples}
    practice = {name: _practice(problems[name]) for x in module.lessons for name in x.practice}
    shop, sources = curriculum.shop, curriculum.sources
    first = [curriculum.modules[needed].title for needed in module.requires]
    return booklet_html(shop, module, sources, examples, practice, problems, half, first)


def _example(problem: Problem) -> tuple[Item, Item, Item]:
    first, second, third = _different(problem, _FIRST_EXAMPLE, EXAMPLES, _is_number)
    return first, second, third


def _practice(problem: Problem) -> tuple[Item, ...]:
    return tuple(_different(problem, _FIRST_PRACTICE, PRACTICE, lambda item: True))


def _is_number(item: Item) -> bool:
    return not item.answer.word


def _different(problem: Problem, seed: int, count: int, fits: Callable[[Item], bool]) -> list[Item]:
    """So many items with different numbers."""
    items: dict[str, Item] = {}
    for _ in range(count):
        item = unlike(partial(draw_item, problem), seed, items, fits)
        items[item.ask] = item
        seed = item.seed + 1
    return list(items.values())
