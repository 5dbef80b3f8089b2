"""Events gathered into facts, in the order they were entered.

Events that were voided are left out as if they had never been; of two that say the same thing
the later one counts.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from operator import attrgetter

from generator.errors import Refusal
from generator.model.event import Event
from generator.records.facts import EVERYTHING, Book, Change, Mark, Person, folded

EVER = "9999-12-31"
"""A day after every other."""


def voidings(events: Sequence[Event]) -> dict[int, Event]:
    """The number of each event that is voided, with the event that voids it."""
    standing: dict[int, Event] = {}
    for event in reversed(events):  # a later event may void the voiding itself
        if event.kind == "voided" and event.number not in standing:
            standing[event.data.get("number", 0)] = event
    return standing


def live(events: Iterable[Event], on: str = EVER) -> list[Event]:
    """The events up to that day (ISO) that stand, in order: no voided one, none that voids."""
    ordered = sorted(events, key=attrgetter("number"))
    gone = voidings(ordered)
    return [e for e in ordered if e.seen <= on and e.kind != "voided" and e.number not in gone]


def gather(events: Sequence[Event], on: str = EVER) -> Book:
    """The facts of all that happened up to and on that day (ISO)."""
    book, standing = Book(), live(events, on)
    for event in standing:
        if event.kind == "trainer-ended":
            book.ends.setdefault(folded(event.person), []).append(event)
    for event in standing:
        try:
            _note(book, event)
        except (LookupError, TypeError, AttributeError) as error:
            raise Refusal(
                f"event {event.number} ({event.kind}) is not whole: it was changed",
                "run rigprimer check --records, then bring back the last backup",
            ) from error
    return book


def _note(book: Book, event: Event) -> None:
    if event.kind in ABOUT_NO_ONE:
        ABOUT_NO_ONE[event.kind](book, event)
        return
    kind, who = event.kind, book.person(event.person)
    if who is None:
        if kind not in ("joined", "returned"):
            return
        who = book.people[folded(event.person)] = Person(event.person)
    if kind in AT_WORK:
        who.active.add(event.seen)
    if kind in WITH_A_TRAINER and (trainer := book.person(event.by)):
        trainer.active.add(event.seen)
    if kind in ABOUT_A_PERSON:
        ABOUT_A_PERSON[kind](book, who, event)


def _arrived(book: Book, who: Person, event: Event) -> None:
    who.here, who.moved = True, event.seen


def _left(book: Book, who: Person, event: Event) -> None:
    who.here, who.moved, who.trainer, who.basis = False, event.seen, False, ""


def _named(book: Book, who: Person, event: Event) -> None:
    if event.by:
        who.named = min(event.seen, who.named) if who.trainer else event.seen
        who.trainer, who.basis = True, event.data.get("basis", "")


def _ended(book: Book, who: Person, event: Event) -> None:
    who.trainer, who.basis = False, ""


def _taught(book: Book, who: Person, event: Event) -> None:
    module = event.data["module"]
    days = who.taught.setdefault(module, {})
    for lesson in event.data["lessons"]:
        days.setdefault(lesson, event.seen)
    if event.data.get("rebrief"):
        who.briefed[module] = event


def _shown(book: Book, who: Person, event: Event) -> None:
    who.sheets.setdefault(event.data["rig"], event.seen)


def _marked(book: Book, who: Person, event: Event) -> None:
    code = event.data["paper"]
    paper = book.papers.get(code)
    if paper is None or (paper["person"] and folded(paper["person"]) != folded(who.name)):
        return  # no proof of anything: not printed here, or somebody else's
    missed = tuple(str(paper["items"][place - 1]["id"]) for place in event.data["must_missed"])
    practice = bool(paper["practice"] or event.data["practice"])
    back = bool(paper.get("back"))
    who.note_mark(Mark(event, paper["module"], paper["edition"], practice, missed, back))


def _heard(book: Book, who: Person, event: Event) -> None:
    if book.judged(who, event):
        who.orals.setdefault((event.data["paper"], event.data["item"]), []).append(event)


def _signed(book: Book, who: Person, event: Event) -> None:
    """A sheet takes the place of those that were seen no later and entered before.

    So several stand where an older one was entered late; what was seen last comes first.
    """
    if book.judged(who, event):
        on = event.data["module"], event.data["rig"]
        stand = [sheet for sheet in who.signed.get(on, ()) if sheet.seen > event.seen]
        who.signed[on] = [*stand, event]


def _suspended(book: Book, who: Person, event: Event) -> None:
    module = event.data.get("module", EVERYTHING)
    if module not in who.suspended or who.suspended[module].seen <= event.seen:
        who.suspended[module] = event
    _set_back(book, who, event)


def _set_back(book: Book, who: Person, event: Event) -> None:
    """An incident or a suspension speaks against a skill when it names its module."""
    if event.data.get("module"):
        who.setbacks.append(event)


def _excepted(book: Book, who: Person, event: Event) -> None:
    who.exceptions.append(event)


def _under_age(book: Book, who: Person, event: Event) -> None:
    who.of_age = event.data["until"]


def _restored(book: Book, who: Person, event: Event) -> None:
    """It lifts what was imposed by that day: a day before the suspension lifts nothing."""
    for module in who.lifted_by(event):
        del who.suspended[module]


def _issued(book: Book, event: Event) -> None:
    paper = event.data["paper"]
    book.papers[paper["code"]] = paper
    book.heard_of(paper["module"], paper["edition"], event.seen)


def _edition(book: Book, event: Event) -> None:
    module, edition = event.data["module"], event.data["edition"]
    book.heard_of(module, edition, event.seen)
    book.asked[module, edition] = event


def _changed(book: Book, event: Event) -> None:
    told = (str(event.data[name]) for name in ("module", "rig", "cause", "what"))
    book.changes.append(Change(event, *told))


ABOUT_NO_ONE: dict[str, Callable[[Book, Event], None]] = {
    "issued": _issued,
    "edition": _edition,
    "changed": _changed,
}
ABOUT_A_PERSON: dict[str, Callable[[Book, Person, Event], None]] = {
    "joined": _arrived,
    "left": _left,
    "returned": _arrived,
    "trainer-named": _named,
    "trainer-ended": _ended,
    "taught": _taught,
    "sheets-shown": _shown,
    "marked": _marked,
    "oral": _heard,
    "signed-off": _signed,
    "suspended": _suspended,
    "restored": _restored,
    "incident": _set_back,
    "exception": _excepted,
    "under-age": _under_age,
}
WITH_A_TRAINER = frozenset(("taught", "sheets-shown", "marked", "oral", "signed-off"))
AT_WORK = WITH_A_TRAINER | {"joined", "left", "returned", "restored", "incident", "exception"}
"""Kinds that show the person was there that day; a paper printed for him does not."""
