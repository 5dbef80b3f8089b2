"""Tables of published values: one row a figure, with its source and how it was read.

The statuses: seen = read in the source itself; copy = read in a reprint of it; worked = our own
arithmetic from the published rule or inputs; practice = common practice; memory = recalled.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from pathlib import Path

import pytest

from generator.maths.units import convert, parse_unit
from generator.model.course import Curriculum
from generator.solving.answer import work

CASES = Path(__file__).parent.parent / "cases"
READ = {"seen", "copy", "worked"}
STATUSES = {  # those that each table may lean on
    "chemistry": READ | {"memory"},
    "load": READ,
    "mixing": READ | {"memory"},
    "safety": READ,
    "site": {"seen", "worked"},
    "surfaces": READ | {"practice"},
    "washing": {"worked"},
    "water": READ,
}
ROUGH = {"stock-half-life", "surface-rate", "hose-loss"}  # some sources give a range, or a rule


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


def row(line: str) -> Row:
    relation, find, given, published, within, status, source = map(str.strip, line.split("|"))
    pairs = (pair.split("=") for pair in given.split())
    numbers = {name: Fraction(value) for name, value in pairs}
    return Row(relation, find, numbers, Fraction(published), Fraction(within), status, source)


def read_rows(path: Path) -> list[Row]:
    """The rows of a table; `#` starts a note."""
    lines = path.read_text(encoding="utf-8").splitlines()
    return [row(line) for line in lines if line.strip() and not line.startswith("#")]


TABLES = {
    path.stem.removeprefix("published_"): read_rows(path)
    for path in sorted(CASES.glob("published_*.txt"))
}
ROWS = [
    pytest.param(each, id=f"{name}-{each.relation}-{place}")
    for name, rows in TABLES.items()
    for place, each in enumerate(rows)
]


@pytest.mark.parametrize("published", ROWS)
def test_a_published_figure_comes_out(curriculum: Curriculum, published: Row) -> None:
    """`amount_floz` is the amount in fluid ounces, where no quantity has that name."""
    relation = curriculum.relations[published.relation]
    find, unit = published.find, ""
    if find not in relation.quantities:
        find, _, unit = find.partition("_")
    value = work(relation, published.given, find).value
    assert value is not None
    if unit:
        value = convert(value, relation.quantities[find].unit, parse_unit(unit))
    assert abs(value - published.published) <= published.within, published.source


@pytest.mark.parametrize("table", TABLES)
def test_rows_say_where_they_come_from(table: str) -> None:
    for published in TABLES[table]:
        source = published.source
        assert published.status in STATUSES[table]
        assert source.startswith("From memory") == (published.status == "memory")
        assert published.status != "practice" or source.casefold().startswith("common practice")
        assert len(source) > 10
        assert "://" not in source


@pytest.mark.parametrize("published", ROWS)
def test_rows_are_narrow_enough_to_fail(published: Row) -> None:
    share = Fraction(51, 100) if published.relation in ROUGH else Fraction(1, 10)
    assert published.within <= abs(published.published) * share


def test_every_area_has_its_table() -> None:
    assert TABLES.keys() == STATUSES.keys()
    assert min(map(len, TABLES.values())) > 10
