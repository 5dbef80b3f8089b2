"""Papers and results as they are kept in the record, and found again there.

A paper is kept whole in its "issued" event, so that it is marked by what was printed.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from generator.errors import Refusal
from generator.model.event import Event
from generator.model.paper import Paper, Result, Verdict
from generator.records.gather import live
from generator.records.kept import plain, rebuilt

HOW = ("answers", "by eye")
"""How a paper was marked: its answers typed in, or ticked against the key."""


def paper_to_data(paper: Paper) -> dict[str, Any]:
    """The whole paper as plain data; fractions become "p/q"."""
    data: dict[str, Any] = plain(paper)
    return data


def paper_from_data(data: dict[str, Any]) -> Paper:
    """The paper as it was printed. Raises Refusal when the data is none."""
    return rebuilt(Paper, data)


def result_to_data(result: Result, how: str, help_given: str = "") -> dict[str, Any]:
    """The data of a "marked" event; the paper itself is named by its code only.

    `help_given` says in words what help there was at the sitting, such as "read aloud".
    """
    if how not in HOW:
        raise ValueError(how)
    return {
        "paper": result.paper.code,
        "verdicts": plain(result.verdicts),
        "right": result.right,
        "items": len(result.paper.items),
        "cut": result.paper.cut,
        "must_missed": list(result.must_missed),
        "passed": result.passed,
        "practice": result.paper.practice,
        "how": how,
        **({"help": help_given} if help_given else {}),
    }


def result_from_data(data: dict[str, Any], paper: Paper) -> Result:
    """The result of `paper`, from the data of its "marked" event. Raises Refusal if it is not."""
    if data.get("paper") != paper.code:
        raise Refusal(f"the result is not of paper {paper.code}", "look up the right paper")
    verdicts = tuple(rebuilt(Verdict, each) for each in data["verdicts"])
    return Result(paper, verdicts, tuple(data["must_missed"]), data["passed"])


def find_paper(events: Sequence[Event], code: str) -> Paper | None:
    """The paper issued under that code, unless it was voided or never was."""
    return next(
        (
            paper_from_data(event.data["paper"])
            for event in live(events)
            if event.kind == "issued" and event.data["paper"]["code"] == code
        ),
        None,
    )


def find_result(events: Sequence[Event], code: str) -> Result | None:
    """The result of the paper of that code, the last one if it was marked anew."""
    paper, marked = find_paper(events, code), mark_of(events, code)
    return result_from_data(marked.data, paper) if paper and marked else None


def mark_of(events: Sequence[Event], code: str) -> Event | None:
    """The event that marked the paper of that code, the last of several; a voided one is none."""
    marks = (event for event in reversed(live(events)) if event.kind == "marked")
    return next((event for event in marks if event.data["paper"] == code), None)


def void_first(mark: Event) -> str:
    """What to do where a paper has that mark already."""
    return f"if that was wrong, void it first: rigprimer void {mark.number} --by NAME --why WHY"


def codes_used(events: Sequence[Event]) -> frozenset[str]:
    """Every code ever printed, voided papers included: none may be used twice."""
    return frozenset(event.data["paper"]["code"] for event in events if event.kind == "issued")
