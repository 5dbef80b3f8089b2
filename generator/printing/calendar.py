"""What is due as a calendar (RFC 5545): the only module that knows the icalendar library."""

from __future__ import annotations

import hashlib
from datetime import UTC, date, datetime, time, timedelta

from icalendar import Alarm, Calendar, Event

from generator.model.file import Due, DueList
from generator.model.shop import Shop
from generator.printing.files import one_line

WARN = timedelta(days=-14)
"""How long before it the calendar reminds."""


def calendar_text(shop: Shop, due: DueList) -> bytes:
    """A day-long entry for each thing that is due; what is over already stands on today.

    The same list gives the same bytes, and an entry keeps its id when it is made again, so that a
    calendar puts the new one in the place of the old.
    """
    calendar = Calendar()
    calendar.add("prodid", "-//Rigprimer//Due list//EN")
    calendar.add("version", "2.0")
    calendar.add("x-wr-calname", one_line(f"Due: {shop.name}"))
    for line in due.lines:
        calendar.add_component(_entry(line, due.date))
    text: bytes = calendar.to_ical()
    return text


def _entry(line: Due, today: str) -> Event:
    entry = Event()
    day = date.fromisoformat(today if line.over else line.day)
    rigs = f" on {' and '.join(line.rigs)}" if line.rigs else ""
    lapsed = "LAPSED, " if line.over else ""
    entry.add("uid", f"{_id(line)}@rigprimer")
    entry.add("dtstamp", datetime.combine(date.fromisoformat(today), time(), UTC))
    entry.add("dtstart", day)
    entry.add("dtend", day + timedelta(days=1))
    entry.add("summary", one_line(f"{line.person}: {lapsed}{line.module}{rigs}"))
    entry.add("description", one_line(f"{line.what}. The board wins."))
    entry.add("transp", "TRANSPARENT")
    if not line.over:
        entry.add_component(_reminder(line))
    return entry


def _reminder(line: Due) -> Alarm:
    alarm = Alarm()
    alarm.add("action", "DISPLAY")
    alarm.add("description", one_line(f"{line.person}: {line.module} is due"))
    alarm.add("trigger", WARN)
    return alarm


def _id(line: Due) -> str:
    text = "\0".join((line.person, line.module, *line.rigs))
    return hashlib.sha256(text.encode()).hexdigest()[:24]
