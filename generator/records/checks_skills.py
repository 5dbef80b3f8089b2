"""Checks before an event is entered: modules, lessons, rigs and sign-off sheets."""

from __future__ import annotations

from generator.errors import Refusal, nearest
from generator.model.event import CAUSES
from generator.records.entry import Entry
from generator.records.facts import EVERYTHING

ANSWERS = ("yes", "not yet", "told")
"""What a line of the sign-off sheet may say."""


def known_module(entry: Entry) -> None:
    """The module, if one is named, is in the curriculum."""
    if entry.event.data.get("module", EVERYTHING) != EVERYTHING:
        _ = entry.module


def known_lessons(entry: Entry) -> None:
    """The lessons are of that module."""
    lessons = [lesson.id for lesson in entry.module.lessons]
    for lesson in entry.event.data["lessons"]:
        if lesson not in lessons:
            raise Refusal(
                f'"{lesson}" is not a lesson of {entry.module.title}', nearest(lesson, lessons)
            )


def current_briefing(entry: Entry) -> None:
    """A re-brief is on the edition of today."""
    told = entry.event.data.get("edition", entry.module.edition)
    if entry.event.data.get("rebrief") and told != entry.module.edition:
        raise Refusal(
            f"{entry.module.title} is at edition {entry.module.edition}, not {told}",
            "print the re-brief sheet anew and use that",
        )


def known_rig(entry: Entry) -> None:
    """The shop has that rig."""
    named, rigs = entry.event.data["rig"], [rig.id for rig in entry.curriculum.shop.rigs]
    if named not in rigs:
        raise Refusal(f'"{named}" is not a rig', nearest(named, rigs))


def rig_if_it_matters(entry: Entry) -> None:
    """A rig is named just where skills are seen rig by rig."""
    if entry.module.sign_off.per_rig:
        known_rig(entry)
    elif entry.event.data["rig"]:
        raise Refusal(f"{entry.module.title} is signed off once for all rigs", "leave the rig out")


def whole_sheet(entry: Entry) -> None:
    """Every line of the sheet has an answer, and no other."""
    lines = [line.id for line in entry.module.sign_off.lines]
    given = entry.event.data["lines"]
    for line, answer in given.items():
        if line not in lines:
            raise Refusal(f'"{line}" is not on the sign-off sheet', nearest(line, lines))
        if answer not in ANSWERS:
            raise Refusal(f'"{answer}" is no answer for {line}', f"say {', '.join(ANSWERS)}")
    if left := [line for line in lines if line not in given]:
        raise Refusal(f"nothing is said about: {', '.join(left)}", f"say {', '.join(ANSWERS)}")


def work_that_changed(entry: Entry) -> None:
    """The module is known, a rig is named only where it matters, and the cause is one of three."""
    _, cause = entry.module, entry.event.data["cause"]
    if entry.event.data["rig"]:
        rig_if_it_matters(entry)
    if cause not in CAUSES:
        raise Refusal(f'"{cause}" is no cause', nearest(cause, CAUSES))


def new_edition(entry: Entry) -> None:
    """The edition was not noted before."""
    data = entry.event.data
    if (entry.module.id, data["edition"]) in entry.book.asked:
        raise Refusal(
            f"edition {data['edition']} of {entry.module.title} is noted already",
            "there is nothing to note",
        )
