"""Files written so that a reader meets the old one or the whole new one, never half of one."""

from __future__ import annotations

import os
import tempfile
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

_SIDES = ("-journal", "-wal", "-shm")
"""What SQLite may have left beside a record that was not closed."""

_STALE = 24 * 60 * 60
"""Seconds after which a part file was surely left by a program that was stopped."""


@contextmanager
def replacing(target: Path) -> Iterator[Path]:
    """A new empty file, for its owner only, that takes the place of `target` at the end.

    If anything goes wrong in the block, it is removed and `target` stays as it was.
    """
    _sweep(target)
    handle, name = tempfile.mkstemp(".part", f".{target.name}.", target.parent)
    os.close(handle)
    part = Path(name)
    try:
        yield part
        sync(part)
        os.replace(part, target)
        sync_folder(target.parent)
    finally:
        _remove(part)


def _sweep(target: Path) -> None:
    """Remove what earlier programs left when they were stopped half-way."""
    for old in target.parent.glob(f".{target.name}.*.part*"):
        if time.time() - old.stat().st_mtime > _STALE:
            old.unlink(missing_ok=True)


def _remove(part: Path) -> None:
    for each in (part, *(Path(f"{part}{side}") for side in _SIDES)):
        each.unlink(missing_ok=True)


def sync(path: Path) -> None:
    """Have the disk hold the file."""
    _sync(path, os.O_RDWR)


def sync_folder(folder: Path) -> None:
    """Have the disk hold the folder's names, where the system can be asked to."""
    if os.name == "posix":
        _sync(folder, os.O_RDONLY)


def _sync(path: Path, how: int) -> None:
    handle = os.open(path, how)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)


def make(path: Path) -> None:
    """An empty file for its owner only; nothing happens when there is one already."""
    try:
        os.close(os.open(path, os.O_CREAT | os.O_EXCL | os.O_RDWR, 0o600))
    except FileExistsError:
        return  # another program was quicker; it is the same record


def set_aside(path: Path, day: str) -> Path:
    """Give the file a second name beside it, `records-aside-DAY`, and return that name.

    The first name still stands where the system allows that, so a record is there at any moment.
    """
    aside = _free_name(path, day)
    for side in _SIDES:  # a journal left behind would be played back into the next file
        if (left := Path(f"{path}{side}")).exists():
            os.replace(left, f"{aside}{side}")
    try:
        os.link(path, aside)
    except OSError:
        os.replace(path, aside)
    sync_folder(path.parent)
    return aside


def _free_name(path: Path, day: str) -> Path:
    number, name = 1, path.with_name(f"{path.stem}-aside-{day}{path.suffix}")
    while name.exists():
        number += 1
        name = path.with_name(f"{path.stem}-aside-{day}-{number}{path.suffix}")
    return name


def open_to_others(path: Path) -> bool:
    """Whether other people who use this computer may read the file."""
    return os.name == "posix" and bool(path.stat().st_mode & 0o077)


def identity(path: Path) -> tuple[int, int]:
    """What stays the same while a name means the same file."""
    found = path.stat()
    return found.st_dev, found.st_ino
