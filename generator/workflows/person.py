"""A person's file: everything on record of him, module by module, with who said so and when."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from operator import attrgetter
from typing import Any

from generator.model.course import Curriculum, Module
from generator.model.event import Event
from generator.model.file import (
    Lessons,
    ModuleFile,
    Oral,
    PersonFile,
    Remark,
    SeenLine,
    Signature,
    Sitting,
    State,
    Trail,
)
from generator.model.standing import Standing
from generator.records.facts import Person, folded
from generator.records.gather import gather, live, voidings
from generator.records.needs import by_rig
from generator.records.standing import person_standings
from generator.workflows.board import in_order

_MOVES = {"joined": "Joined the crew", "left": "Left the crew", "returned": "Came back"}


def person_file(
    curriculum: Curriculum, events: Sequence[Event], who: str, day: str, head: str
) -> PersonFile:
    """The file of that person (as the record spells the name) on that day (ISO)."""
    laid = Laid(events, day)
    return file_in(curriculum, laid, laid.book.people[folded(who)], head)


def file_in(curriculum: Curriculum, laid: Laid, who: Person, head: str) -> PersonFile:
    """The same, from a record laid out for the files of many."""
    book, own = laid.book, laid.own.get(folded(who.name), [])
    standing = person_standings(book, who, curriculum, laid.day)
    return PersonFile(
        name=who.name,
        date=laid.day,
        role="trainer" if book.trainer(who.name, "") else "crew" if who.here else "left",
        joined=next((e.seen for e in own if e.kind == "joined"), ""),
        modules=tuple(
            _OfModule(curriculum, module, laid, who, own).file(standing)
            for module in in_order(curriculum)
        ),
        remarks=tuple(_remarks(curriculum, laid, folded(who.name))),
        head=head,
    )


class Bases:
    """Why a trainer's word is taken: the owner's last naming before the event."""

    def __init__(self, standing: Iterable[Event]) -> None:
        """Of the events that stand, in order."""
        self._named: dict[str, list[Event]] = {}
        for event in standing:
            if event.kind == "trainer-named":
                self._named.setdefault(folded(event.person), []).append(event)

    def of(self, event: Event) -> str:
        """In words; "" when he was no trainer."""
        named = [e for e in self._named.get(folded(event.by), []) if e.number < event.number]
        if not named:
            return ""
        basis = named[-1].data.get("basis") or "cleared for it himself"
        return f"named by {named[-1].by} on {named[-1].seen}: {basis}"

    def trail(self, event: Event) -> Trail:
        """The trail of an event."""
        return Trail(event.number, event.seen, event.entered, event.by, self.of(event))


class Laid:
    """The record on a day (ISO), gone through once, however many files are made of it."""

    def __init__(self, events: Sequence[Event], day: str) -> None:
        self.day, self.book = day, gather(events, day)
        standing = live(events)
        self.standing = [event for event in standing if event.seen <= day]
        self.bases = Bases(standing)
        self.own: dict[str, list[Event]] = {}  # by folded name
        for event in self.standing:
            self.own.setdefault(folded(event.person), []).append(event)
        by_number = {event.number: event for event in sorted(events, key=attrgetter("number"))}
        self.taken_back: dict[str, list[tuple[Event, Event]]] = {}  # with what took it back
        for number, voiding in voidings([*by_number.values()]).items():
            if aimed := by_number.get(number):
                self.taken_back.setdefault(folded(aimed.person), []).append((aimed, voiding))


@dataclass(frozen=True)
class _OfModule:
    """What a person's file says of one module; `own` are the events that name him."""

    curriculum: Curriculum
    module: Module
    laid: Laid
    who: Person
    own: Sequence[Event]

    def file(self, standing: Sequence[Standing]) -> ModuleFile:
        module = self.module
        return ModuleFile(
            id=module.id,
            title=module.title,
            edition=module.edition,
            grants=module.grants,
            states=tuple(self.state(each) for each in standing if each.module == module.id),
            lessons=tuple(map(self.lessons, self.of_kind("taught"))),
            sittings=tuple(self.sittings()),
            signatures=tuple(map(self.signature, self.of_kind("signed-off"))),
        )

    def of_kind(self, kind: str) -> list[Event]:
        return [e for e in self.own if e.kind == kind and e.data.get("module") == self.module.id]

    def state(self, each: Standing) -> State:
        rig = self.rig_name(each.rig) if by_rig(self.module) else ""
        return State(rig, each.state, each.since, each.due, each.missing, each.cleared)

    def rig_name(self, rig: str) -> str:
        found = self.curriculum.shop.rig(rig)
        return found.name if found else rig

    def lessons(self, event: Event) -> Lessons:
        titles = {lesson.id: lesson.title for lesson in self.module.lessons}
        data = event.data
        return Lessons(
            self.laid.bases.trail(event),
            tuple(titles.get(lesson, lesson) for lesson in data["lessons"]),
            data.get("edition", 0),
            bool(data.get("rebrief")),
            data.get("minutes", 0),
            data.get("language", ""),
        )

    def sittings(self) -> Iterable[Sitting]:
        for mark in self.who.marks.values():
            if mark.module != self.module.id:
                continue
            data, paper = mark.event.data, self.laid.book.papers[mark.code]
            yield Sitting(
                self.laid.bases.trail(mark.event),
                mark.code,
                "practice" if mark.practice else "return" if mark.back else "counted",
                mark.edition,
                paper.get("language", ""),
                _how(data),
                data["right"],
                data["items"],
                data["cut"],
                mark.missed,
                self.who.passes(mark),
                tuple(self.oral(e) for e in self.own if _asks_about(e, mark.code)),
            )

    def oral(self, event: Event) -> Oral:
        data = event.data
        alone = bool(data.get("alone"))
        return Oral(self.laid.bases.trail(event), data["item"], data["right_in_a_row"], alone)

    def signature(self, event: Event) -> Signature:
        lines = {line.id: line for line in self.module.sign_off.lines}
        seen = tuple(
            SeenLine(lines[id].do, answer, lines[id].must)
            if id in lines
            else SeenLine(id.replace("-", " "), answer, False)
            for id, answer in event.data["lines"].items()
        )
        return Signature(self.laid.bases.trail(event), self.rig_name(event.data["rig"]), seen)


