"""Standing: where a person stands in a module, on a rig where that matters."""

from __future__ import annotations

from dataclasses import dataclass

STATES = (
    "not started",
    "learning",
    "passed paper",
    "cleared",
    "due soon",
    "re-brief",
    "lapsed",
    "suspended",
    "left",
)
WORKING = ("cleared", "due soon", "re-brief")
"""States in which the person may do the work alone today."""


@dataclass(frozen=True)
class Standing:
    """One line of the board. `missing` says in plain words what stands in the way, or soon will.

    `since` is the day the state began and `due` the last day it holds unrenewed (ISO, or "").
    `grants` is the duty the module clears a person for, such as "mix"; `short` says what is
    missing in a word or two each.
    """

    person: str
    module: str
    rig: str
    state: str
    missing: tuple[str, ...]
    since: str
    due: str
    grants: str = ""
    short: tuple[str, ...] = ()
    renew: str = ""  # what is to be done by the day it is due

    @property
    def cleared(self) -> bool:
        """Whether the person may do the work alone today."""
        return self.state in WORKING
