"""What every test may use: the curriculum of this repository, read once."""

from __future__ import annotations

from pathlib import Path

import pytest
import yaml
from hypothesis import settings

from generator.model.course import Curriculum
from generator.model.problem import Problem
from generator.model.relation import Relation
from generator.reading.curriculum import read_curriculum

# A deadline would make a law fail on a busy machine.
settings.register_profile("steady", deadline=None)
settings.load_profile("steady")

FOLDER = Path(__file__).parent.parent / "curriculum"


def pytest_generate_tests(metafunc: pytest.Metafunc) -> None:
    """One test for each relation or problem of the curriculum, named by its id."""
    if "relation" in metafunc.fixturenames:
        metafunc.parametrize("relation", _ids("relations/*.yaml"), indirect=True)
    if "problem" in metafunc.fixturenames:
        metafunc.parametrize("problem", _ids("**/problems.yaml"), indirect=True)


def _ids(pattern: str) -> list[str]:
    files = sorted(FOLDER.glob(pattern))
    return [name for file in files for name in yaml.safe_load(file.read_text(encoding="utf-8"))]


@pytest.fixture(scope="session")
def curriculum() -> Curriculum:
    """The curriculum of this repository."""
    return read_curriculum(FOLDER)


@pytest.fixture
def relation(request: pytest.FixtureRequest, curriculum: Curriculum) -> Relation:
    """The relation whose id the test was given."""
    return curriculum.relations[request.param]


@pytest.fixture
def problem(request: pytest.FixtureRequest, curriculum: Curriculum) -> Problem:
    """The problem whose id the test was given."""
    found = curriculum.problem(request.param)
    assert found
    return found
