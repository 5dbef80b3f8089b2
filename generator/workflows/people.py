"""What is noted about people: joining, teaching, data sheets, sign-offs, and what voids them."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from generator.errors import Refusal, nearest
from generator.model.course import Curriculum, Module
from generator.model.event import Event
from generator.workflows.record import event


def taught(
    module: Module,
    people: Sequence[str],
    lessons: Sequence[str],
    by: str,
    seen: str | None,
    **how: Any,
) -> list[Event]:
    """The lessons (all when none are named) of a module taught to each person.

    `how` may hold minutes and language.
    """
    wanted = list(lessons) or [lesson.id for lesson in module.lessons]
    return [
        event(
            "taught",
            name,
            seen=seen,
            by=by,
            module=module.id,
            lessons=wanted,
            edition=module.edition,
            **how,
        )
        for name in people
    ]


def briefed(module: Module, people: Sequence[str], by: str, seen: str | None) -> list[Event]:
    """The re-brief of a module's edition of today, signed by each person; it teaches no lesson."""
    data = {"module": module.id, "lessons": [], "edition": module.edition, "rebrief": True}
    return [event("taught", name, seen=seen, by=by, **data) for name in people]


def signed_off(
    module: Module,
    person: str,
    rig: str,
    by: str,
    seen: str | None,
    exceptions: Mapping[str, str],
) -> Event:
    """A sign-off sheet: every line "yes" but for the `exceptions`. Raises Refusal."""
    lines = {line.id: "yes" for line in module.sign_off.lines}
    for line, answer in exceptions.items():
        if line not in lines:
            raise Refusal(f'"{line}" is not on the sign-off sheet', nearest(line, lines))
        lines[line] = answer
    return event("signed-off", person, seen=seen, by=by, module=module.id, rig=rig, lines=lines)


def on_rig(curriculum: Curriculum, module: Module, rig: str | None) -> str:
    """The rig of a sign-off, or "" where the module is signed off once. Raises Refusal."""
    if module.sign_off.per_rig and not rig:
        names = ", ".join(rig.id for rig in curriculum.shop.rigs)
        raise Refusal(f"{module.title} is signed off rig by rig", f"add --rig, one of: {names}")
    return rig or ""
