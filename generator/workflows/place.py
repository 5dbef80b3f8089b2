"""Where a shop's curriculum, records and printed things are."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from generator.errors import Refusal

_PACKAGE = Path(__file__).parents[1]
_SIGNS = ("shop.yaml", "modules")
"""One of them in a folder `curriculum` makes a shop's folder: the other may be lost or misnamed."""


@dataclass(frozen=True)
class Place:
    """The three places of a shop folder; `own` is False for the packaged starter."""

    curriculum: Path
    records: Path
    out: Path
    own: bool

    def require_own(self) -> None:
        """Raises Refusal unless this is a shop's own folder, in which records may be kept."""
        if not self.own:
            raise Refusal(
                "this folder is not a shop's folder, so nothing can be recorded here",
                "make one with: rigprimer start FOLDER, then work inside it",
            )


def find_place(
    curriculum: Path | None = None,
    records: Path | None = None,
    out: Path | None = None,
    here: Path | None = None,
) -> Place:
    """The place named by the options, else found by looking upwards from `here`.

    With no shop folder around, the packaged starter curriculum serves, and printed things go to
    `build/` in the current folder. Raises Refusal when that one is gone.
    """
    here = (here or _current_folder()).resolve()
    lessons = curriculum.resolve() if curriculum else _lessons_above(here)
    home = lessons.parent if lessons else here
    return Place(
        lessons or starter(),
        records or home / "records.sqlite3",
        out or home / "build",
        own=lessons is not None or records is not None,
    )


def _lessons_above(here: Path) -> Path | None:
    """The lessons of the shop folder that `here` is, or lies in."""
    folders = (folder / "curriculum" for folder in (here, *here.parents))
    return next((f for f in folders if any((f / name).exists() for name in _SIGNS)), None)


def _current_folder() -> Path:
    try:
        return Path.cwd()
    except OSError as error:
        raise Refusal(
            "the folder you are in is not there any more", "go into another one with: cd FOLDER"
        ) from error


def starter() -> Path:
    """The starter curriculum: inside an installed package, or beside it in a checkout."""
    packaged = _PACKAGE / "starter"
    return packaged if packaged.is_dir() else _PACKAGE.parent / "curriculum"
