"""Whom an edit of the lessons lapses, told before it takes effect.

The record keeps what the last edition asked: its lessons and its must-lines. Standing under that
is compared with standing under the files as they are now.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace

from generator.model.course import Curriculum, Lesson, Module, SkillLine
from generator.model.event import Event
from generator.model.standing import Standing
from generator.records.facts import Book
from generator.records.gather import gather
from generator.records.standing import standings_in

Key = tuple[str, str, str]


@dataclass(frozen=True)
class Lapse:
    """What an edit of a module does: who may not work from now on, and who must be re-briefed.

    `by` is the last day for the re-brief (ISO; "" where a new edition lapses nobody).
    """

    module: Module
    at_once: tuple[str, ...]
    brief: tuple[str, ...]
    by: str


def lapses(curriculum: Curriculum, events: Sequence[Event], day: str) -> list[Lapse]:
    """What the files as they are now change for the crew on that day (ISO), module by module."""
    book = gather(events, day)
    before = _standing(book, replace(curriculum, modules=_as_noted(book, curriculum)), day)
    after = _standing(book, curriculum, day)
    return list(_compared(curriculum, before, after))


def if_raised(
    curriculum: Curriculum, events: Sequence[Event], module: Module, day: str
) -> Lapse | None:
    """What raising the module's edition by one would change, if it changes anything."""
    raised = replace(module, edition=module.edition + 1)
    then = replace(curriculum, modules={**curriculum.modules, module.id: raised})
    book = gather(events, day)
    before, after = _standing(book, curriculum, day), _standing(book, then, day)
    return next(iter(_compared(then, before, after)), None)


def _standing(book: Book, curriculum: Curriculum, day: str) -> dict[Key, Standing]:
    found = standings_in(book, curriculum, day)
    return {(each.person, each.module, each.rig): each for each in found}


def _compared(
    curriculum: Curriculum, before: dict[Key, Standing], after: dict[Key, Standing]
) -> Iterator[Lapse]:
    for module in curriculum.modules.values():
        worked = [
            (each, after[key])
            for key, each in before.items()
            if each.module == module.id and each.cleared and key in after
        ]
        at_once = _names(now for _, now in worked if not now.cleared)
        brief = [
            now for each, now in worked if now.state == "re-brief" and each.state != "re-brief"
        ]
        by = min((now.due for now in brief if now.due), default="")
        if at_once or brief:
            yield Lapse(module, at_once, _names(brief), by)


def _names(standing: Iterable[Standing]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(each.person for each in standing))


def _as_noted(book: Book, curriculum: Curriculum) -> dict[str, Module]:
    """The modules as the record last heard of them; those it never heard of as they are."""
    noted: dict[str, Event] = {}
    for (name, _), event in book.asked.items():
        if name not in noted or event.number > noted[name].number:
            noted[name] = event
    return {
        name: _as_then(module, noted[name]) if name in noted else module
        for name, module in curriculum.modules.items()
    }


def _as_then(module: Module, noted: Event) -> Module:
    lessons = {lesson.id: lesson for lesson in module.lessons}
    lines = {line.id: line for line in module.sign_off.lines}
    must = noted.data["must"]
    lines |= {name: SkillLine(name, name, "") for name in must if name not in lines}
    return replace(
        module,
        edition=noted.data["edition"],
        lessons=tuple(
            lessons.get(name) or Lesson(name, name, "", 0, ()) for name in noted.data["lessons"]
        ),
        sign_off=replace(
            module.sign_off,
            lines=tuple(replace(line, must=line.id in must) for line in lines.values()),
        ),
    )
