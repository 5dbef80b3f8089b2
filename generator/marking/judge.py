"""One written answer of one item becomes a verdict."""

from __future__ import annotations

from generator.marking.finding import FULL, Finding
from generator.marking.letters import find_chosen, find_ordered
from generator.marking.words import is_blank
from generator.marking.write_in import find_written
from generator.model.item import Item
from generator.model.paper import Verdict

_FORMS = {"write": find_written, "choose": find_chosen, "order": find_ordered}


def judge(item: Item, position: int, written: str) -> Verdict:
    """The verdict on what was `written` at `position` (from 1).

    Only full credit counts on a must item; what can't be read is the trainer's to decide.
    """
    finding = Finding("blank", tell="No answer.") if is_blank(written) else _find(item, written)
    counts = finding.kind in FULL or (finding.kind == "no-unit" and not item.must)
    return Verdict(position, written, finding.kind, counts, finding.slip, finding.tell)


def _find(item: Item, written: str) -> Finding:
    return _FORMS[item.form](item, written)
