"""The files of a curriculum: plain ones inside its folder, and nothing that leads out of it.

A link to another place, a pipe or a device could show a page what is none of its business, or
never end. So the whole folder is looked through before a single file is opened.
"""

from __future__ import annotations

import os
from collections.abc import Iterator
from pathlib import Path

from generator.errors import Fault, Faults

LARGEST, DEEPEST = 1_000_000, 8  # bytes of a YAML file, folders within folders


def plain_files(folder: Path, ending: str = "") -> list[Path]:
    """The files of a folder and of those in it, in order, whose names end so.

    What is hidden (.git, the lock of an editor) is no part of a curriculum. Raises Faults unless
    everything else is a plain file or folder inside.
    """
    entries = list(_entries(folder))
    faults = [fault for entry in entries for fault in _faults(entry, folder)]
    if faults:
        raise Faults(faults)
    return [Path(e.path) for e in entries if e.name.endswith(ending) and e.is_file()]


def module_files(folder: Path) -> list[Path]:
    """The module.yaml of every module of a curriculum, in the order of their names."""
    paths = sorted(folder.glob("modules/*/module.yaml"))
    return [path for path in paths if not path.parent.name.startswith(".")]


def shown(path: Path, folder: Path) -> str:
    """A path as messages print it, from the folder down; what is not printable is spelled out."""
    name = f"{folder.name}/{path.relative_to(folder).as_posix()}"
    return name if name.isprintable() else name.encode("unicode_escape").decode()


def _entries(folder: str | Path, depth: int = 0) -> Iterator[os.DirEntry[str]]:
    """Everything in a folder that is not hidden, in order, links not followed."""
    for entry in sorted(os.scandir(folder), key=lambda entry: entry.name):
        if not entry.name.startswith("."):
            yield entry
            if entry.is_dir(follow_symlinks=False) and depth < DEEPEST:
                yield from _entries(entry.path, depth + 1)


def _faults(entry: os.DirEntry[str], folder: Path) -> Iterator[Fault]:
    for what, next in _troubles(entry, folder):
        yield Fault(shown(Path(entry.path), folder), 0, what, next)


def _troubles(entry: os.DirEntry[str], folder: Path) -> Iterator[tuple[str, str]]:
    is_yaml, is_folder = entry.name.endswith(".yaml"), entry.is_dir(follow_symlinks=False)
    if len(Path(entry.path).relative_to(folder).parts) > DEEPEST:
        yield "it lies too deep", f"{DEEPEST} folders within folders are the limit"
    if not entry.name.isprintable():
        yield "the name holds signs that nobody sees", "rename it"
    if entry.is_symlink() or (is_folder and not _lies_in(entry.path, folder)):
        yield "it is a link to another place", "put the file itself here"
    elif is_yaml if is_folder else not entry.is_file(follow_symlinks=False):
        yield "it is no plain file", "put a file here, or take it away"
    elif is_yaml and entry.stat(follow_symlinks=False).st_size > LARGEST:
        yield "the file is too large", f"{LARGEST} bytes at most"


def _lies_in(inner: str, folder: Path) -> bool:
    """Whether a folder is where it seems to be: Windows has links that look like folders."""
    return Path(inner).resolve().is_relative_to(folder.resolve())
