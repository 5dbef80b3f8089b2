"""Sentences of lessons that state numbers, and where each number comes from."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Origin:
    """A number as printed and what it was looked up from.

    `name` is a setting of shop.yaml (`shop.limit.line_ft`), or the relation it was worked by.
    """

    number: str
    name: str

    @property
    def is_setting(self) -> bool:
        """Whether the owner has set it."""
        return self.name.startswith("shop.")


@dataclass(frozen=True)
class Stated:
    """A sentence with numbers that carry units, look-ups filled in.

    `kind` is "point", "step" or the signal of a caution; only a caution has sources of its own.
    A number without an origin is typed, and rests on the sources.
    """

    module: str
    lesson: str
    kind: str
    title: str
    sentence: str
    numbers: tuple[str, ...]
    origins: tuple[Origin, ...]
    sources: tuple[str, ...] = ()
