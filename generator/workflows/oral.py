"""The oral re-check of a missed must-get: two fresh items, asked aloud by another trainer."""

from __future__ import annotations

import hashlib

from generator.errors import Refusal, nearest
from generator.items.build import draw_item, question_item
from generator.model.course import Curriculum
from generator.model.event import Event
from generator.model.item import Item
from generator.papers.codes import read_code
from generator.records.checks_people import judges
from generator.records.entry import Entry
from generator.records.facts import folded
from generator.records.papers_kept import find_result
from generator.workflows.place import Place
from generator.workflows.record import event, history

IN_A_ROW = 2
"""Fresh items asked, and right in a row to put the must-get right."""


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
    result = find_result(past, code)
    if result is None:
        raise Refusal(f"paper {code} has not been marked", "mark it first: rigprimer grade")
    marked = next(e for e in reversed(past) if e.kind == "marked" and e.data["paper"] == code)
    data = {
        "paper": code,
        "item": item,
        "module": result.paper.module,
        "right_in_a_row": right_in_a_row,
        "fresh": list(fresh_seeds(code, item)),
    }
    asked = event("oral", marked.person, seen=seen, by=by, **data)
    if folded(by) == folded(marked.by):
        others = judges(Entry(asked, past, curriculum))
        if all(folded(name) == folded(by) for name in others):
            return event("oral", marked.person, seen=seen, by=by, **data, alone=True)
    return asked


def fresh_items(curriculum: Curriculum, typed: str, item: str) -> list[Item]:
    """The two items to ask: other numbers, or the options in another order."""
    return [_item(curriculum, item, seed) for seed in fresh_seeds(read_code(typed), item)]


def fresh_seeds(code: str, item: str) -> tuple[int, ...]:
    """The seeds of the two items: the same ones for a paper whenever they are asked for."""
    digest = hashlib.blake2b(f"{code} {item}".encode(), digest_size=4).digest()
    first = 4_000_000 + int.from_bytes(digest)
    return tuple(range(first, first + IN_A_ROW))


def _item(curriculum: Curriculum, item: str, seed: int) -> Item:
    problem = curriculum.problem(item)
    if problem:
        return draw_item(problem, seed)
    questions = {q.id: q for module in curriculum.modules.values() for q in module.questions}
    if item not in questions:
        raise Refusal(f'there is no item "{item}"', nearest(item, questions))
    return question_item(questions[item], seed)
