"""Marking: a paper's answers in, verdicts, a result slip and a "marked" event out."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import cache, partial

from generator.errors import Refusal
from generator.marking import result as marking
from generator.model.course import Curriculum
from generator.model.event import Event
from generator.model.paper import Paper, Result
from generator.model.standing import Standing
from generator.papers.codes import read_code
from generator.printing.pdf import Printed, Printer
from generator.reading.curriculum import read_curriculum
from generator.records import crew
from generator.records.about import about_papers
from generator.records.papers_kept import find_paper, mark_of, result_to_data, void_first
from generator.words import language_name, words
from generator.workflows.place import Place
from generator.workflows.record import enter, event, history, standing_of
from generator.workflows.slip import may_today, print_slip, to_do


@dataclass(frozen=True)
class Graded:
    """A result to be recorded: `how` it was marked, the day it was sat as typed, help given."""

    result: Result
    how: str = "answers"
    seen: str | None = None
    help_given: str = ""


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
    if marked := mark_of(past, code):
        raise Refusal(
            f"paper {code} has been marked already, for {marked.person}",
            void_first(marked),
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


def help_in_words(read_aloud: bool, language: str) -> str:
    """Help at a sitting, in the words of the record; "" for none.

    >>> help_in_words(True, "es"), help_in_words(False, "Polish")
    ('read aloud in Spanish', 'put into Polish')
    """
    named = language_name(language.strip())
    if read_aloud:
        return f"read aloud in {named}" if named else "read aloud"
    return f"put into {named}" if named else ""


def keep(
    place: Place, curriculum: Curriculum, graded: Graded, by: str, printer: Printer | None
) -> Marked:
    """Record a result, then print its slip. Raises Refusal, nothing recorded."""
    return keep_all(place, curriculum, [graded], by, printer)[0]


def keep_all(
    place: Place,
    curriculum: Curriculum,
    graded: Sequence[Graded],
    by: str,
    printer: Printer | None,
) -> list[Marked]:
    """Record results, all or none, then print their slips. Raises Refusal, nothing recorded."""
    enter(place, curriculum, [_marked_event(each, by) for each in graded])
    people = [each.result.paper.person for each in graded]
    told_in = cache(partial(_told_in, place, curriculum, people))  # each language is read once
    done: list[Marked] = []
    for result in (each.result for each in graded):
        paper, slip = result.paper, None
        if printer:
            slip = print_slip(*told_in(paper.language), result, place.out, printer)
        may = _today(*told_in(curriculum.shop.language), paper)
        done.append(Marked(result, paper.person, slip, may))
    return done


def _marked_event(graded: Graded, by: str) -> Event:
    result = graded.result
    data = result_to_data(result, graded.how, graded.help_given)
    return event("marked", result.paper.person, seen=graded.seen, by=by, **data)


def _told_in(
    place: Place, curriculum: Curriculum, people: Sequence[str], language: str
) -> tuple[Curriculum, tuple[Standing, ...]]:
    """The curriculum in a language, and in its words where these people stand today."""
    if language != curriculum.shop.language:
        curriculum = read_curriculum(place.curriculum, language)
    return curriculum, standing_of(place, curriculum, people, language)


def _today(curriculum: Curriculum, standing: Sequence[Standing], paper: Paper) -> str:
    """What the person may do today, and what he still lacks."""
    may = may_today(curriculum, paper, standing)
    if things := to_do(paper, standing):
        said = words(curriculum.shop.language)["slip"]["to_do"]
        may = f"{may} {said} {'; '.join(things)}."
    return may
