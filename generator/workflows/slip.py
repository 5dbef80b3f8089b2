"""The result slip of a paper: what one may do today, what went wrong, what to read, what to try."""

from __future__ import annotations

import hashlib
from collections import Counter
from collections.abc import Container, Sequence
from pathlib import Path

from generator.items.build import draw_item
from generator.model.course import Curriculum, Module
from generator.model.item import Item
from generator.model.paper import Paper, Result
from generator.model.problem import Problem
from generator.model.standing import Standing
from generator.printing.pdf import Printed, Printer
from generator.printing.slip import Advice, slip_html
from generator.records.sittings import UNNAMED
from generator.words import WRITTEN_IN, words

FRESH_SEED = 3_000_000
_FRESH_TRIES = 20


def print_slip(
    curriculum: Curriculum,
    standing: Sequence[Standing],
    result: Result,
    out: Path,
    printer: Printer,
) -> Printed:
    """Print the slip in the language of the curriculum and the standing. Raises Refusal."""
    paper = result.paper
    may = may_today(curriculum, paper, standing)
    html = slip_of(curriculum, result, may, to_do(paper, standing))
    return printer.write(html, out / "slips" / f"{paper.module}-{paper.code}-slip.pdf")


def to_do(paper: Paper, standing: Sequence[Standing]) -> tuple[str, ...]:
    """What the person still lacks to do the work alone; nothing where one rig is open to him."""
    own = _of_paper(paper, standing)
    if any(each.cleared for each in own):
        return ()
    return tuple(dict.fromkeys(text for each in own for text in each.missing))


def _of_paper(paper: Paper, standing: Sequence[Standing]) -> list[Standing]:
    return [s for s in standing if s.person == paper.person and s.module == paper.module]


def may_today(curriculum: Curriculum, paper: Paper, standing: Sequence[Standing]) -> str:
    """What the person may do today: never more than the whole record says, paper or no paper."""
    module, said = curriculum.modules[paper.module], words(curriculum.shop.language)["slip"]
    cleared = [each for each in _of_paper(paper, standing) if each.cleared]
    if not cleared:
        return module.may_not_yet
    rigs = [found.name for each in cleared if (found := curriculum.shop.rig(each.rig))]
    on = said["cleared"].format(rigs=", ".join(rigs))
    return f"{module.may_passed} {on}" if rigs else module.may_passed


def slip_of(curriculum: Curriculum, result: Result, may: str, lacking: Sequence[str] = ()) -> str:
    """The result slip as HTML: what went wrong, what to read, one fresh problem for each."""
    module = curriculum.modules[result.paper.module]
    missed, language = missed_items(result), curriculum.shop.language
    advice = Advice(
        today=may,
        to_do=lacking,
        made=slips_made(result, language),
        reads=lessons_to_read(module, missed, language),
        fresh=fresh_items(module, result.paper.code, missed),
    )
    return slip_html(curriculum.shop, module, result, advice)


def slips_made(result: Result, language: str = WRITTEN_IN) -> str:
    """`Two slips made three misses.`; "" where no miss has a slip with a name."""
    made: Counter[str] = Counter()
    for item, verdict in zip(result.paper.items, result.verdicts, strict=True):
        names = {slip.id: slip.name for slip in item.slips}
        name = names.get(verdict.slip) or UNNAMED.get(verdict.kind, "")
        if name and not verdict.counts and verdict.kind != "blank":
            made[name] += 1
    if not made:
        return ""
    said = words(language)["slip"]
    slips = said["one_slip"] if len(made) == 1 else _many("many_slips", len(made), language)
    misses = made.total()
    missed = said["one_miss"] if misses == 1 else _many("many_misses", misses, language)
    text = said["slips"].format(slips=slips, misses=missed)
    return text[0].upper() + text[1:]


def _many(name: str, count: int, language: str) -> str:
    number = words(language)["counts"].get(str(count), str(count))
    return words(language)["slip"][name].format(count=number)


def missed_items(result: Result) -> list[Item]:
    """The items that did not count, in printed order."""
    pairs = zip(result.paper.items, result.verdicts, strict=True)
    return [item for item, verdict in pairs if not verdict.counts]


def lessons_to_read(
    module: Module, missed: Sequence[Item], language: str = WRITTEN_IN
) -> list[tuple[str, str]]:
    """The lessons behind the missed items: their titles, and where they stand in the booklet."""
    wanted = {item.lesson for item in missed}
    return [
        (lesson.title, words(language)["slip"]["lesson"].format(number=number))
        for number, lesson in enumerate(module.lessons, 1)
        if lesson.id in wanted
    ]


def fresh_items(module: Module, code: str, missed: Sequence[Item]) -> list[Item]:
    """One practice item for each problem that was missed, with numbers it was not missed with.

    The same ones whenever the slip of that paper is printed.
    """
    problems = {problem.id: problem for problem in module.problems}
    ids = dict.fromkeys(item.id for item in missed if item.id in problems)
    asked = {item.ask for item in missed}
    return [_fresh(problems[name], code, asked) for name in ids]


def _fresh(problem: Problem, code: str, asked: Container[str]) -> Item:
    digest = hashlib.blake2b(f"{code} {problem.id}".encode(), digest_size=4).digest()
    first = FRESH_SEED + int.from_bytes(digest)
    items = (draw_item(problem, first + step) for step in range(_FRESH_TRIES))
    return next((item for item in items if item.ask not in asked), draw_item(problem, first))
