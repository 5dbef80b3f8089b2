"""What can go wrong, said for the person who must mend it.

Leaf code raises `Refusal` (what is wrong, what to do). Code that knows the file and the line
collects `Fault`s and raises them together as `Faults`, so an author sees all of them in one run.
Both survive pickling, since printing runs in other processes.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass


@dataclass(frozen=True, order=True)
class Fault:
    """One thing wrong in one place; `line` counts from 1, 0 when the whole file is meant."""

    file: str
    line: int
    what: str
    next: str

    def __str__(self) -> str:
        place = f"{self.file}:{self.line}" if self.line else self.file
        return f"{place}: {self.what} — {self.next}"


class Refusal(Exception):
    """The request can't be carried out: `what` happened and what to do `next`."""

    def __init__(self, what: str, next: str) -> None:
        super().__init__(what, next)
        self.what = what
        self.next = next

    def __str__(self) -> str:
        return f"{self.what} — {self.next}"

    def at(self, file: str, line: int) -> Fault:
        """The same trouble with its place, once a caller knows it."""
        return Fault(file, line, self.what, self.next)


class Faults(Exception):
    """Every fault found in one go, in the order of file and line."""

    def __init__(self, faults: Iterable[Fault]) -> None:
        self.faults = tuple(sorted(set(faults)))
        super().__init__(self.faults)

    def __reduce__(self) -> tuple[type[Faults], tuple[tuple[Fault, ...]]]:
        return Faults, (self.faults,)

    def __str__(self) -> str:
        return "\n".join(map(str, self.faults))


def nearest(word: str, known: Iterable[str]) -> str:
    """A next step for an unknown `word`: the closest known one, or the whole list.

    >>> nearest("totl", ["stock", "total"])
    'did you mean "total"?'
    """
    from difflib import get_close_matches

    names = sorted(known)
    close = get_close_matches(word, names, n=1, cutoff=0.6)
    if close:
        return f'did you mean "{close[0]}"?'
    return f"use one of: {', '.join(names)}" if names else "remove it"
