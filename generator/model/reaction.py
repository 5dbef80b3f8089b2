"""A chemical reaction with its coefficients worked out."""

from __future__ import annotations

from dataclasses import dataclass

from generator.maths.chemistry import Balanced


@dataclass(frozen=True)
class Reaction:
    """A titled reaction, balanced, with the sources that say it happens."""

    id: str
    title: str
    balanced: Balanced
    sources: tuple[str, ...]
