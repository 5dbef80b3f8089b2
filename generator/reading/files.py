"""The files of a curriculum: plain ones inside its folder, and nothing that leads out of it.

A link to another place, a pipe or a device could show a page what is none of its business, or
never end. So the whole folder is looked through before a single file is opened.
"""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

from generator.errors import Fault, Faults

LARGEST = 1_000_000  # bytes of a YAML file


def plain_files(folder: Path, ending: str = "") -> list[Path]:
    """The files of a folder and of those in it, in order, whose names end so.

    What is hidden (.git, the lock of an editor) is no part of a curriculum. Raises Faults unless
    everything else is a plain file or folder inside.
    """
    inside = folder.resolve()
    listed = [path for path in sorted(folder.rglob("*")) if not is_hidden(path, folder)]
    faults = [fault for path in listed for fault in _faults(path, inside, shown(path, folder))]
    if faults:
        raise Faults(faults)
    return [path for path in listed if path.is_file() and path.name.endswith(ending)]


def is_hidden(path: Path, folder: Path) -> bool:
    """Whether the path leads over a name that begins with a dot."""
    return any(part.startswith(".") for part in path.relative_to(folder).parts)


def shown(path: Path, folder: Path) -> str:
    """A path as messages print it, from the folder down; what is not printable is spelled out."""
    name = f"{folder.name}/{path.relative_to(folder).as_posix()}"
    return name if name.isprintable() else name.encode("unicode_escape").decode()


def _faults(path: Path, inside: Path, shown: str) -> Iterator[Fault]:
    if not path.name.isprintable():
        yield Fault(shown, 0, "the name holds signs that nobody sees", "rename it")
    is_yaml = path.suffix == ".yaml"
    if path.is_symlink() or not path.resolve().is_relative_to(inside):
        yield Fault(shown, 0, "it is a link to another place", "put the file itself here")
    elif not path.is_file() and not (path.is_dir() and not is_yaml):
        yield Fault(shown, 0, "it is no plain file", "put a file here, or take it away")
    elif is_yaml and path.stat().st_size > LARGEST:
        yield Fault(shown, 0, "the file is too large", f"{LARGEST} bytes at most")
