"""The pocket card: what its bearer may mix, and until when."""

from __future__ import annotations

from collections.abc import Sequence

from generator.errors import Refusal
from generator.model.course import Curriculum
from generator.model.event import Event
from generator.model.file import Duty, PocketCard
from generator.records.clock import later
from generator.records.facts import folded
from generator.records.gather import gather
from generator.records.needs import BY_CARD, MIXING
from generator.records.standing import person_standings

WORDS = {MIXING: "Any mix", BY_CARD: "By the rig’s card, empty tank,"}


def pocket_card(
    curriculum: Curriculum, events: Sequence[Event], who: str, day: str, head: str
) -> PocketCard:
    """The card of someone who may mix on that day (ISO). Raises Refusal for anybody else.

    It is void on the first day on which anything printed on it may be due, and no later than the
    board would lapse its bearer for absence, counted from the last day seen at work: a card in a
    pocket learns nothing new, and must not outlive the board.
    """
    book = gather(events, day)
    person = book.people[folded(who)]
    standing = person_standings(book, person, curriculum, day)
    cleared = [each for each in standing if each.cleared and each.grants in WORDS]
    if not cleared:
        raise Refusal(
            f"{person.name} may not mix on any rig today",
            f'see what is missing: rigprimer person "{person.name}"',
        )
    last = later(max(person.active), curriculum.shop.rules.away)
    void = min([last, *(each.due for each in cleared if each.due)])
    mixes = {each.rig for each in cleared if each.grants == MIXING}
    duties = []
    for grants, words in WORDS.items():
        modules = [m for m in curriculum.modules.values() if m.grants == grants]
        rigs = {each.rig for each in cleared if each.grants == grants}
        rigs -= mixes if grants == BY_CARD else set()
        names = tuple(rig.name for rig in curriculum.shop.rigs if rig.id in rigs)
        if names:
            duties.append(Duty(words, names, modules[0].covers))
    return PocketCard(person.name, day, void, tuple(duties), head)
