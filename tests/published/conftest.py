"""Tables of published values: one row a figure, with its source and how it was read."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from pathlib import Path

import pytest

CASES = Path(__file__).parent.parent / "cases"


@dataclass(frozen=True)
class Row:
    """A published figure: `find` of a relation for `given`, right within `within`."""

    relation: str
    find: str
    given: dict[str, Fraction]
    published: Fraction
    within: Fraction
    status: str
    source: str


def read_rows(name: str) -> list[Row]:
    """The rows of a table; `#` starts a note."""
    lines = (CASES / name).read_text(encoding="utf-8").splitlines()
    return [row(line) for line in lines if line.strip() and not line.startswith("#")]


def row(line: str) -> Row:
    relation, find, given, published, within, status, source = map(str.strip, line.split("|"))
    pairs = (pair.split("=") for pair in given.split())
    numbers = {name: Fraction(value) for name, value in pairs}
    return Row(relation, find, numbers, Fraction(published), Fraction(within), status, source)


def pytest_generate_tests(metafunc: pytest.Metafunc) -> None:
    """A test for each row of the table that the test module names in TABLE."""
    if "published" in metafunc.fixturenames:
        rows = read_rows(metafunc.module.TABLE)
        names = [f"{r.relation}-{place}" for place, r in enumerate(rows)]
        metafunc.parametrize("published", rows, ids=names)
