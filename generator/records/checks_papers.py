"""Checks before an event is entered: papers, tries, marks and what was asked aloud."""

from __future__ import annotations

from generator.errors import Refusal
from generator.records.checks_people import by_trainer, judges, on_crew
from generator.records.entry import Entry
from generator.records.facts import Mark, folded
from generator.records.papers_kept import mark_of, void_first
from generator.records.tries import allows_exceptions, check_try


def new_code(entry: Entry) -> None:
    """The code was never printed before, not even on a voided paper."""
    code = entry.paper["code"]
    issued = [event for event in entry.history if event.kind == "issued"]
    if any(event.data["paper"]["code"] == code for event in issued):
        raise Refusal(f"the code {code} was used before", "print the paper again for a new code")


def named_person(entry: Entry) -> None:
    """A paper printed for someone: on the crew, and a try open if it counts."""
    if folded(entry.event.person) != folded(entry.paper["person"]):
        raise Refusal("the paper names somebody else", "print the paper again")
    if entry.event.person:
        on_crew(entry)
        try_open(entry)


def not_marked(entry: Entry) -> None:
    """The paper has no mark yet, or only a voided one."""
    code = entry.event.data["paper"]
    if mark := mark_of(entry.history, code):
        raise Refusal(
            f"paper {code} was marked on {mark.entered}, for {mark.person}", void_first(mark)
        )


def own_paper(entry: Entry) -> None:
    """The paper was printed for this person, or for nobody yet."""
    owner = entry.paper["person"]
    if owner and folded(owner) != folded(entry.event.person):
        raise Refusal(
            f"paper {entry.paper['code']} was printed for {owner}, not {entry.who.name}",
            "look at the name on the paper; use a spare paper for someone else",
        )


def printed_by_then(entry: Entry) -> None:
    """The paper was there on the day it was sat: else days between tries would mean nothing."""
    code, printed = entry.paper["code"], entry.paper["printed"]
    if entry.event.seen < printed:
        raise Refusal(
            f"paper {code} was printed on {printed}, after that day", "give the day it was sat"
        )


def current_paper(entry: Entry) -> None:
    """The paper is of the module's edition of today."""
    edition, now = entry.paper["edition"], entry.module.edition
    if edition != now:
        raise Refusal(
            f"paper {entry.paper['code']} is of edition {edition}, now it is edition {now}",
            "throw it away and print a new one",
        )


def adds_up(entry: Entry) -> None:
    """The result is one that this paper can have."""
    data, paper = entry.event.data, entry.paper
    must = {place for place, item in enumerate(paper["items"], start=1) if item["must"]}
    passed = data["right"] >= data["cut"] and not data["must_missed"]
    if (
        (data["items"], data["cut"]) != (len(paper["items"]), paper["cut"])
        or not 0 <= data["right"] <= data["items"] - len(data["must_missed"])
        or not must.issuperset(data["must_missed"])
        or (data["passed"], data["practice"]) != (passed, paper["practice"])
    ):
        raise Refusal(f"the result does not fit paper {paper['code']}", "mark the paper again")


def back_after_a_pass(entry: Entry) -> None:
    """A return paper is for someone who passed a full one before."""
    if entry.paper.get("back") and not entry.paper["practice"] and entry.event.person:
        counted = entry.who.counted(entry.module.id)
        if not any(entry.who.passes(mark) for mark in counted if not mark.back):
            raise Refusal(
                f"{entry.who.name} never passed a full paper in {entry.module.title}",
                "print a full paper; the return paper is for those who passed before",
            )


def try_open(entry: Entry) -> None:
    """A counted paper may be sat on that day."""
    if not entry.paper["practice"]:
        check_try(entry.who, entry.module, entry.event.seen, entry.history)


def marker(entry: Entry) -> None:
    """Counted papers are marked by a trainer; practice by anyone."""
    if not entry.paper["practice"]:
        by_trainer(entry)


def exception_allowed(entry: Entry) -> None:
    """The module lets the owner open a try early."""
    if entry.event.data.get("allow") == "try" and not allows_exceptions(entry.module):
        raise Refusal(
            f"{entry.module.title} allows no exception",
            f'wait for the next try: rigprimer paper {entry.module.id} --for "{entry.who.name}"'
            " says from which day it may be",
        )


def missed_here(entry: Entry) -> None:
    """The item asked aloud was missed on a paper that another trainer marked."""
    data, who = entry.event.data, entry.who
    mark = who.marks.get(data["paper"])
    if mark is None or data["item"] not in mark.missed:
        raise Refusal(
            f"{who.name} missed no must-get {data['item']} on paper {data['paper']}",
            "look at the result slip for the paper and the item",
        )
    if entry.event.seen < mark.event.seen:
        raise Refusal(
            f"the paper was sat on {mark.event.seen}, after that day", "give the day it was asked"
        )
    if who.heard(mark, data["item"]):
        raise Refusal(f"{who.name} was asked this aloud already", "teach it and use a new paper")
    _asked_by_another(entry, mark)


def _asked_by_another(entry: Entry, mark: Mark) -> None:
    """Not the trainer who marked the paper, as long as the shop has another who may judge."""
    marker = folded(mark.event.by)
    others = [name for name in judges(entry) if folded(name) != marker]
    alone = bool(entry.event.data.get("alone"))
    if folded(entry.event.by) == marker and (others or not alone):
        who = " or ".join(others) or "another trainer"
        raise Refusal(f"{entry.event.by} marked this paper", f"let {who} ask, with fresh items")
    if alone and others:
        raise Refusal(
            f"the shop has another trainer for this: {', '.join(others)}",
            "enter it without saying that there is one only",
        )
