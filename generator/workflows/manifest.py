"""What the last build made, and of what: kept beside the printed things as plain JSON."""

from __future__ import annotations

import json
from dataclasses import asdict, dataclass, field
from hashlib import sha256
from pathlib import Path
from typing import Any

from generator.printing.writing import write_whole

NAME = ".build.json"
_FORM = 1  # another form is not understood, and everything is made afresh


@dataclass(frozen=True)
class File:
    """A file within the folder of printed things: its pages (0 for HTML) and its bytes' digest."""

    name: str
    pages: int
    digest: str

    def is_there(self, out: Path) -> bool:
        """Whether the file lies there as it was written."""
        path = out / self.name
        return path.is_file() and digest_of(path.read_bytes()) == self.digest


@dataclass(frozen=True)
class Made:
    """A product as it was made: the digest of its page, and its files."""

    kind: str
    title: str
    page: str
    files: tuple[File, ...]

    def is_there(self, out: Path) -> bool:
        """Whether every file of it lies there as it was written."""
        return all(file.is_there(out) for file in self.files)


@dataclass(frozen=True)
class Entry:
    """A part: the key it was made under, and its products by id."""

    key: str
    made: dict[str, Made] = field(default_factory=dict)

    def is_fresh(self, key: str, out: Path) -> bool:
        """Whether making it again would give what lies there."""
        return self.key == key and all(made.is_there(out) for made in self.made.values())


def digest_of(content: bytes) -> str:
    """The digest that files and pages are known by."""
    return sha256(content).hexdigest()


def read_manifest(out: Path) -> dict[str, Entry]:
    """The parts of the last build by id; none where there was none or it can't be made out."""
    try:
        kept = json.loads((out / NAME).read_text("utf-8"))
        if kept["form"] != _FORM:
            return {}
        return {name: _entry(part) for name, part in kept["parts"].items()}
    except (OSError, ValueError, KeyError, TypeError, AttributeError):
        return {}


def write_manifest(out: Path, parts: dict[str, Entry]) -> None:
    """Keep the parts for the next build. Raises Refusal."""
    kept = {"form": _FORM, "parts": {name: asdict(entry) for name, entry in parts.items()}}
    write_whole(out / NAME, json.dumps(kept, indent=1, sort_keys=True).encode())


def _entry(part: dict[str, Any]) -> Entry:
    return Entry(part["key"], {name: _made(made) for name, made in part["made"].items()})


def _made(made: dict[str, Any]) -> Made:
    files = tuple(File(**file) for file in made["files"])
    return Made(made["kind"], made["title"], made["page"], files)
