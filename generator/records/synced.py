"""Signs that a folder is kept the same on several computers by some program.

Two computers that both write to their copy of a record end with two records, each with events the
other does not have, and the program that should join them can only keep one. It also may copy the
file half-way through a write. The signs are general: hidden names in the folders above, attributes
the system gives such files, and copies "in conflict" beside the record.
"""

from __future__ import annotations

import os
import re
from collections.abc import Iterator
from pathlib import Path

_HIDDEN = re.compile(r"[._]{1,2}.*(sync|cloud|drive|box|stfolder).*", re.IGNORECASE)
"""Names that such programs give to what they keep at the top of their folder."""

_ABOVE = re.compile(r"cloud ?storage|mobile documents|[a-z]+drive( - .+)?", re.IGNORECASE)
"""Names of folders that systems themselves set up for it."""

_CONFLICT = re.compile(r".*conflict.*", re.IGNORECASE)

_ONLINE = 0x1000 | 0x40000 | 0x80000 | 0x100000 | 0x400000
"""Windows file attributes: offline, recall on open, pinned, unpinned, recall on data access."""


def sign_of_syncing(record: Path) -> str:
    """What shows that the record lies in a synchronised folder, in words; "" if nothing does."""
    return next(_signs(record.absolute()), "")


def _signs(record: Path) -> Iterator[str]:
    for name in _names_in(record.parent):
        if name.startswith(record.stem) and _CONFLICT.fullmatch(name):
            yield f"there is a second copy beside it: {name}"
    if any(_attributes(path) & _ONLINE for path in (record, record.parent)):
        yield "the system marks it as a file that is also kept elsewhere"
    for folder in _folders(record):
        if _ABOVE.fullmatch(folder.name):
            yield f"it lies in {folder}"
        for name in _names_in(folder):
            if _HIDDEN.fullmatch(name):
                yield f"there is {name} in {folder}"
        if found := [name for name in _extended(folder) if re.search("sync|cloud|drive", name)]:
            yield f"{folder} is marked {found[0]}"


def _folders(record: Path) -> Iterator[Path]:
    """The folders above, up to the person's own: there the settings of programs lie about."""
    homes = (Path.home(), *Path.home().parents)
    for folder in record.parents:
        if folder in homes:
            return
        yield folder


def _names_in(folder: Path) -> list[str]:
    try:
        return sorted(os.listdir(folder))
    except OSError:
        return []


def _attributes(path: Path) -> int:
    try:
        return int(getattr(path.stat(), "st_file_attributes", 0))
    except OSError:
        return 0


def _extended(folder: Path) -> list[str]:
    """Names of extended attributes, where the system has any."""
    try:
        return list(os.listxattr(folder)) if hasattr(os, "listxattr") else []
    except OSError:
        return []
