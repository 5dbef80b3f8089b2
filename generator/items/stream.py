"""Whole numbers drawn from a seed by a counter hash: the same everywhere, for ever.

`random` is not used: its sequences are not promised across versions, and its state would make one
draw depend on another. Every draw here depends on the seed and its own place alone.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from hashlib import blake2b
from itertools import count
from struct import Struct
from typing import TypeVar

T = TypeVar("T")
_EIGHT = Struct(">8Q")


def _hashed(seed: bytes) -> Iterator[int]:
    """Numbers of 64 bits, eight from each hash of the seed and a count."""
    for block in count():
        yield from _EIGHT.unpack(blake2b(seed + b"%d" % block, digest_size=64).digest())


class Stream:
    """Draws in order from one seed; `label` keeps streams of different uses apart."""

    __slots__ = ("_next",)

    def __init__(self, label: str, seed: int | str) -> None:
        self._next = _hashed(f"{label}\0{seed}\0".encode()).__next__

    def below(self, limit: int) -> int:
        """A whole number from 0 to `limit` − 1; the bias of 64 bits is far below notice."""
        return self._next() % limit

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
