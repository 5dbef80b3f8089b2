"""Marking: a paper's answers in, verdicts, a result slip and a "marked" event out."""

from __future__ import annotations

import hashlib
from collections import Counter
from collections.abc import Container, Sequence
from dataclasses import dataclass, replace

from generator.errors import Refusal
from generator.items.build import draw_item
from generator.marking import result as marking
from generator.model.course import Curriculum, Module
from generator.model.item import Item
from generator.model.paper import Paper, Result
from generator.model.problem import Problem
from generator.model.standing import Standing
from generator.papers.codes import read_code
from generator.printing.pdf import Printed, Printer
from generator.printing.slip import slip_html
from generator.reading.curriculum import read_curriculum
from generator.records import crew
from generator.records.about import about_papers
from generator.records.papers_kept import find_paper, is_marked, result_to_data
from generator.records.sittings import UNNAMED
from generator.words import WRITTEN_IN, words
from generator.workflows.place import Place
from generator.workflows.record import enter, event, history, standing_of

FRESH_SEED = 3_000_000
_FRESH_TRIES = 20


@dataclass(frozen=True)
class Marked:
    """A recorded result and its slip."""

    result: Result
    person: str
    slip: Printed | None
    today: str  # what the person may and may not do now


def paper_to_mark(place: Place, typed: str, person: str | None) -> Paper:
    """The printed paper of a code, with its name settled. Raises Refusal."""
    place.require_own()
    code = read_code(typed)
    past = history(place.records, about_papers([code]))
    paper = find_paper(past, code)
    if paper is None:
        raise Refusal(
            f"no paper {code} was printed from this record", "read the code on the paper again"
        )
    if is_marked(past, code):
        raise Refusal(
            f"paper {code} has been marked already", "void that mark first: rigprimer void"
        )
    name = crew.find(past, person) if person else paper.person
    if not name:
        raise Refusal(f"paper {code} was printed without a name", "say whose it is with --for")
    if paper.person and name != paper.person:
        raise Refusal(f"paper {code} is {paper.person}'s", f"mark it for {paper.person}")
    return replace(paper, person=name)


def mark(paper: Paper, written: Sequence[str], decisions: dict[int, bool]) -> Result:
    """The result, the trainer's decisions put in. Raises Refusal while any is open."""
    result = marking.mark(paper, written)
    for position, counts in decisions.items():
        result = marking.decide(result, position, counts)
    if open_ones := marking.waiting(result):
        texts = ", ".join(f'item {n} "{written[n - 1]}"' for n in open_ones)
        raise Refusal(
            f"can't be read for certain: {texts}",
            "look at the paper and decide: --right N or --wrong N for each",
        )
    return result


def keep(
    place: Place,
    curriculum: Curriculum,
    result: Result,
    by: str,
    seen: str | None,
    printer: Printer | None,
    how: str = "answers",
) -> Marked:
    """Record a result, then print its slip. Raises Refusal, nothing recorded."""
    return keep_all(place, curriculum, [Sheet(result, how, seen)], by, printer)[0]


@dataclass(frozen=True)
class Sheet:
    """A result to be recorded: `how` it was marked, the day it was sat as typed."""

    result: Result
    how: str
    seen: str | None


def keep_all(
    place: Place,
    curriculum: Curriculum,
    sheets: Sequence[Sheet],
    by: str,
    printer: Printer | None,
) -> list[Marked]:
    """Record results, all or none, then print their slips. Raises Refusal, nothing recorded."""
    marks = [
        event(
            "marked",
            sheet.result.paper.person,
            seen=sheet.seen,
            by=by,
            **result_to_data(sheet.result, sheet.how),
        )
        for sheet in sheets
    ]
    enter(place, curriculum, marks)
    standing = standing_of(place, curriculum, [sheet.result.paper.person for sheet in sheets])
    return [_slip(place, curriculum, sheet.result, standing, printer) for sheet in sheets]


def _slip(
    place: Place,
    curriculum: Curriculum,
    result: Result,
    standing: Sequence[Standing],
    printer: Printer | None,
) -> Marked:
    paper, slip = result.paper, None
    may = may_today(curriculum, paper, standing)
    if printer:
        own = _in_language(place, curriculum, paper.language)
        html = slip_of(own, result, may_today(own, paper, standing))
        slip = printer.write(html, place.out / "slips" / f"{paper.module}-{paper.code}-slip.pdf")
    return Marked(result, paper.person, slip, may)


def _in_language(place: Place, curriculum: Curriculum, language: str) -> Curriculum:
    """The curriculum in the language a paper was printed in."""
    if language == curriculum.shop.language:
        return curriculum
    return read_curriculum(place.curriculum, language)


def may_today(curriculum: Curriculum, paper: Paper, standing: Sequence[Standing]) -> str:
    """What the person may do today: never more than the whole record says, paper or no paper."""
    module, said = curriculum.modules[paper.module], words(curriculum.shop.language)["slip"]
    own = [s for s in standing if s.person == paper.person and s.module == module.id]
    cleared = [s for s in own if s.cleared]
    if cleared:
        rigs = [found.name for s in cleared if (found := curriculum.shop.rig(s.rig))]
        on = said["cleared"].format(rigs=", ".join(rigs))
        return f"{module.may_passed} {on}" if rigs else module.may_passed
    missing = dict.fromkeys(text for s in own for text in s.missing)
    return f"{module.may_not_yet} {said['to_do'].format(things='; '.join(missing))}"


def slip_of(curriculum: Curriculum, result: Result, may: str) -> str:
    """The result slip as HTML: what went wrong, what to read, one fresh problem for each."""
    module = curriculum.modules[result.paper.module]
    missed = missed_items(result)
    return slip_html(
        curriculum.shop,
        module,
        result,
        result.paper.person,
        lessons_to_read(module, missed, curriculum.shop.language),
        fresh_items(module, result.paper.code, missed),
        may,
        slips_made(result, curriculum.shop.language),
    )


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