def _asks_about(event: Event, code: str) -> bool:
    return event.kind == "oral" and event.data["paper"] == code


def _how(data: dict[str, Any]) -> str:
    """How it was tested and marked, with any help that was given."""
    help_given = str(data.get("help") or "")
    how = "written, answers typed in" if data["how"] == "answers" else "written, marked by eye"
    return f"{how}; {help_given}" if help_given else how


def _remarks(curriculum: Curriculum, laid: Laid, name: str) -> Iterable[Remark]:
    """Those of the person of that folded name."""
    for event in laid.own.get(name, []):
        if text := _told(curriculum, event):
            yield Remark(laid.bases.trail(event), text)
    for aimed, voiding in laid.taken_back.get(name, []):
        why = voiding.data.get("why", "")
        text = f"Entry {aimed.number} ({aimed.kind}) was taken back: {why}"
        yield Remark(laid.bases.trail(voiding), text)


def _told(curriculum: Curriculum, event: Event) -> str:
    """An event that belongs to no module's list, in words; "" for the others."""
    data, module = event.data, curriculum.modules.get(event.data.get("module", ""))
    where = f" in {module.title}" if module else ""
    why = f": {data['why']}" if data.get("why") else ""
    rig = curriculum.shop.rig(data.get("rig", ""))
    work = f"from {module.title}" if module else "from all work"
    said = {
        **_MOVES,
        "trainer-named": f"Named a trainer: {data.get('basis') or 'cleared himself'}",
        "trainer-ended": f"No trainer any more{why}",
        "sheets-shown": f"Shown the data sheets of {rig.name if rig else data.get('rig', '')}",
        "suspended": f"Suspended {work}{why}",
        "restored": f"Restored: may do the work again{why}",
        "incident": f"{'Near miss' if data.get('near_miss') else 'Incident'}{where}: "
        f"{data.get('what') or data.get('why', '')}",
        "exception": f"The owner's exception{where}{why}",
        "under-age": f"Under age for mixing until {data.get('until', '')}",
    }
    return said.get(event.kind, "")
