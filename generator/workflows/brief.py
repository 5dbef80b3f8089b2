"""The re-brief: what an edition changed, three questions of the changed lessons, a signature."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import chain, zip_longest

from generator.errors import Refusal
from generator.items.build import question_item
from generator.model.course import Change, Curriculum, Module, Question
from generator.model.event import Event
from generator.model.item import Item
from generator.records.standing import standings

QUESTIONS = 3


def change_of(module: Module) -> Change:
    """What the module's edition changed. Raises Refusal while the owner has not said it."""
    if module.changed is None:
        raise Refusal(
            f"{module.title} does not say what its edition {module.edition} changed",
            "write changed: in its module.yaml: edition, what (a list), lessons (their names)",
        )
    if module.changed.edition != module.edition:
        raise Refusal(
            f"changed: of {module.title} is about edition {module.changed.edition}, now it is "
            f"edition {module.edition}",
            "write in module.yaml what this edition changed",
        )
    return module.changed


def to_brief(
    curriculum: Curriculum, events: Sequence[Event], module: Module, day: str
) -> list[str]:
    """Those who stand under an older edition on that day (ISO), in the order they joined."""
    asked = f"re-briefed on edition {module.edition}"
    return list(
        dict.fromkeys(
            each.person
            for each in standings(events, curriculum, day)
            if each.module == module.id
            and each.state in ("re-brief", "lapsed")
            and any(asked in words for words in each.missing)
        )
    )


def questions_of(module: Module, change: Change) -> list[Item]:
    """Up to three questions of the changed lessons, must-gets first, a lesson each in turn.

    The options stand in the same order on every copy, so that one key serves.
    """
    lessons = [lesson for lesson in module.lessons if lesson.id in change.lessons]
    columns = [sorted(lesson.questions, key=lambda q: not q.must) for lesson in lessons]
    chosen = [q for q in chain.from_iterable(zip_longest(*columns)) if q][:QUESTIONS]
    return [question_item(question, seed) for seed, question in enumerate(_checked(module, chosen))]


def _checked(module: Module, chosen: Sequence[Question]) -> Sequence[Question]:
    if not chosen:
        raise Refusal(
            f"the changed lessons of {module.title} have no questions",
            "write one in a changed lesson, or name another lesson in changed:",
        )
    return chosen
