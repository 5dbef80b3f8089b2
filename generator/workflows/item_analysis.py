"""For who asks for everything: intervals, seasons apart, how well items tell people apart."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from math import ceil, floor
from typing import Any

from generator.model.tally import Tally
from generator.papers.analysis import kr20, kr21, mean, point_biserial, variance, wilson
from generator.records.sittings import Sitting
from generator.workflows.stats import first_tries


@dataclass(frozen=True)
class Agreement:
    """How far the first tries of a module agree with themselves; None where it can't be said.

    Papers are drawn, so `kr20` is over the `shared` items that every one of them has, while
    `kr21` needs the scores only.
    """

    papers: int
    shared: int
    kr20: float | None
    kr21: float | None
    items: dict[str, float | None]  # id: right on it, against the rest of the same paper


def agreement(papers: Sequence[Sitting]) -> Agreement:
    """The agreement of one module's first tries that were marked item by item."""
    tries = first_tries(papers)
    rights = [{shown.id: shown.right for shown in each.shown} for each in tries]
    shared = sorted(set.intersection(*(set(right) for right in rights))) if rights else []
    length, scores = _of_one_length(tries)
    return Agreement(
        papers=len(tries),
        shared=len(shared),
        kr20=kr20([[int(right[id]) for id in shared] for right in rights]),
        kr21=kr21(length, mean(scores), variance(scores)),
        items={id: _against_rest(rights, id) for id in sorted({i for r in rights for i in r})},
    )


def right_interval(missed: Tally) -> tuple[int, int]:
    """The Wilson interval of the share right, in percents widened to whole ones."""
    low, high = wilson(missed.main.rest.count, missed.main.of)
    return floor(low * 100), ceil(high * 100)


def as_data(each: Agreement) -> dict[str, Any]:
    """An agreement as plain data for --json."""
    return {
        "papers": each.papers,
        "shared_items": each.shared,
        "kr20": each.kr20,
        "kr21": each.kr21,
        "point_biserial": each.items,
    }


def _of_one_length(tries: Sequence[Sitting]) -> tuple[int, list[int]]:
    """The commonest length of a paper, and the scores of the papers that long."""
    lengths = Counter(each.items for each in tries).most_common(1)
    length = lengths[0][0] if lengths else 0
    return length, [each.right for each in tries if each.items == length]


def _against_rest(rights: Sequence[dict[str, bool]], id: str) -> float | None:
    """The point-biserial correlation of one item with the share right of all others."""
    asked = [right for right in rights if id in right and len(right) > 1]
    rest = [(sum(right.values()) - right[id]) / (len(right) - 1) for right in asked]
    return point_biserial([int(right[id]) for right in asked], rest)
