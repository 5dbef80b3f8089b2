"""Keeping the record safe: backups, the second copy, open text, and tests of the whole."""

from __future__ import annotations

import logging
import os
from collections import deque
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

from generator.errors import Refusal
from generator.model.shop import Shop
from generator.records import copies, files, text, troubles
from generator.records.copies import Copied
from generator.records.rows import Row
from generator.records.store import Records, open_records
from generator.records.synced import sign_of_syncing
from generator.workflows.place import Place
from generator.workflows.today import today

_log = logging.getLogger(__name__)

BACKUPS = "backups"
"""Folder beside the record for backups that were given no name."""

DIFFERENCES = 20
"""Events named one by one when two records are compared."""


def backup(place: Place, target: Path | None, yes: bool = False, damaged: bool = False) -> Copied:
    """Write a tested copy of the record, by default to a new name in `backups`. Raises Refusal.

    A backup with events that the record does not have is overwritten only with `yes`; a record
    that is not whole is copied only with `damaged`.
    """
    place.require_own()
    with open_records(place.records) as records:
        target = _backup_name(place, records, target)
        if target.exists() and target.stat().st_size and not yes:
            _require_older(records, target)
        return copies.write_copy(records, target, damaged)


def _backup_name(place: Place, records: Records, target: Path | None) -> Path:
    folder = target or place.records.parent / BACKUPS
    if target and not target.is_dir():
        return target
    with troubles.in_plain_words(folder):
        folder.mkdir(exist_ok=True)
    return folder / f"{records.path.stem}-{today()}-{records.last().number}.sqlite3"


def _require_older(records: Records, target: Path) -> None:
    newer = copies.beyond(target, records.path)
    if newer:
        events = "event" if newer == 1 else "events"
        raise Refusal(
            f"{target} has {newer} {events} that the record does not have",
            "name another file; to overwrite it all the same, add --yes",
        )


def newest_backup(place: Place) -> Path | None:
    """The file of the folder `backups` that was written last; None where there is none."""
    found = (place.records.parent / BACKUPS).glob("*.sqlite3")
    return max(found, key=lambda file: file.stat().st_mtime, default=None)


def restore(place: Place, source: Path, yes: bool = False) -> Copied:
    """Put a backup in the place of the record, which is kept beside it. Raises Refusal."""
    place.require_own()
    return copies.bring_back(source, place.records, today(), yes)


def write_text(place: Place, target: Path) -> Copied:
    """Export the whole record as open text, and read it back to test it. Raises Refusal."""
    place.require_own()
    _require_own_export(target)
    with open_records(place.records) as records:
        if faults := records.verify():
            raise troubles.not_whole(place.records, faults)
        last = records.last()
        with _system_words(target), files.replacing(target) as part:
            with part.open("wb") as out:
                out.writelines(text.lines_of(records.rows(), last))
            _require_readable(part, target)
    return Copied(target, last)


def _require_readable(part: Path, target: Path) -> None:
    """What was written is read back, seal by seal."""
    try:
        with part.open("rb") as written:
            deque(text.rows_of(written, str(target)), maxlen=0)
    except Refusal as refusal:
        raise Refusal(
            f"{target} was not written as it should be; it was thrown away", "check the disk"
        ) from refusal


def _require_own_export(target: Path) -> None:
    """An export overwrites an export and nothing else."""
    with _system_words(target):
        if target.is_dir():
            raise Refusal(f"{target} is a folder", "name a file in it")
        start = b""
        if target.exists():
            with target.open("rb") as there:
                start = there.read(100)
    if start and text.FORMAT.encode() not in start:
        raise Refusal(f"{target} is another file, not an export", "name a new file")


def read_text(place: Place, source: Path) -> Copied:
    """Make the record of an export, where there is none or an empty one. Raises Refusal."""
    place.require_own()
    copies.require_empty(place.records)
    with _system_words(source), source.open("rb") as stream:
        return copies.bring_in(text.rows_of(stream, str(source)), place.records)


@contextmanager
def _system_words(path: Path) -> Iterator[None]:
    """What the system says about a file of text, as a Refusal."""
    try:
        yield
    except OSError as error:
        reason = (error.strerror or "it failed").lower()
        raise Refusal(
            f"{path} can't be read or written: {reason}", "check the name and the disk"
        ) from error


