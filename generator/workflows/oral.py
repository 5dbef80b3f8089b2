"""The oral re-check of a missed must-get, asked aloud by another trainer on the same day."""

from __future__ import annotations

from generator.errors import Refusal
from generator.model.event import Event
from generator.papers.codes import read_code
from generator.records.papers_kept import find_result
from generator.workflows.place import Place
from generator.workflows.record import event, history


def oral_event(
    place: Place, typed: str, item: str, by: str, right_in_a_row: int, seen: str | None
) -> Event:
    """The event of an oral re-check. Raises Refusal when the paper was never marked."""
    code, past = read_code(typed), history(place.records)
    result = find_result(past, code)
    if result is None:
        raise Refusal(f"paper {code} has not been marked", "mark it first: rigprimer grade")
    marked = next(e for e in reversed(past) if e.data.get("paper") == code)
    return event(
        "oral",
        marked.person,
        seen=seen,
        by=by,
        paper=code,
        item=item,
        module=result.paper.module,
        right_in_a_row=right_in_a_row,
    )
