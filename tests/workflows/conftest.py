"""A shop folder of its own for each test, with a crew and a trainer."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from generator.model.course import Curriculum
from generator.printing.pdf import Printer
from generator.workflows.people import taught
from generator.workflows.place import Place, starter
from generator.workflows.record import enter, event


@pytest.fixture(scope="session")
def printer() -> Printer:
    """One Printer, as every printing process has."""
    return Printer()


@pytest.fixture
def shop(tmp_path: Path, curriculum: Curriculum) -> Place:
    """A shop with the trainer Mara, and Juno and Teo, taught everything."""
    shutil.copytree(starter(), tmp_path / "curriculum")
    place = Place(tmp_path / "curriculum", tmp_path / "records.sqlite3", tmp_path / "build", True)
    joined = [event("joined", name) for name in ("Mara", "Juno", "Teo")]
    named = event("trainer-named", "Mara", by="Odile", basis="six seasons")
    lessons = [
        each
        for module in curriculum.modules.values()
        for each in taught(module, ["Juno", "Teo"], (), "Mara", None)
    ]
    enter(place, curriculum, [*joined, named, *lessons])
    return place
