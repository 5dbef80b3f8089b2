"""Days of the record: ISO texts, counted and compared."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, timedelta
from itertools import pairwise


def is_day(text: str) -> bool:
    """Whether the text is a day, spelled as the record spells it."""
    try:
        return date.fromisoformat(text).isoformat() == text
    except ValueError:
        return False


def days_between(first: str, second: str) -> int:
    """Days from the first day to the second (both ISO)."""
    return (date.fromisoformat(second) - date.fromisoformat(first)).days


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


def last_absence(active: Iterable[str], on: str, limit: int) -> Absence | None:
    """The last stretch of more than `limit` days, up to the day `on`, without a day at work."""
    days = sorted(active)
    found = None
    for before, after in pairwise([*days, on]):
        length = days_between(before, after)
        if length > limit:
            back = after if after in active else ""
            found = Absence(length, later(before, limit + 1), back)
    return found
