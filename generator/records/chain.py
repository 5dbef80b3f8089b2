"""The hash chain: each event is sealed over the one before it, so no edit goes unseen.

The seal of an event is SHA-256, as hex, over four lines in UTF-8: the seal of the event before it
(64 zeros for the first); a JSON array of number, kind, person, seen, entered, by and paper; the
data as JSON; and the long list as JSON, or nothing. JSON has its keys sorted and no blanks.
"""

from __future__ import annotations

import hashlib
import re

from generator.records.rows import Row, canonical

START = "0" * 64
"""What the first event is sealed over."""

SHORT = 16
"""Hex digits of a printed head."""


def seal(row: Row, number: int | None = None) -> str:
    """What the row's hash must be, or would be under another number."""
    heads = canonical([row.number if number is None else number, *row[1:7]])
    text = "\n".join((row.previous, heads, row.data, row.long))
    return hashlib.sha256(text.encode("utf-8", "replace")).hexdigest()


def sealed(number: int, columns: tuple[str, ...], previous: str) -> Row:
    """The row of an event: `columns` are its kind, person, seen, entered, by, paper, data, long."""
    kind, person, seen, entered, by, paper, data, long = columns
    row = Row(number, kind, person, seen, entered, by, paper, data, previous, "", long)
    return row._replace(hash=seal(row))


def short(digest: str) -> str:
    """The first 64 bits of a hash, to be printed and read aloud: `3f9c-12ab-77d0-aa01`."""
    return "-".join(digest[at : at + 4] for at in range(0, SHORT, 4))


def typed_head(text: str) -> str:
    """The hex digits of a head as somebody typed it; "" when it can't be one."""
    digits = re.sub(r"[\s\u2010-\u2015-]", "", text.lower())
    whole = re.fullmatch(r"[0-9a-f]+", digits) and SHORT <= len(digits) <= len(START)
    return digits if whole else ""
