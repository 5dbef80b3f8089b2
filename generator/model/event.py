"""Events: everything the records hold; standing is worked out from them alone."""

from __future__ import annotations

from typing import Any, NamedTuple

KINDS = (
    "joined",
    "left",
    "returned",
    "trainer-named",
    "trainer-ended",
    "taught",
    "sheets-shown",
    "issued",
    "marked",
    "oral",
    "signed-off",
    "suspended",
    "restored",
    "incident",
    "exception",
    "voided",
    "edition",
    "changed",
    "under-age",
)
CAUSES = ("hazard", "equipment", "strength_test")
"""What may have changed in the work of a module; each is a switch of `rules: lapse:`."""


class Event(NamedTuple):
    """One fact. `seen` is the day it happened, `entered` when it was typed in (ISO texts).

    `number` is its place in the order of the record, given by the records, 0 before that.
    A tuple, since a record of many years has hundreds of thousands of them. `data` is for
    reading only: events that say the same share it.
    """

    kind: str
    person: str
    seen: str
    entered: str
    by: str = ""  # the trainer or owner who states it
    data: dict[str, Any] = {}  # noqa: RUF012 (one for all, since nobody writes to it)
    number: int = 0
