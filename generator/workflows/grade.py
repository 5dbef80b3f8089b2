"""Marking: a paper's answers in, verdicts, a result slip and a "marked" event out."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from generator.errors import Refusal
from generator.items.build import draw_item
from generator.marking import result as marking
from generator.model.course import Curriculum, Module
from generator.model.item import Item
from generator.model.paper import Paper, Result
from generator.model.standing import Standing
from generator.papers.codes import read_code
from generator.printing.pdf import Printed, Printer
from generator.printing.slip import slip_html
from generator.reading.curriculum import read_curriculum
from generator.records import crew
from generator.records.papers_kept import find_paper, is_marked, result_to_data
from generator.records.standing import standings
from generator.words import WRITTEN_IN, words
from generator.workflows.place import Place
from generator.workflows.record import enter, event, history
from generator.workflows.today import today

FRESH_SEED = 3_000_000


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
    code, past = read_code(typed), history(place.records)
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
) -> Marked:
    """Record a result, then print its slip. Raises Refusal, nothing recorded."""
    paper = result.paper
    data = result_to_data(result, "answers")
    enter(place, curriculum, [event("marked", paper.person, seen=seen, by=by, **data)])
    standing = standings(history(place.records), curriculum, today())
    may = may_today(curriculum, result.paper, standing)
    slip = None
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
        _fresh(module, missed),
        may,
    )


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


def _fresh(module: Module, missed: Sequence[Item]) -> list[Item]:
    """One new practice item for each problem that was missed."""
    problems = {problem.id: problem for problem in module.problems}
    ids = dict.fromkeys(item.id for item in missed if item.id in problems)
    return [draw_item(problems[name], FRESH_SEED) for name in ids]
