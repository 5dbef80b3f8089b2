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
    help_given: str = "",
) -> Marked:
    """Record a result, then print its slip. Raises Refusal, nothing recorded."""
    return keep_all(place, curriculum, [Sheet(result, how, seen, help_given)], by, printer)[0]


@dataclass(frozen=True)
class Sheet:
    """A result to be recorded: `how` it was marked, the day it was sat as typed, help given."""

    result: Result
    how: str
    seen: str | None
    help_given: str = ""


def help_in_words(read_aloud: bool, language: str) -> str:
    """Help at a sitting, in the words of the record; "" for none.

    >>> help_in_words(True, "es"), help_in_words(False, "Polish")
    ('read aloud in Spanish', 'put into Polish')
    """
    named = words(WRITTEN_IN)["languages"].get(language.strip().lower(), language.strip())
    if read_aloud:
        return f"read aloud in {named}" if named else "read aloud"
    return f"put into {named}" if named else ""


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
            **result_to_data(sheet.result, sheet.how, sheet.help_given),
        )
        for sheet in sheets
    ]
    enter(place, curriculum, marks)
    people = [sheet.result.paper.person for sheet in sheets]
    standing = standing_of(place, curriculum, people, curriculum.shop.language)
    return [_slip(place, curriculum, sheet.result, standing, printer) for sheet in sheets]


def _slip(
    place: Place,
    curriculum: Curriculum,
    result: Result,
    standing: Sequence[Standing],
    printer: Printer | None,
) -> Marked:
    paper, slip = result.paper, None
    if printer:
        own, stands = curriculum, standing
        if paper.language != curriculum.shop.language:
            own = read_curriculum(place.curriculum, paper.language)
            stands = standing_of(place, own, [paper.person], paper.language)
        html = slip_of(own, result, may_today(own, paper, stands), to_do(paper, stands))
        slip = printer.write(html, place.out / "slips" / f"{paper.module}-{paper.code}-slip.pdf")
    may = may_today(curriculum, paper, standing)
    if things := to_do(paper, standing):
        said = words(curriculum.shop.language)["slip"]["to_do"]
        may = f"{may} {said} {'; '.join(things)}."
    return Marked(result, paper.person, slip, may)


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
    missed = missed_items(result)
    return slip_html(
        curriculum.shop,
        module,
        result,
        result.paper.person,
        lessons_to_read(module, missed, curriculum.shop.language),
        fresh_items(module, result.paper.code, missed),
        today=may,
        to_do=lacking,
        made=slips_made(result, curriculum.shop.language),
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
