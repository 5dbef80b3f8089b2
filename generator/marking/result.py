"""A whole paper: what counts, which must-gets were missed, whether it is passed."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from generator.errors import Refusal
from generator.marking.finding import told
from generator.marking.judge import judge
from generator.model.paper import Paper, Result, Verdict


def mark(paper: Paper, written: Sequence[str]) -> Result:
    """The result of `paper` with one written answer an item, in printed order.

    Raises Refusal unless there are as many answers as items.
    """
    if len(written) != len(paper.items):
        raise Refusal(
            f"{len(written)} answers for the {len(paper.items)} items of paper {paper.code}",
            "give one answer for each item, an empty one where nothing was written",
        )
    pairs = enumerate(zip(paper.items, written, strict=True), start=1)
    language = paper.language
    return result_of(paper, tuple(judge(item, n, text, language) for n, (item, text) in pairs))


def decide(result: Result, position: int, counts: bool) -> Result:
    """The result once the trainer has decided an answer that could not be read.

    Raises Refusal for a position that is not on the paper or needs no decision.
    """
    if position not in waiting(result):
        raise Refusal(f"item {position} needs no decision", _where_to_decide(result))
    verdict = result.verdicts[position - 1]
    tell = told(result.paper.language, "decided_right" if counts else "decided_wrong")
    decided = replace(verdict, kind="right" if counts else "wrong", counts=counts, tell=tell)
    return result_of(result.paper, tuple(decided if v is verdict else v for v in result.verdicts))


def waiting(result: Result) -> tuple[int, ...]:
    """The positions of the answers the trainer has still to decide."""
    return tuple(v.position for v in result.verdicts if v.kind == "ask-trainer")


def _where_to_decide(result: Result) -> str:
    places = ", ".join(map(str, waiting(result)))
    return f"decide one of: {places}" if places else "every answer of this paper is decided"


def result_of(paper: Paper, verdicts: tuple[Verdict, ...]) -> Result:
    """The verdicts summed up; an answer not yet decided does not count."""
    pairs = zip(paper.items, verdicts, strict=True)
    missed = tuple(verdict.position for item, verdict in pairs if item.must and not verdict.counts)
    result = Result(paper, verdicts, missed, passed=False)
    return replace(result, passed=result.right >= paper.cut and not missed)