def after_writing(place: Place, shop: Shop) -> None:
    """Make the second copy the owner asked for; warn of what would lose events one day.

    Nothing here undoes the write: warnings are logged, which shows them on the screen.
    """
    if sign := sign_of_syncing(place.records):
        _log.warning("WARNING: %s", synced_words(place.records, sign))
    if shop.copy_to:
        _second_copy(place, second_copy_path(place, shop))


def second_copy_path(place: Place, shop: Shop) -> Path:
    """Where the second copy lies; a folder named without a root is meant from the shop folder."""
    folder = place.curriculum.parent / os.path.expanduser(shop.copy_to)
    return folder / place.records.name


def _second_copy(place: Place, target: Path) -> None:
    try:
        if not target.parent.is_dir():
            raise Refusal(f"there is no folder {target.parent}", "plug the disk in, or make it")
        with open_records(place.records) as records:
            done = copies.keep_up(records, target, today())
    except Refusal as refusal:
        _log.warning("WARNING: entered, but the second copy was not made: %s", refusal)
        return
    if done.aside:
        _log.warning(
            "WARNING: the second copy did not fit the record: it was damaged, or has events the "
            "record does not have. It was kept as %s, and a new copy was made.",
            done.aside,
        )


def synced_words(record: Path, sign: str) -> str:
    """Why a record in a synchronised folder is a danger, and what to do."""
    return (
        f"the record {record} seems to lie in a folder that is kept the same on several computers "
        f"({sign}). Two computers writing to it will lose events. Move the shop folder to a plain "
        "folder on one computer; set copy_to in shop.yaml to have a copy elsewhere."
    )


@dataclass(frozen=True)
class Examined:
    """What a test of the record found: `faults` are damage, `notes` are worth a look."""

    faults: tuple[str, ...]
    notes: tuple[str, ...]


def examine(place: Place, head: str | None = None, against: Path | None = None) -> Examined:
    """Go through the whole record; look for a printed head; compare with a copy.

    Raises Refusal when a file can't be opened.
    """
    with open_records(place.records) as records:
        faults, notes = records.verify(), [f"The record ends at {_end(records)}."]
        if head:
            (notes if records.knows(head) else faults).append(_about_head(records, head))
        if against:
            with copies.open_backup(against) as other:
                faults += _differences(records, other)
                notes.append(f"The copy {against} ends at {_end(other)}.")
    if files.open_to_others(place.records):
        notes.append(f"Others on this computer may read {place.records}: chmod 600 keeps it yours.")
    if sign := sign_of_syncing(place.records):
        notes.append(f"WARNING: {synced_words(place.records, sign)}")
    return Examined(tuple(faults), tuple(notes))


def _end(records: Records) -> str:
    return f"event {records.last().number}, head {records.head()}"


def _about_head(records: Records, head: str) -> str:
    place = records.place_of(head)
    if place is None:
        return (
            f"the head {head} is not in the chain: events that were there when it was printed are "
            "missing or were changed, or it is another record's, or mistyped"
        )
    since = records.last().number - place
    later = f"entered since: {since}" if since else "the newest"
    return f"The head {head} is in the chain: printed after event {place}; {later}."


def _differences(records: Records, other: Records) -> Iterator[str]:
    """Where two copies of one record tell different things, event by event."""
    told = 0
    theirs = iter(other.rows())
    copy = next(theirs, None)
    for row in records.rows():
        while copy and copy.number < row.number:
            copy = next(theirs, None)  # an event missing here: the chain names it
        if copy and copy.number == row.number and copy != row:
            told += 1
            if told > DIFFERENCES:
                yield "and more differences from the copy after that"
                return
            yield f"event {row.number} differs from the copy: {_difference(row, copy)}"
    missing = other.last().number - records.last().number
    if missing > 0:
        yield f"the copy {other.path} has {missing} newer events that are missing here"


def _difference(row: Row, copy: Row) -> str:
    pairs = zip(row._fields, row, copy, strict=True)
    unlike = [each for each in pairs if each[1] != each[2] and each[0] not in ("previous", "hash")]
    return (
        "; ".join(
            f"its {name} is not the same"
            if name in ("data", "long")
            else f'{name} is "{here}" here and "{there}" there'
            for name, here, there in unlike
        )
        or "its seal"
    )
