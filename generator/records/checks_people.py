"""Checks before an event is entered: who it is about, who states it, what it voids."""

from __future__ import annotations

from generator.errors import Refusal
from generator.records.clock import is_day
from generator.records.crew import known
from generator.records.entry import Entry
from generator.records.facts import EVERYTHING, Person, folded, unaccented
from generator.records.gather import voidings
from generator.records.standing import cases, standing


def new_name(entry: Entry) -> None:
    """Nobody of that name was ever on the crew, nor one whose name differs in accents only."""
    name = unaccented(entry.event.person)
    if not folded(entry.event.person):
        raise Refusal("the name is empty", "type the name as the crew says it")
    if who := next((p for p in entry.book.people.values() if unaccented(p.name) == name), None):
        raise Refusal(
            f"{who.name} is in the record already",
            "add a last name for another person, or, where this one is back, note it: "
            f'rigprimer crew returned "{who.name}"',
        )


def on_crew(entry: Entry) -> None:
    """The person is on the crew, and had not left on the day it was seen."""
    if not entry.who.here:
        raise Refusal(
            f"{entry.who.name} left on {entry.who.moved}",
            f'note first that the person came back: rigprimer crew returned "{entry.who.name}"',
        )
    then = entry.then.person(entry.event.person)
    if then and not then.here and then.moved < entry.event.seen:
        raise Refusal(
            f"{then.name} had left on {then.moved} and was not back on {entry.event.seen}",
            "give the day on which it happened",
        )


def gone(entry: Entry) -> None:
    """The person was on the crew and left."""
    if entry.who.here:
        raise Refusal(f"{entry.who.name} is on the crew already", "there is nothing to note")


def stated(entry: Entry) -> None:
    """Somebody stands for it."""
    if not folded(entry.event.by):
        raise Refusal("it is not said who states this", "add your name with --by")


def reason(entry: Entry) -> None:
    """It is said why."""
    if not str(entry.event.data.get("why", "")).strip():
        raise Refusal("it is not said why", "add the reason with --why")


def is_trainer(entry: Entry) -> None:
    """The person is a trainer now."""
    if not entry.who.trainer:
        raise Refusal(f"{entry.who.name} is no trainer now", "there is nothing to end")


def by_trainer(entry: Entry) -> None:
    """A current trainer states it, about somebody else."""
    stated(entry)
    by = known(entry.book, entry.event.by)
    if by is entry.who:
        raise Refusal(
            f"{by.name} is the trainer and the person in one", "let another trainer see it and sign"
        )
    if not entry.book.trainer(by.name, entry.module_named):
        raise Refusal(
            f"{by.name} is not a current trainer",
            "let a trainer sign; the owner names one with: rigprimer crew trainer NAME --by OWNER",
        )


def basis_for_oneself(entry: Entry) -> None:
    """Who names himself a trainer says on what basis."""
    alone = folded(entry.event.by) == folded(entry.event.person)
    if alone and not str(entry.event.data.get("basis", "")).strip():
        raise Refusal(
            f"it is not said why {entry.who.name} can judge the work",
            "add the basis with --basis, such as years at it or a course",
        )


def qualified(entry: Entry) -> None:
    """The trainer was cleared for what he judges on the day he saw it; the first one is taken on
    the owner's word.
    """
    by = entry.then.trainer(entry.event.by, entry.module.id)
    if by is None:
        raise Refusal(
            f"{entry.event.by} was no trainer on {entry.event.seen}, or suspended",
            "give the right day; if he was one by then, the owner names him with --seen-on",
        )
    cleared = cleared_trainers(entry)
    others = [name for name in cleared if folded(name) != folded(entry.event.person)]
    if by.name in cleared or (by.basis and not others):
        return
    rig = entry.curriculum.shop.rig(entry.event.data.get("rig", ""))
    on = f" on {rig.name}" if rig else ""
    what = f"{by.name} is not cleared for {entry.module.title}{on}, so can't sign others off"
    if others:
        raise Refusal(what, f"let {' or '.join(others)} see it, or sign {by.name} off for it first")
    raise Refusal(
        what, "let a cleared trainer see it; or the owner names him again and says on what basis"
    )


def cleared_trainers(entry: Entry) -> list[str]:
    """The trainers who were cleared for the module on the day it was seen: on the rig it is about,
    or where nobody else was, on any.
    """
    rigs = {who.name: _cleared_on(entry, who) for who in _trainers(entry)}
    here = [name for name, on in rigs.items() if entry.event.data.get("rig", "") in on]
    others = any(folded(name) != folded(entry.event.person) for name in here)
    return here if others else [name for name, on in rigs.items() if on]


def _cleared_on(entry: Entry, who: Person) -> list[str]:
    """The rigs on which he was cleared for the module that day; [""] where none matters."""
    return [
        case.rig
        for case in cases(entry.then, who, entry.curriculum, entry.event.seen)
        if case.module.id == entry.module.id and standing(case).cleared
    ]


def _trainers(entry: Entry) -> list[Person]:
    """Who trained in the module on the day it was seen and still does."""
    module = entry.module.id
    return [
        who
        for who in entry.then.people.values()
        if entry.then.trainer(who.name, module) and entry.book.trainer(who.name, module)
    ]


def judges(entry: Entry) -> list[str]:
    """The trainers who may judge this person's work in the module that day: the cleared ones, or
    where there is none, those on the owner's word.
    """
    person = folded(entry.event.person)
    cleared = [name for name in cleared_trainers(entry) if folded(name) != person]
    return cleared or [
        who.name for who in _trainers(entry) if who.basis and folded(who.name) != person
    ]


def told(entry: Entry) -> None:
    """It is said what happened."""
    if not str(entry.event.data.get("what", "")).strip():
        raise Refusal("it is not said what happened", "add it with --what, in a few words")


def day_of_age(entry: Entry) -> None:
    """The day is one."""
    until = str(entry.event.data.get("until", ""))
    if not is_day(until):
        raise Refusal(f'"{until}" is not a day', "write it like 2026-04-30")


def is_suspended(entry: Entry) -> None:
    """The person is suspended from that work."""
    module = entry.event.data.get("module", EVERYTHING)
    if module not in entry.who.suspended and (module or not entry.who.suspended):
        raise Refusal(f"{entry.who.name} is not suspended from that", "there is nothing to restore")
    if not entry.who.lifted_by(entry.event):
        first = min(event.seen for event in entry.who.suspended.values())
        raise Refusal(
            f"{entry.who.name} was suspended on {first}, after that day",
            "give the day on which it was lifted",
        )


def can_be_voided(entry: Entry) -> None:
    """The event is there, and stands; no edition, since grace would begin anew."""
    number = entry.event.data["number"]
    found = next((event for event in entry.history if event.number == number), None)
    if found is None:
        raise Refusal(
            f"there is no event {number}", "look up its number with: rigprimer person NAME"
        )
    if found.kind == "edition":
        raise Refusal(
            f"event {number} says since when an edition is in use, and grace runs from there",
            "leave it; the edition that is taught is the one in the module's module.yaml",
        )
    if by := voidings(entry.history).get(number):
        raise Refusal(
            f"event {number} was voided already, by event {by.number}", "there is nothing to void"
        )
