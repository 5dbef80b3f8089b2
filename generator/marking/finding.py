"""What marking finds out about one written answer."""

from __future__ import annotations

from dataclasses import dataclass

from generator.words import words

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


def told(language: str, name: str, **values: object) -> str:
    """A sentence of marking's own, in the language of the paper.

    >>> told("en", "bare", unit="gal")
    'The number is right. Always write its unit: gal.'
    """
    return words(language)["marking"][name].format(**values)


def ask_trainer(why: str) -> Finding:
    """The finding for what only a person can decide."""
    return Finding("ask-trainer", tell=f"The trainer decides: {why}.")
