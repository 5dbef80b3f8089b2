"""Days of the record: ISO texts, counted and compared."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass
from datetime import date, timedelta
from functools import lru_cache


def is_day(text: str) -> bool:
    """Whether the text is a day, spelled as the record spells it."""
    try:
        return date.fromisoformat(text).isoformat() == text
    except ValueError:
        return False


def days_between(first: str, second: str) -> int:
    """Days from the first day to the second (both ISO)."""
    return (date.fromisoformat(second) - date.fromisoformat(first)).days


@lru_cache(maxsize=16384)  # a board asks it of every day at work of everybody
def later(day: str, days: int) -> str:
    """The day (ISO) that many days after."""
    return (date.fromisoformat(day) + timedelta(days)).isoformat()


@dataclass(frozen=True)
class Absence:
    """A stretch with nothing on record: its `days`, and the `lapse` day on which it was too long.

    `back` is the first day at work after it; "" when there is none yet.
    """

    days: int
    lapse: str
    back: str

    def covers(self, day: str) -> bool:
        """Whether what was proved on `day` is stale because of it."""
        return day < self.back or not self.back


def last_absence(active: Collection[str], on: str, limit: int) -> Absence | None:
    """The last stretch of more than `limit` days, up to the day `on`, without a day at work."""
    after, back = on, on if on in active else ""
    for before in sorted(active, reverse=True):
        if after > (last := later(before, limit)):
            return Absence(days_between(before, after), later(last, 1), back)
        after = back = before
    return None
