"""What must be true before an event may be entered; each refusal says what to do.

`RULES` lists, for each kind of event, the checks it must pass, in the order they are made.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence

from generator.errors import Refusal
from generator.model.course import Curriculum
from generator.model.event import Event
from generator.records import checks_papers as papers
from generator.records import checks_people as people
from generator.records import checks_skills as skills
from generator.records.entry import Entry

Check = Callable[[Entry], None]

RULES: dict[str, tuple[Check, ...]] = {
    "joined": (people.new_name,),
    "left": (people.on_crew,),
    "returned": (people.gone,),
    "trainer-named": (people.on_crew, people.stated, people.basis_for_oneself),
    "trainer-ended": (people.is_trainer, people.stated),
    "taught": (people.on_crew, people.by_trainer, skills.known_lessons, skills.current_briefing),
    "sheets-shown": (people.on_crew, people.by_trainer, skills.known_rig),
    "issued": (
        papers.new_code,
        papers.current_paper,
        papers.named_person,
        papers.back_after_a_pass,
    ),
    "marked": (
        people.on_crew,
        papers.not_marked,
        papers.own_paper,
        papers.printed_by_then,
        papers.current_paper,
        papers.adds_up,
        papers.marker,
        papers.back_after_a_pass,
        papers.try_open,
    ),
    "oral": (
        people.on_crew,
        skills.known_module,
        people.by_trainer,
        people.qualified,
        papers.missed_here,
    ),
    "signed-off": (
        people.on_crew,
        people.by_trainer,
        people.qualified,
        skills.rig_if_it_matters,
        skills.whole_sheet,
    ),
    "suspended": (people.on_crew, people.stated, skills.known_module, people.reason),
    "restored": (people.stated, people.is_suspended),
    "incident": (people.on_crew, people.stated, skills.known_module, people.told),
    "exception": (
        people.on_crew,
        people.stated,
        skills.known_module,
        people.reason,
        papers.exception_allowed,
    ),
    "voided": (people.can_be_voided, people.reason),
    "edition": (skills.new_edition,),
    "changed": (people.stated, skills.work_that_changed, people.told),
    "under-age": (people.on_crew, people.stated, people.day_of_age),
}


def permit(event: Event, history: Sequence[Event], curriculum: Curriculum) -> None:
    """Raises Refusal unless the event may be entered after `history`.

    Hand it to `Records.append`, so that no other program can write in between.
    """
    entry = Entry(event, history, curriculum)
    if event.seen > event.entered:
        raise Refusal(f"{event.seen} is still to come", "give the day on which it happened")
    for check in RULES[event.kind]:
        check(entry)
