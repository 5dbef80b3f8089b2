"""What marking finds out about one written answer."""

from __future__ import annotations

from dataclasses import dataclass

FULL = frozenset({"right", "right-other-unit"})
"""Kinds that count on every item."""

HALF = frozenset({"no-unit", "rounding"})
"""Kinds that earn half a point where the item is not a must."""


@dataclass(frozen=True)
class Finding:
    """A kind of verdict, the slip it names and what to tell the person."""

    kind: str
    slip: str = ""
    tell: str = ""


def ask_trainer(why: str) -> Finding:
    """The finding for what only a person can decide."""
    return Finding("ask-trainer", tell=f"The trainer decides: {why}.")
