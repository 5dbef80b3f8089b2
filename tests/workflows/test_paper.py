"""Papers issued: printed with their key and kept; or, when that fails, not there at all."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pikepdf
import pytest

from generator.errors import Refusal
from generator.model.course import Curriculum
from generator.printing.pdf import Printed, Printer
from generator.reading.curriculum import read_curriculum
from generator.records.papers_kept import find_paper
from generator.workflows import paper as workflow
from generator.workflows.paper import Order, issue
from generator.workflows.place import Place
from generator.workflows.record import history
from generator.workflows.runs import print_again


def test_papers_are_printed_with_their_key_and_kept_as_printed(
    shop: Place, curriculum: Curriculum, printer: Printer
) -> None:
    order = Order("surface-cleaner", ("juno", "Teo", "Juno"), spare=1, practice=True)
    done = issue(shop, curriculum, order, printer)
    assert [paper.person for paper in done.papers] == ["Juno", "Teo", ""]
    (bundle,) = done.bundles
    for file in bundle.files:
        with pikepdf.open(file) as pdf:
            assert len(pdf.pages) >= 1
    assert bundle.paper_file.path.parent != bundle.key_file.path.parent
    past = history(shop.records)
    assert [e.kind for e in past][-3:] == ["issued"] * 3
    for paper in done.papers:
        assert find_paper(past, paper.code) == paper


def test_more_papers_than_a_class_come_in_parts_each_with_its_key(
    shop: Place, curriculum: Curriculum, printer: Printer, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(workflow, "CLASS", 2)
    monkeypatch.setattr(workflow, "PART", 1)
    told: list[tuple[int, int]] = []
    order = Order("debris", ("Teo", "Juno"), spare=1, practice=True)
    done = issue(shop, curriculum, order, printer, tell=lambda *numbers: told.append(numbers))
    people = [[paper.person for paper in bundle.papers] for bundle in done.bundles]
    assert people == [["Teo"], ["Juno"], [""]]
    assert told == [(1, 3), (2, 3), (3, 3)]
    assert len({file for bundle in done.bundles for file in bundle.files}) == 6
    second = done.bundles[1]
    again = print_again(shop, curriculum, second.papers[0].code, False, printer)
    assert again.bundle.papers == second.papers
    assert again.same == (True, True)


@pytest.mark.parametrize(
    ("count", "sizes"), [(1, {1}), (50, {50}), (51, {10, 1}), (1000, {10})], ids=str
)
def test_a_class_is_one_document(count: int, sizes: set[int]) -> None:
    numbers: tuple[Any, ...] = tuple(range(count))
    parts = list(workflow.parts(numbers))
    assert {len(part) for part in parts} == sizes
    assert [number for part in parts for number in part] == [*numbers]


class Jams(Printer):
    """A printer that writes so many files, and no more."""

    left = 3

    def write(self, html: str, path: Path) -> Printed:
        self.left -= 1
        if self.left < 0:
            raise Refusal("the disk is full", "make room")
        return super().write(html, path)


def test_parts_that_are_printed_go_when_a_later_one_fails(
    shop: Place, curriculum: Curriculum, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(workflow, "CLASS", 1)
    monkeypatch.setattr(workflow, "PART", 1)
    before = history(shop.records)
    with pytest.raises(Refusal, match="the disk is full"):
        issue(shop, curriculum, Order("debris", ("Juno",), spare=1, practice=True), Jams())
    assert [file for file in shop.out.rglob("*") if file.is_file()] == []
    assert history(shop.records) == before


@pytest.mark.parametrize("blocked", ["papers", "keys", "."])
def test_papers_that_cannot_be_written_leave_nothing(
    blocked: str, shop: Place, curriculum: Curriculum, printer: Printer
) -> None:
    before = history(shop.records)
    place = shop.out / blocked
    place.parent.mkdir(parents=True, exist_ok=True)
    place.write_text("a file in the place of a folder", "utf-8")
    with pytest.raises(Refusal, match="can't be written"):
        issue(shop, curriculum, Order("debris", ("Juno",), practice=True), printer)
    assert list(shop.out.parent.rglob("*.pdf")) == []
    assert history(shop.records) == before


def test_a_person_who_is_not_on_the_crew_gets_no_paper(
    shop: Place, curriculum: Curriculum, printer: Printer
) -> None:
    before = history(shop.records)
    with pytest.raises(Refusal, match="is not on the crew") as raised:
        issue(shop, curriculum, Order("debris", ("Junno",)), printer)
    assert "Juno" in raised.value.next
    assert not shop.out.exists()
    assert history(shop.records) == before


def test_a_refusal_speaks_the_shops_language_whatever_that_of_the_papers(
    shop: Place, curriculum: Curriculum, printer: Printer
) -> None:
    spanish = read_curriculum(shop.curriculum, "es")
    titles = [each.modules["mixing"].title for each in (curriculum, spanish)]
    with pytest.raises(Refusal, match=r"practice papers in") as raised:
        issue(shop, curriculum, Order("mixing", ("Juno",)), printer, spanish)
    assert [title in str(raised.value) for title in titles] == [True, False]


def test_without_a_shop_no_paper_is_issued(
    tmp_path: Path, curriculum: Curriculum, printer: Printer
) -> None:
    place = Place(Path(), tmp_path / "records.sqlite3", tmp_path / "build", own=False)
    with pytest.raises(Refusal, match="rigprimer start"):
        issue(place, curriculum, Order("debris", spare=1), printer)
    assert list(tmp_path.iterdir()) == []
