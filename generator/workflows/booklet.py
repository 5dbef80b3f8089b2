"""A module's booklet as a PDF: lessons, worked examples that fade, practice, answers, sign-off."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from concurrent.futures import ProcessPoolExecutor
from multiprocessing import cpu_count, get_context
from pathlib import Path

from generator.items.build import draw_item
from generator.model.course import Curriculum, Module
from generator.model.item import Item
from generator.model.problem import Problem
from generator.printing.booklet import booklet_html
from generator.printing.pdf import Printed, Printer

EXAMPLES, PRACTICE = 3, 2
"""Worked examples of a problem (full, last step blank, bare), and practice items of one."""

_FIRST_EXAMPLE, _FIRST_PRACTICE = 1_000, 2_000  # seeds; a booklet is the same in every print


def print_booklets(curriculum: Curriculum, modules: Sequence[Module], out: Path) -> list[Printed]:
    """Print several booklets, each in one of as many processes as there are cores.

    Raises Refusal. The longest goes first, so that no core is left with it at the end.
    """
    pages = {m.id: (html_of(curriculum, m), out / f"{m.id}-booklet.pdf") for m in modules}
    if len(modules) < 2 or cpu_count() < 2:
        printer = Printer()
        return [printer.write(*pages[m.id]) for m in modules]
    longest = sorted(pages, key=lambda name: -len(pages[name][0]))
    with ProcessPoolExecutor(cpu_count(), get_context("spawn"), _start_printer) as pool:
        futures = {name: pool.submit(_print, *pages[name]) for name in longest}
        return [futures[m.id].result() for m in modules]


_printer: list[Printer] = []  # the one printer of a worker process


def _start_printer() -> None:
    _printer.append(Printer())


def _print(html: str, path: Path) -> Printed:
    return _printer[0].write(html, path)


def html_of(curriculum: Curriculum, module: Module) -> str:
    """The booklet as HTML."""
    problems = {problem.id: problem for problem in module.problems}
    examples = {name: _example(problems[name]) for x in module.lessons for name in x.examples}
    practice = {name: _practice(problems[name]) for x in module.lessons for name in x.practice}
    return booklet_html(curriculum.shop, module, curriculum.sources, examples, practice, problems)


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
    while len(items) < count:
        item = draw_item(problem, seed)
        if fits(item):
            items.setdefault(item.ask, item)
        seed += 1
    return list(items.values())
