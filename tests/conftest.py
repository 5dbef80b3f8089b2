"""What every test may use: the curriculum of this repository, read once, and parts of it."""

from __future__ import annotations

import os
import re
import shutil
import signal
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from hypothesis import settings

from generator.memory import collect_rarely
from generator.model.course import Curriculum
from generator.model.problem import Problem
from generator.model.relation import Relation
from generator.reading.curriculum import read_curriculum

# A deadline would make a law fail on a busy machine.
settings.register_profile("steady", deadline=None)
settings.load_profile("steady")
collect_rarely()  # as every command does

FOLDER = Path(__file__).parent.parent / "curriculum"


def pytest_runtest_setup(item: pytest.Item) -> None:
    """Leave out, on other systems, what is marked as of POSIX alone."""
    mark = item.get_closest_marker("posix")
    if mark and os.name != "posix":
        pytest.skip(f"POSIX alone: {mark.args[0]}")


def pytest_generate_tests(metafunc: pytest.Metafunc) -> None:
    """One test for each relation or problem of the curriculum, named by its id.

    In module scope all tests of one of them run together, and share what was solved and drawn.
    """
    for name, files in (("relation", "relations/*.yaml"), ("problem", "**/problems.yaml")):
        if name in metafunc.fixturenames:
            metafunc.parametrize(name, _ids(files), indirect=True, scope="module")


def _ids(pattern: str) -> list[str]:
    """The names at the margin of those files: parsing them takes long, and each worker would."""
    files = sorted(file for file in FOLDER.glob(pattern) if "." not in file.stem)  # no overlays
    texts = [file.read_text(encoding="utf-8") for file in files]
    return [name for text in texts for name in re.findall(r"(?m)^([^\s#][^:]*):", text)]


@pytest.fixture(scope="session")
def curriculum() -> Curriculum:
    """The curriculum of this repository."""
    return read_curriculum(FOLDER)


@pytest.fixture(scope="session")
def part_of_starter() -> Callable[..., Path]:
    """Copies the starter with some modules alone, requiring each other only: soon read."""

    def copied(folder: Path, *modules: str) -> Path:
        shutil.copytree(FOLDER, folder)
        for file in (folder / "modules").glob("*/module.yaml"):
            if file.parent.name not in modules:
                shutil.rmtree(file.parent)
                continue
            text = file.read_text("utf-8")
            (line,) = re.findall(r"(?m)^requires: .*$", text)
            needed = [name for name in re.findall(r"[\w-]+", line)[1:] if name in modules]
            file.write_text(text.replace(line, f"requires: [{', '.join(needed)}]"), "utf-8")
        return folder

    return copied


@pytest.fixture
def ctrl_c_is_heard() -> Iterator[None]:
    """As at a terminal, for the test and what it starts: a run in the background ignores Ctrl-C."""
    before = signal.signal(signal.SIGINT, signal.default_int_handler)
    yield
    signal.signal(signal.SIGINT, before)


@pytest.fixture(scope="module")
def relation(request: pytest.FixtureRequest, curriculum: Curriculum) -> Relation:
    """The relation whose id the test was given."""
    return curriculum.relations[request.param]


@pytest.fixture(scope="module")
def problem(request: pytest.FixtureRequest, curriculum: Curriculum) -> Problem:
    """The problem whose id the test was given."""
    found = curriculum.problem(request.param)
    assert found
    return found
