"""The result slip: what was right, what went wrong, what to read, what one may do today."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from generator.model.course import Module
from generator.model.item import Item
from generator.model.paper import Result, Verdict
from generator.model.shop import Shop
from generator.printing.answers import key_text
from generator.printing.environment import render


@dataclass(frozen=True)
class Missed:
    """An item that did not count: what was written and what to tell the person."""

    position: int
    written: str
    tell: str
    must: bool
    by_eye: bool = False  # nobody typed in what was written


@dataclass(frozen=True)
class Advice:
    """What a slip says beside the score; of what is "" or empty, nothing.

    `today` is what the person may and may not do now: without it the slip says what anyone may who
    has not passed.
    """

    today: str = ""
    to_do: Sequence[str] = ()  # what is missing for the whole work
    made: str = ""  # how many slips made how many of the misses
    reads: Sequence[tuple[str, str]] = ()  # lessons: title, and where it stands
    fresh: Sequence[Item] = ()  # to try


def slip_html(shop: Shop, module: Module, result: Result, advice: Advice) -> str:
    """The slip as HTML, the upper half of a page; fresh items to try stand below the fold.

    Their working stands on a page of its own.
    """
    missed = [
        Missed(v.position, v.written, v.tell, v.position in result.must_missed, _unread(v))
        for v in result.verdicts
        if not v.counts
    ]
    return render(
        "slip.html",
        shop,
        module=module,
        result=result,
        missed=missed,
        advice=advice,
        today=advice.today or module.may_not_yet,
        key_text=key_text,
        language=result.paper.language,
    )


def _unread(verdict: Verdict) -> bool:
    return not verdict.written and verdict.kind != "blank"
