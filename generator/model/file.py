"""What is printed from the record about people: a file, a pocket card, what is due, the audit."""

from __future__ import annotations

from dataclasses import dataclass, field


@dataclass(frozen=True)
class Trail:
    """Where an entry stands in the record: its number, the day it was typed in, who stated it.

    `basis` is why that trainer's word is taken.
    """

    number: int
    seen: str  # ISO
    entered: str  # ISO
    by: str
    basis: str = ""


@dataclass(frozen=True)
class Lessons:
    """Lessons taught on a day, or a re-brief, which teaches none."""

    trail: Trail
    titles: tuple[str, ...]
    edition: int = 0
    rebrief: bool = False
    minutes: int = 0
    language: str = ""


@dataclass(frozen=True)
class Oral:
    """A missed must-get asked aloud: how many of the fresh items were right in a row."""

    trail: Trail
    item: str
    right: int
    alone: bool  # by the trainer who marked, the shop having no other


@dataclass(frozen=True)
class Sitting:
    """A marked paper: how it was tested, and what came out."""

    trail: Trail
    code: str
    kind: str  # "counted", "return" or "practice"
    edition: int
    language: str
    how: str
    right: int
    items: int
    cut: int
    missed: tuple[str, ...]  # must-gets
    passed: bool
    orals: tuple[Oral, ...] = ()


@dataclass(frozen=True)
class SeenLine:
    """A line of a sign-off sheet and its answer: yes, not yet, or told."""

    do: str
    answer: str
    must: bool


@dataclass(frozen=True)
class Signature:
    """A sign-off sheet, on a rig where that matters."""

    trail: Trail
    rig: str
    lines: tuple[SeenLine, ...]


@dataclass(frozen=True)
class State:
    """Where the person stands, on a rig where that matters."""

    rig: str
    state: str
    since: str
    due: str
    missing: tuple[str, ...]
    may: bool


@dataclass(frozen=True)
class ModuleFile:
    """All that is on record of one person in one module."""

    id: str
    title: str
    edition: int  # of today
    grants: str
    states: tuple[State, ...]
    lessons: tuple[Lessons, ...] = ()
    sittings: tuple[Sitting, ...] = ()
    signatures: tuple[Signature, ...] = ()

    @property
    def begun(self) -> bool:
        """Whether anything is on record."""
        return bool(self.lessons or self.sittings or self.signatures)


@dataclass(frozen=True)
class Remark:
    """Anything else noted: joining, data sheets, an incident, an exception, a correction."""

    trail: Trail
    what: str


@dataclass(frozen=True)
class PersonFile:
    """A person's file on one day. `head` is the head of the record's chain."""

    name: str
    date: str
    role: str
    joined: str
    modules: tuple[ModuleFile, ...]
    remarks: tuple[Remark, ...]
    head: str


@dataclass(frozen=True)
class Duty:
    """A line of a pocket card: what may be done, on which rigs, of which products."""

    what: str
    rigs: tuple[str, ...]
    covers: str


@dataclass(frozen=True)
class PocketCard:
    """What a person carries; it names nobody else."""

    name: str
    date: str
    void_after: str
    duties: tuple[Duty, ...]
    head: str


@dataclass(frozen=True)
class Due:
    """Something to be done by a day: `over` when that day has passed."""

    day: str  # ISO
    person: str
    module: str  # short word
    rigs: tuple[str, ...]
    what: str
    over: bool = False


@dataclass(frozen=True)
class DueList:
    """What is due until a day, the overdue first."""

    date: str
    until: str
    lines: tuple[Due, ...]
    head: str


@dataclass(frozen=True)
class TrainerLine:
    """A trainer: named by whom, on which day, on what basis, and cleared for what himself."""

    name: str
    named: str
    by: str
    basis: str
    ended: str
    cleared: tuple[str, ...]


@dataclass(frozen=True)
class EditionLine:
    """An edition of a module: the day it was first in use, and what it asked."""

    module: str
    edition: int
    since: str
    lessons: int
    must: int


@dataclass(frozen=True)
class ChangeLine:
    """Something new in the work of a module, for which the crew was to be seen again."""

    trail: Trail
    work: str  # module, and the rig where it is one only
    what: str


@dataclass(frozen=True)
class IncidentLine:
    """An incident or near miss, and what was taught and seen again after it."""

    trail: Trail
    person: str
    module: str
    what: str
    near_miss: bool
    after: tuple[str, ...]


@dataclass(frozen=True)
class StopLine:
    """A day on which work was stopped: what the board said the day before, then, and after."""

    day: str
    person: str
    what: str  # module and rig
    why: str
    before: str
    then: str
    again: str  # the day from which the board says yes again, or ""


@dataclass(frozen=True)
class Audit:
    """All that an auditor asks for and the record can show."""

    date: str
    first: str
    events: int
    files: tuple[PersonFile, ...]
    gone: tuple[PersonFile, ...]  # who left
    trainers: tuple[TrainerLine, ...]
    editions: tuple[EditionLine, ...]
    changes: tuple[ChangeLine, ...]
    incidents: tuple[IncidentLine, ...]
    stops: tuple[StopLine, ...]
    triggers: tuple[tuple[str, str], ...]  # what lapses a clearance, by the shop's settings
    head: str
    faults: tuple[str, ...] = field(default=())  # of the record itself
