"""The hash chain: each event is sealed over the one before it, so no edit goes unseen."""

from __future__ import annotations

import hashlib
from collections.abc import Sequence

from generator.records.rows import Row, canonical

START = "0" * 64
"""What the first event is sealed over."""


def seal(previous: str, *fields: int | str) -> str:
    """SHA-256 over the hash before and the fields (number, kind, … data), as hex."""
    return hashlib.sha256(f"{previous}\n{canonical(fields)}".encode()).hexdigest()


def short(digest: str) -> str:
    """The first 64 bits of a hash, to be printed and read aloud: `3f9c-12ab-77d0-aa01`."""
    return "-".join(digest[at : at + 4] for at in range(0, 16, 4))


def breaks(rows: Sequence[Row], last: int) -> list[str]:
    """Every edited, removed or reordered row in words; `last` is the highest number ever given."""
    spoiled = {row.number for row in rows if not _intact(row, row.number)}
    found: list[str] = []
    before = Row(0, "", "", "", "", "", "", "", START)
    for row in rows:
        found += _gap(before.number, row.number)
        if row.number in spoiled:
            found.append(_spoiled(row, spoiled))
        elif before.number not in spoiled and _torn(before, row):
            found.append(_unlinked(row.number))
        before = row
    return found + _gap(before.number, last + 1)


def _intact(row: Row, number: int) -> bool:
    return seal(row.previous, number, *row[1:7]) == row.hash


def _torn(before: Row, row: Row) -> bool:
    return row.number == before.number + 1 and row.previous != before.hash


def _gap(before: int, after: int) -> list[str]:
    return [f"event {number} was removed" for number in range(before + 1, after)]


def _spoiled(row: Row, spoiled: set[int]) -> str:
    # A row that fits its seal under another's number was moved; past a hundred it is plain damage.
    others = spoiled if len(spoiled) <= 100 else set()
    home = next((number for number in sorted(others) if _intact(row, number)), None)
    if home is None:
        return f"event {row.number} was changed after it was entered"
    return f"event {row.number} stands out of order: it was entered as event {home}"


def _unlinked(number: int) -> str:
    if number == 1:
        return "event 1 was not the first: the ones before it were removed"
    return f"event {number - 1} was replaced: event {number} was entered after another one"
