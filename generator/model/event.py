"""Events: everything the records hold; standing is worked out from them alone."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any

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
    "under-age",
)


@dataclass(frozen=True)
class Event:
    """One fact. `seen` is the day it happened, `entered` when it was typed in (ISO texts).

    `number` is its place in the order of the record, given by the records, 0 before that.
    """

    kind: str
    person: str
    seen: str
    entered: str
    by: str = ""  # the trainer or owner who states it
    data: dict[str, Any] = field(default_factory=dict)
    number: int = 0
