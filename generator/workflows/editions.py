"""Editions that no longer fit their text, and whom an edit lapses, told before it counts."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from pathlib import Path

from generator.errors import Fault, Refusal
from generator.model.course import Curriculum, Module
from generator.model.event import Event
from generator.reading.curriculum import Places
from generator.workflows.lapses import Lapse, if_raised, lapses
from generator.workflows.record import history
from generator.workflows.today import today


def edition_warnings(
    curriculum: Curriculum, places: Places, records: Path | None
) -> Iterator[Fault]:
    """Text that changed under an edition, a re-brief that is of another one, and lapses."""
    try:
        events = history(records) if records else ()
    except Refusal as refusal:
        events = ()
        yield refusal.at(str(records), 0)
    for lapse in lapses(curriculum, events, today()):
        yield from _lapse_warnings(lapse, places["module", lapse.module.id])
    for module in curriculum.modules.values():
        yield from _text_warnings(curriculum, module, events, places["module", module.id])


def _lapse_warnings(lapse: Lapse, place: tuple[str, int]) -> Iterator[Fault]:
    module = lapse.module
    if lapse.at_once:
        yield Fault(
            *place,
            f"{module.title}: this change lapses {counted(lapse.at_once)} at once",
            f"raise edition to {module.edition + 1}, which leaves time for a re-brief; or teach "
            "them first",
        )
    if lapse.brief and lapse.by:
        yield Fault(
            *place,
            f"{module.title}: edition {module.edition} lapses {counted(lapse.brief)} after "
            f"{lapse.by}",
            f"wording only? put edition back to {module.edition - 1}. Else give a re-brief by "
            f"{lapse.by}: rigprimer brief {module.id} --everyone",
        )


def _text_warnings(
    curriculum: Curriculum, module: Module, events: Sequence[Event], place: tuple[str, int]
) -> Iterator[Fault]:
    changed = module.changed
    if changed and changed.edition != module.edition:
        what = f"{module.title}: changed: is about edition {changed.edition}"
        yield Fault(*place, what, f"write what edition {module.edition} changed, or take it out")
    if module.wording != module.digest:
        raised = if_raised(curriculum, events, module, today()) if events else None
        told = f"; raising it lapses {counted(raised.brief)}" if raised and raised.brief else ""
        told += f" after {raised.by} without a re-brief" if raised and told and raised.by else ""
        yield Fault(
            *place,
            f"{module.title}: the text has changed since edition {module.edition} was set{told}",
            f"if what is taught changed, raise edition; either way write wording: "
            f'"{module.digest}"',
        )


def counted(names: Sequence[str]) -> str:
    """`8 people (Juno, Teo …)`."""
    some = ", ".join(names[:6]) + (" …" if len(names) > 6 else "")
    return f"{len(names)} {'person' if len(names) == 1 else 'people'} ({some})"
