"""The audit pack: who was taught, tested and seen, by whom, and proof that a lapse stops work."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from functools import cache, partial
from typing import NamedTuple

from generator.model.course import Curriculum
from generator.model.event import Event
from generator.model.file import (
    Audit,
    ChangeLine,
    EditionLine,
    IncidentLine,
    StopLine,
    TrainerLine,
)
from generator.model.shop import Rules
from generator.model.standing import Standing
from generator.records.clock import later
from generator.records.facts import Book, Change, folded
from generator.records.gather import gather
from generator.records.needs import MIXING
from generator.records.standing import person_standings, standings_in
from generator.workflows.person import Laid, file_in

STOPS = 12
"""Stops that are shown, the newest: each is proved with the board of three days."""
CHANGES = {
    "hazard": "A new hazard in that work",
    "equipment": "Other equipment for it",
    "strength_test": "Another device that tests the stock",
}


def audit_of(
    curriculum: Curriculum, events: Sequence[Event], day: str, head: str, faults: Sequence[str]
) -> Audit:
    """The audit pack of that day (ISO); `faults` are those found in the record itself."""
    laid = Laid(events, day)
    standing_events, book = laid.standing, laid.book
    files = [file_in(curriculum, laid, who, head) for who in book.people.values()]
    return Audit(
        date=day,
        first=min((event.seen for event in standing_events), default=day),
        events=len(events),
        files=tuple(file for file in files if file.role != "left"),
        gone=tuple(file for file in files if file.role == "left"),
        trainers=tuple(_trainers(curriculum, standing_events, book, day)),
        editions=tuple(_editions(curriculum, standing_events)),
        changes=tuple(_change_line(curriculum, laid, change) for change in book.changes),
        incidents=tuple(_incidents(curriculum, laid)),
        stops=tuple(_stops(curriculum, events, standing_events, book, day)),
        triggers=triggers(curriculum.shop.rules),
        head=head,
        faults=tuple(faults),
    )


def triggers(rules: Rules) -> tuple[tuple[str, str], ...]:
    """What takes a clearance away, and whether it does in this shop."""
    lapse = rules.lapse
    return (
        ("Time", f"after {rules.renewal} days" if lapse.renewal else "switched off"),
        ("Off the job", f"more than {rules.away} days" if lapse.away else "switched off"),
        (
            "A new edition of the lessons",
            f"{rules.grace} days after it, unless re-briefed"
            if lapse.new_edition
            else "switched off",
        ),
        *(
            (what, "at once, until seen again" if getattr(lapse, name) else "switched off")
            for name, what in (
                ("incident", "An incident or near miss in that skill"),
                *CHANGES.items(),
            )
        ),
        ("Suspended", "at once, until the owner says so"),
        (
            "Suspended from one skill, then restored",
            "until seen again" if lapse.suspended else "nothing more",
        ),
        ("All tries at a paper used up", "until seen again"),
        ("A change of stock", "never: it lapses nobody"),
    )


def _trainers(
    curriculum: Curriculum, events: Sequence[Event], book: Book, day: str
) -> Iterable[TrainerLine]:
    for event in events:
        if event.kind != "trainer-named" or not event.by:
            continue
        who = book.person(event.person)
        ends = ("trainer-ended", "left")
        ended = [
            e.seen
            for e in events
            if e.kind in ends
            and e.number > event.number
            and folded(e.person) == folded(event.person)
        ]
        standing = person_standings(book, who, curriculum, day) if who else ()
        able = dict.fromkeys(each.module for each in standing if each.cleared)
        titles = [curriculum.modules[name].title for name in able]
        if len(titles) == len(curriculum.modules):
            titles = ["every module"]
        yield TrainerLine(
            event.person,
            event.seen,
            event.by,
            event.data.get("basis", ""),
            ended[0] if ended else "",
            tuple(titles),
        )


def _editions(curriculum: Curriculum, events: Sequence[Event]) -> Iterable[EditionLine]:
    noted = [event for event in events if event.kind == "edition"]
    for event in sorted(noted, key=lambda e: (e.data["module"], e.data["edition"])):
        data = event.data
        module = curriculum.modules.get(data["module"])
        title = module.title if module else data["module"]
        lessons, must = len(data["lessons"]), len(data["must"])
        yield EditionLine(title, data["edition"], event.seen, lessons, must)


def _change_line(curriculum: Curriculum, laid: Laid, change: Change) -> ChangeLine:
    work = _work(curriculum, change.module, change.rig)
    return ChangeLine(laid.bases.trail(change.event), work, _new(change))


def _new(change: Change) -> str:
    return f"{CHANGES.get(change.cause, change.cause)}: {change.what}"


def _work(curriculum: Curriculum, module: str, rig: str) -> str:
    """The title of a module, with the name of the rig where there is one."""
    known, on = curriculum.modules.get(module), curriculum.shop.rig(rig)
    return ", ".join(filter(None, (known.title if known else module, on.name if on else rig)))


def _incidents(curriculum: Curriculum, laid: Laid) -> Iterable[IncidentLine]:
    for event in laid.standing:
        if event.kind != "incident":
            continue
        data = event.data
        module = curriculum.modules.get(data.get("module", ""))
        what = str(data.get("what") or data.get("why", ""))
        yield IncidentLine(
            laid.bases.trail(event),
            event.person,
            module.title if module else "",
            what,
            bool(data.get("near_miss")),
            tuple(_retraining(curriculum, laid.standing, event)),
        )


def _retraining(
    curriculum: Curriculum, standing: Sequence[Event], incident: Event
) -> Iterable[str]:
    """What was taught, seen and decided about the person after it, in the skill it names."""
    module = incident.data.get("module", "")
    for event in standing:
        about = event.data.get("module", "")
        if (
            event.number <= incident.number
            or event.seen < incident.seen
            or folded(event.person) != folded(incident.person)
            or (module and about not in (module, ""))
        ):
            continue
        rig = curriculum.shop.rig(event.data.get("rig", ""))
        said = {
            "taught": "taught again",
            "signed-off": f"seen and signed{f' on {rig.name}' if rig else ''}",
            "suspended": "suspended",
            "restored": "restored",
        }
        if event.kind in said:
            yield f"{said[event.kind]} on {event.seen} by {event.by}"


def _stops(
    curriculum: Curriculum,
    events: Sequence[Event],
    standing_events: Sequence[Event],
    book: Book,
    day: str,
) -> Iterable[StopLine]:
    """Each suspension, each incident that named a skill, each change of work, and each clearance
    lapsed today.
    """
    told = {"suspended": "suspended", "incident": "incident or near miss"}
    stops = [
        _Stop(e.seen, e.person, e.data.get("module", ""), told[e.kind])
        for e in standing_events
        if e.kind in told and (e.data.get("module") or e.kind == "suspended")
    ]
    stops += [_Stop(c.event.seen, "", c.module, _new(c)) for c in book.changes]
    for each in standings_in(book, curriculum, day):
        skills = curriculum.skills(curriculum.modules[each.module])
        if each.state == "lapsed" and not any(
            stop.day == each.since and stop.person in ("", each.person) and stop.module in skills
            for stop in stops
        ):
            stops.append(_Stop(each.since, each.person, each.module, "; ".join(each.missing)))
    for stop in sorted(set(stops), reverse=True)[:STOPS]:
        yield from _stop_lines(curriculum, events, stop, day)


class _Stop(NamedTuple):
    day: str
    person: str  # "" for everybody
    module: str  # "" for all work
    why: str


def _stop_lines(
    curriculum: Curriculum, events: Sequence[Event], stop: _Stop, today: str
) -> Iterable[StopLine]:
    """A line for each person, module and rig that the board said yes to the day before.

    Work begins again on the first day with something on record on which the board says yes.
    """
    board = cache(partial(_on, curriculum, events, stop.person))
    before, then = board(later(stop.day, -1)), board(stop.day)
    for key, each in before.items():
        skills = curriculum.skills(curriculum.modules[each.module])
        wanted = stop.module in skills if stop.module else each.grants.startswith(MIXING)
        if wanted and each.cleared and not then[key].cleared:
            own = (event for event in events if folded(event.person) == folded(each.person))
            days = sorted({event.seen for event in own if stop.day < event.seen <= today})
            again = next((back for back in days if board(back)[key].cleared), "")
            what = _work(curriculum, each.module, each.rig)
            yield StopLine(
                stop.day, each.person, what, stop.why, each.state, then[key].state, again
            )


def _on(
    curriculum: Curriculum, events: Sequence[Event], person: str, day: str
) -> dict[tuple[str, str, str], Standing]:
    """The board of that day (ISO): of one person, or of everybody where none is named."""
    book = gather(events, day)
    if not person:
        found = standings_in(book, curriculum, day)
    else:
        who = book.person(person)
        found = person_standings(book, who, curriculum, day) if who else ()
    return {(each.person, each.module, each.rig): each for each in found}
