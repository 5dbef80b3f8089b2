"""The facts the events amount to, person by person (`gather.py` collects them).

Facts know no curriculum and no clock: `needs.py` and `standing.py` do.
"""

from __future__ import annotations

import unicodedata
from dataclasses import dataclass, field
from functools import lru_cache
from typing import Any

from generator.model.event import Event
from generator.model.paper import IN_A_ROW

EVERYTHING = ""
"""The module of a suspension from all work."""


@dataclass(frozen=True)
class Mark:
    """A marked paper; `missed` are the ids of the must-get items that were missed."""

    event: Event
    module: str
    edition: int
    practice: bool
    missed: tuple[str, ...]
    back: bool = False  # a short return paper: it renews a pass, it never makes one

    @property
    def code(self) -> str:
        """The code of the paper."""
        return str(self.event.data["paper"])

    @property
    def enough(self) -> bool:
        """Whether the cut was reached, missed must-gets aside."""
        data = self.event.data
        return bool(data["right"] >= data["cut"] and (data["passed"] or self.missed))


@dataclass(frozen=True)
class Pass:
    """The full paper on which a pass rests, and the last paper that bore it out."""

    full: Mark
    last: Mark


@dataclass(frozen=True)
class Change:
    """Something new in the work of a module, on a rig ("" for every rig)."""

    event: Event
    module: str
    rig: str
    cause: str
    what: str


@dataclass
class Person:
    """Everything known of one person."""

    name: str
    here: bool = True
    moved: str = ""  # the day of joining, leaving or coming back, whichever was last
    trainer: bool = False
    named: str = ""  # the day since which he is a trainer
    basis: str = ""  # why the owner takes this trainer's word
    suspended: dict[str, Event] = field(default_factory=dict)  # by module
    active: set[str] = field(default_factory=set)  # days seen at work
    taught: dict[str, dict[str, str]] = field(default_factory=dict)  # module, lesson: first day
    briefed: dict[str, Event] = field(default_factory=dict)  # module: last re-brief
    sheets: dict[str, str] = field(default_factory=dict)  # rig: first day
    signed: dict[tuple[str, str], list[Event]] = field(default_factory=dict)  # (module, rig)
    marks: dict[str, Mark] = field(default_factory=dict)  # by code, in the order of marking
    papers: dict[str, dict[str, Mark]] = field(default_factory=dict)  # counted ones, by module
    orals: dict[tuple[str, str], list[Event]] = field(default_factory=dict)  # by (code, item)
    setbacks: list[Event] = field(default_factory=list)  # incidents, suspensions: of one module
    exceptions: list[Event] = field(default_factory=list)
    of_age: str = ""  # the day from which the person may be cleared for a duty

    def suspension(self, module: str) -> Event | None:
        """What keeps the person from that module's work, if anything does."""
        return self.suspended.get(EVERYTHING) or self.suspended.get(module)

    def lifted_by(self, event: Event) -> list[str]:
        """The modules whose suspension a restoring event lifts."""
        named = event.data.get("module", EVERYTHING)
        return [
            module
            for module, since in self.suspended.items()
            if named in (EVERYTHING, module) and since.seen <= event.seen
        ]

    def unmended(self, mark: Mark) -> tuple[str, ...]:
        """The missed must-gets of a paper that no other trainer has heard put right since."""
        return tuple(item for item in dict.fromkeys(mark.missed) if not self._mended(mark, item))

    def _mended(self, mark: Mark, item: str) -> bool:
        oral = self.heard(mark, item)
        return oral is not None and oral.data.get("right_in_a_row", 0) >= IN_A_ROW

    def heard(self, mark: Mark, item: str) -> Event | None:
        """The one time the missed item was asked aloud; a second asking never counts.

        Not by the trainer who marked the paper, unless the shop had no other one.
        """
        marker = folded(mark.event.by)
        asked = self.orals.get((mark.code, item), [])
        return next((o for o in asked if folded(o.by) != marker or o.data.get("alone")), None)

    def passes(self, mark: Mark) -> bool:
        """Whether the paper is a pass: enough right, and no must-get left missed."""
        return mark.enough and (not mark.missed or not self.unmended(mark))

    def counted(self, module: str) -> list[Mark]:
        """The counted papers of a module, in the order of marking."""
        papers = self.papers.get(module)
        return list(papers.values()) if papers else []

    def note_mark(self, mark: Mark) -> None:
        """Take in a mark; a paper marked anew is the latest."""
        self.marks.pop(mark.code, None)
        self.marks[mark.code] = mark
        papers = self.papers.setdefault(mark.module, {})
        papers.pop(mark.code, None)
        if not mark.practice:
            papers[mark.code] = mark

    def holds(self, module: str) -> Pass | None:
        """The pass that stands: a full paper passed, and no counted paper failed since."""
        marks = self.counted(module)
        full = next((mark for mark in reversed(marks) if not mark.back), None)
        if not full or not self.passes(full) or not self.passes(marks[-1]):
            return None
        return Pass(full, marks[-1])


@dataclass
class Book:
    """All facts. `raised` is the first day an edition of a module was heard of."""

    people: dict[str, Person] = field(default_factory=dict)  # by folded name, as they joined
    papers: dict[str, dict[str, Any]] = field(default_factory=dict)  # by code, as kept
    raised: dict[str, dict[int, str]] = field(default_factory=dict)
    asked: dict[tuple[str, int], Event] = field(default_factory=dict)  # what an edition asks
    ends: dict[str, list[Event]] = field(default_factory=dict)  # of training, by folded name
    changes: list[Change] = field(default_factory=list)
    _spelled: dict[str, Person] = field(default_factory=dict, repr=False, compare=False)

    def person(self, name: str) -> Person | None:
        """The person of that name, whichever way it is capitalised or spaced."""
        who = self._spelled.get(name)  # nobody is ever taken out of `people`
        if who is None and (who := self.people.get(folded(name))):
            self._spelled[name] = who
        return who

    def trainer(self, name: str, module: str) -> Person | None:
        """The person of that name if a current trainer who may judge that module's work."""
        who = self.person(name)
        return who if who and who.here and who.trainer and not who.suspension(module) else None

    def judged(self, who: Person, event: Event) -> bool:
        """Whether a trainer stands behind what was seen of `who`, and not he himself.

        By the order of the record he was one when it was entered, and by the days he was one when
        he saw it: named by then, and not ended before, even if that was entered later.
        """
        trainer = self.trainer(event.by, event.data["module"])
        if trainer is None or trainer is who or event.seen < trainer.named:
            return False
        ends = self.ends.get(folded(event.by), ())
        return not any(end.number > event.number and end.seen < event.seen for end in ends)

    def heard_of(self, module: str, edition: int, day: str) -> None:
        """Note that an edition was in use on that day."""
        days = self.raised.setdefault(module, {})
        days[edition] = min(day, days.get(edition, day))


@lru_cache(maxsize=8192)
def unaccented(name: str) -> str:
    """The name for asking whether two are hard to tell apart: folded, its accents left out."""
    letters = unicodedata.normalize("NFD", folded(name))
    return "".join(letter for letter in letters if not unicodedata.combining(letter))


@lru_cache(maxsize=8192)
def folded(name: str) -> str:
    """The name for comparing: case, blanks and ways of writing an accent make no difference."""
    return " ".join(unicodedata.normalize("NFC", name).split()).casefold()
