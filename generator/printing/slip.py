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


def slip_html(
    shop: Shop,
    module: Module,
    result: Result,
    person_line: str,
    reads: Sequence[tuple[str, str]],
    fresh: Sequence[Item],
    today: str = "",
    to_do: Sequence[str] = (),
    made: str = "",
) -> str:
    """The slip as HTML, the upper half of a page; `fresh` items to try stand below the fold.

    `reads` are (title of a lesson, where it stands); `today` is what the person may and may not
    do now: without it the slip says what anyone may who has not passed. `to_do` is what is missing
    for the whole work. `made` says how many slips
    made how many of the misses. The working of the fresh items stands on a page of its own.
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
        person_line=person_line,
        missed=missed,
        reads=reads,
        fresh=fresh,
        made=made,
        today=today or module.may_not_yet,
        to_do=to_do,
        key_text=key_text,
        language=result.paper.language,
    )


def _unread(verdict: Verdict) -> bool:
    return not verdict.written and verdict.kind != "blank"
