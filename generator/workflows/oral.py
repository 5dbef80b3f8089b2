"""The oral re-check of a missed must-get: two fresh items, asked aloud by another trainer."""

from __future__ import annotations

import hashlib

from generator.errors import Refusal, nearest
from generator.items.build import draw_item, question_item
from generator.model.course import Curriculum
from generator.model.event import Event
from generator.model.item import Item
from generator.model.paper import IN_A_ROW
from generator.papers.codes import read_code
from generator.records.checks_people import judges
from generator.records.entry import Entry
from generator.records.facts import folded
from generator.records.papers_kept import find_paper, mark_of
from generator.workflows.place import Place
from generator.workflows.record import event, history

_DRAWS = 50
"""Items drawn at most, to find some that are unlike."""


def oral_event(
    place: Place,
    curriculum: Curriculum,
    typed: str,
    item: str,
    by: str,
    right_in_a_row: int,
    seen: str | None,
) -> Event:
    """The event of an oral re-check. Raises Refusal when the paper was never marked.

    Where the trainer who marked the paper asks, and the shop has no other, it says so.
    """
    code, past = read_code(typed), history(place.records)
    paper, marked = find_paper(past, code), mark_of(past, code)
    if paper is None or marked is None:
        raise Refusal(f"paper {code} has not been marked", "mark it first: rigprimer grade")
    data = {
        "paper": code,
        "item": item,
        "module": paper.module,
        "right_in_a_row": right_in_a_row,
        "fresh": [each.seed for each in fresh_items(curriculum, code, item)],
    }
    asked = event("oral", marked.person, seen=seen, by=by, **data)
    if folded(by) == folded(marked.by):
        others = judges(Entry(asked, past, curriculum))
        if all(folded(name) == folded(by) for name in others):
            return asked._replace(data={**asked.data, "alone": True})
    return asked


def fresh_items(curriculum: Curriculum, typed: str, item: str) -> list[Item]:
    """The two items to ask: other numbers, or the options in another order, with another letter
    right, so that the answer to the first is none to the second.

    The same ones for a paper whenever they are asked for.
    """
    digest = hashlib.blake2b(f"{read_code(typed)} {item}".encode(), digest_size=4).digest()
    first = 4_000_000 + int.from_bytes(digest)
    found: dict[tuple[str, str], Item] = {}
    for seed in range(first, first + _DRAWS):
        each = _item(curriculum, item, seed)
        found.setdefault((each.ask, each.answer.text), each)
        if len(found) == IN_A_ROW:
            break
    return [*found.values()]


def _item(curriculum: Curriculum, item: str, seed: int) -> Item:
    problem = curriculum.problem(item)
    if problem:
        return draw_item(problem, seed)
    questions = {q.id: q for module in curriculum.modules.values() for q in module.questions}
    if item not in questions:
        raise Refusal(f'there is no item "{item}"', nearest(item, questions))
    return question_item(questions[item], seed)
