"""One written answer of one item becomes a verdict."""

from __future__ import annotations

from generator.marking.finding import FULL, HALF, Finding, told
from generator.marking.letters import find_chosen, find_ordered
from generator.marking.words import is_blank
from generator.marking.write_in import find_written
from generator.model.item import Item
from generator.model.paper import Verdict
from generator.words import WRITTEN_IN

_FORMS = {"write": find_written, "choose": find_chosen, "order": find_ordered}


def judge(item: Item, position: int, written: str, language: str = WRITTEN_IN) -> Verdict:
    """The verdict on what was `written` at `position` (from 1) of a paper in that language.

    Only full credit counts on a must item; what can't be read is the trainer's to decide.
    """
    if is_blank(written):
        finding = Finding("blank", tell=told(language, "blank"))
    else:
        finding = _FORMS[item.form](item, written, language)
    half = finding.kind in HALF and not item.must
    counts = finding.kind in FULL
    tell = f"{finding.tell} {told(language, 'half')}" if half else finding.tell
    return Verdict(position, written, finding.kind, counts, finding.slip, tell, half)
