"""When what was learned is asked again, over a season of so many days."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta
from fractions import Fraction

from generator.maths.exact import half_up

_SHORT, _YEAR = 60, 365  # days: up to here the wider gap, from here the narrower
_WIDE, _NARROW = Fraction(15, 100), Fraction(75, 1000)  # first gap as a share of the season
_EARLY = (2, 7)  # while it is all new, where the season is long enough
_GROWS = 3  # each later gap ends at so many times the day before


def first_gap(days: int) -> Fraction:
    """The share of the season after which the first review comes.

    Gaps of 10 to 20 % of the time to remember served best for weeks, 5 to 10 % for a year; the
    middle of each is taken, and between the two the straight line.
    """
    within = Fraction(min(max(days, _SHORT), _YEAR) - _SHORT, _YEAR - _SHORT)
    return _WIDE + (_NARROW - _WIDE) * within


def review_days(days: int) -> tuple[int, ...]:
    """The days of review after the day of teaching, the last one within the season.

    >>> review_days(180)
    (2, 7, 22, 66)
    """
    first = max(1, int(half_up(days * first_gap(days))))
    found = [early for early in _EARLY if 2 * early <= first]
    day = first
    while day <= days:
        found.append(day)
        day *= _GROWS
    return tuple(found)


@dataclass(frozen=True)
class Season:
    """A season: its first day, if that is known, and its length in days."""

    days: int
    start: date | None = None

    def reviews(self) -> tuple[tuple[int, str], ...]:
        """The review days with their dates as ISO texts, "" while the start is not known."""
        return tuple(
            (day, (self.start + timedelta(days=day)).isoformat() if self.start else "")
            for day in review_days(self.days)
        )
