"""What can happen to the record's file, said for the person in front of it."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path

from generator.errors import Refusal
from generator.records.rows import UnreadableError

_RESTORE = "keep a copy of the file as it is, then bring back the last backup: rigprimer restore"

_WORDS = {
    sqlite3.SQLITE_BUSY: (
        "is in use by another program",
        "close the other Rigprimer window or sync program, then try again",
    ),
    sqlite3.SQLITE_READONLY: (
        "can't be written: the file or its folder is read-only",
        "allow writing to both, or copy the shop folder to a disk that can be written",
    ),
    sqlite3.SQLITE_CANTOPEN: (
        "can't be opened: the file or its folder is closed to you",
        "allow reading and writing of both, or use an account that may",
    ),
    sqlite3.SQLITE_FULL: (
        "can't grow: the disk is full; nothing was entered",
        "free some space, then enter it again",
    ),
    sqlite3.SQLITE_IOERR: (
        "can't be read or written: the disk reports a fault; nothing was entered",
        "check the disk and its free space, make a backup elsewhere, then try again",
    ),
    sqlite3.SQLITE_NOTADB: ("is not a Rigprimer record", "name the right file with --records"),
    sqlite3.SQLITE_CORRUPT: ("is damaged or cut short", _RESTORE),
    sqlite3.SQLITE_CONSTRAINT: (
        "takes new events only, never a change of an old one",
        "void the wrong entry, then enter it anew: rigprimer void NUMBER --by NAME --why WHY",
    ),
}
_WORDS[sqlite3.SQLITE_LOCKED] = _WORDS[sqlite3.SQLITE_BUSY]
_WORDS[sqlite3.SQLITE_PERM] = _WORDS[sqlite3.SQLITE_CANTOPEN]
_DAMAGED = _WORDS[sqlite3.SQLITE_CORRUPT]


class Damaged(Refusal):
    """The file is a record, and what is in it can't be trusted."""


class Foreign(Refusal):
    """The file is no record, as far as can be seen."""


def missing(path: Path) -> Refusal:
    """There is no record where one was looked for."""
    return Refusal(
        f"there is no record at {path}", "the first entry makes one: rigprimer crew add NAME"
    )


def empty(path: Path) -> Refusal:
    """The file is there and holds nothing at all."""
    return Refusal(
        f"the record {path} is an empty file",
        "bring back the last backup: rigprimer restore; if there was never one, delete the file",
    )


def foreign(path: Path) -> Refusal:
    """Some other file, perhaps another program's database."""
    return _said(path, _WORDS[sqlite3.SQLITE_NOTADB])


def cut_short(path: Path) -> Refusal:
    """The end of the file is missing."""
    return _said(path, _DAMAGED)


def newer(path: Path) -> Refusal:
    """The file was written by a version of the tool that is yet to come."""
    return Refusal(
        f"the record {path} was made by a newer Rigprimer",
        "install the newer version on this computer; the file was left as it is",
    )


def replaced(path: Path) -> Refusal:
    """The file was restored, moved or removed while we had it open."""
    return Refusal(
        f"the record {path} was replaced while this was going on; nothing was entered",
        "look at the board, then enter it again",
    )


def not_whole(path: Path, faults: Sequence[str]) -> Refusal:
    """Rows of the record do not fit the chain."""
    more = f", and {len(faults) - 1} more" if len(faults) > 1 else ""
    return Refusal(
        f"the record {path} is not whole: {faults[0]}{more}",
        "run rigprimer check --records to see all of it, then bring back the last backup that is "
        "whole: rigprimer restore",
    )


def _unreadable(path: Path, number: int) -> Refusal:
    return Refusal(
        f"event {number} of the record {path} can't be read: it was changed",
        f"run rigprimer check --records to see what else was; {_RESTORE}",
    )


def _of_the_system(path: Path, error: OSError) -> Refusal:
    reason = (error.strerror or "no reason given").lower()
    return Refusal(
        f"the record {path} can't be opened: {reason}",
        "check that the folder is there and that you may write to it",
    )


@contextmanager
def in_plain_words(path: Path) -> Iterator[None]:
    """Turn what SQLite or the system says about the file into a Refusal."""
    try:
        yield
    except sqlite3.ProgrammingError:
        raise  # our own mistake, not the file's
    except sqlite3.DatabaseError as error:
        code = getattr(error, "sqlite_errorcode", sqlite3.SQLITE_CORRUPT) & 0xFF
        raise _said(path, _WORDS.get(code, _DAMAGED)) from error
    except UnreadableError as error:
        raise _unreadable(path, error.number) from error
    except OSError as error:
        raise _of_the_system(path, error) from error


def _said(path: Path, words: tuple[str, str]) -> Refusal:
    kind = _KINDS.get(words, Refusal)
    return kind(f"the record {path} {words[0]}", words[1])


_KINDS = {_DAMAGED: Damaged, _WORDS[sqlite3.SQLITE_NOTADB]: Foreign}
