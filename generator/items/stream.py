"""Whole numbers drawn from a seed by a counter hash: the same everywhere, for ever.

`random` is not used: its sequences are not promised across versions, and its state would make one
draw depend on another. Every draw here depends on the seed and its own place alone.
"""

from __future__ import annotations

from collections.abc import Sequence
from hashlib import blake2b
from typing import TypeVar

T = TypeVar("T")
_BYTES = 64


class Stream:
    """Draws in order from one seed; `label` keeps streams of different uses apart."""

    __slots__ = ("_block", "_bytes", "_place", "_seed")

    def __init__(self, label: str, seed: int | str) -> None:
        self._seed = f"{label}\0{seed}\0".encode()
        self._block = 0
        self._bytes = b""
        self._place = _BYTES

    def below(self, count: int) -> int:
        """A whole number from 0 to `count` − 1; the bias of 64 bits is far below notice."""
        if self._place >= _BYTES:
            self._bytes = blake2b(self._seed + b"%d" % self._block, digest_size=_BYTES).digest()
            self._block += 1
            self._place = 0
        chunk = self._bytes[self._place : self._place + 8]
        self._place += 8
        return int.from_bytes(chunk, "big") % count

    def one_of(self, things: Sequence[T]) -> T:
        """One of the things."""
        return things[self.below(len(things))]

    def shuffled(self, things: Sequence[T]) -> list[T]:
        """The things in a drawn order (Fisher and Yates)."""
        order = list(things)
        for place in range(len(order) - 1, 0, -1):
            other = self.below(place + 1)
            order[place], order[other] = order[other], order[place]
        return order
