"""Sheets, the words of the rig card and of the leaflet: what is read, and what is a fault."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from generator.model.course import Curriculum
from generator.model.sheet import Checks, Choose, Cut, Fields, Formulas, Ruled, Sheet
from generator.reading.curriculum import read_all
from generator.workflows.place import starter

SHIPPED = {
    "mix-worksheet",
    "mix-log",
    "morning-check",
    "evening-check",
    "site-survey",
    "talk-attendance",
    "incident",
    "delivery-check",
    "product-list",
    "head-calibration",
    "hospital-injection",
    "hospital-fluoride",
    "container-labels",
    "season-plan",
    "owner-checklist",
}


@pytest.fixture(scope="module")
def small(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The starter without its modules, so that it is read at once."""
    folder = tmp_path_factory.mktemp("small") / "curriculum"
    shutil.copytree(starter(), folder, ignore=shutil.ignore_patterns("modules"))
    return folder


@pytest.fixture
def folder(small: Path, tmp_path: Path) -> Path:
    """A copy of the small curriculum to spoil."""
    return Path(shutil.copytree(small, tmp_path / "curriculum"))


def read(folder: Path, text: str) -> tuple[Sheet | None, list[str]]:
    """The sheet in a text and the faults found in it."""
    (folder / "sheets" / "mine.yaml").write_text(text, "utf-8")
    reading = read_all(folder)
    assert reading.curriculum
    faults = [str(fault) for fault in reading.faults if "mine.yaml" in fault.file]
    return reading.curriculum.sheets.get("mine"), faults


def block(folder: Path, text: str) -> tuple[object, list[str]]:
    """The first block of a sheet of one block."""
    sheet, faults = read(folder, f"title: T\nfor: Me\nblocks:\n{text}")
    return (sheet.blocks[0] if sheet else None), faults


def test_the_shop_comes_with_every_sheet(curriculum: Curriculum) -> None:
    assert set(curriculum.sheets) >= SHIPPED
    assert curriculum.handouts.card
    assert len(curriculum.handouts.leaflet) == 8


def test_blanks_are_as_long_as_their_underscores(folder: Path) -> None:
    found, faults = block(folder, '  - fields: ["Tank has ___ gal at ____ %", Date]\n')

    assert faults == []
    assert isinstance(found, Fields)
    assert found.asks[0].pieces == ("Tank has", 15, "gal at", 20, "%")
    assert found.asks[1].pieces == ("Date", 30)
    assert not found.asks[1].whole


def test_a_choice_may_be_a_list_of_the_shop(folder: Path) -> None:
    found, faults = block(folder, "  - choose: Rig\n    of: shop.rigs\n")

    assert faults == []
    assert isinstance(found, Choose)
    assert found.options == ("Rig 1", "Rig 2")


def test_look_ups_are_filled_in(folder: Path) -> None:
    found, faults = block(folder, '  - checks: ["Keep {shop.limit.line_ft} off any line"]\n')

    assert faults == []
    assert found == Checks("", ("OK", "FAIL"), ("Keep 10 ft off any line",))


def test_a_formula_comes_from_its_relation(folder: Path) -> None:
    found, faults = block(
        folder,
        "  - formulas:\n      - {relation: batch, find: amount, from: [target, total, stock]}\n",
    )

    assert faults == []
    assert isinstance(found, Formulas)
    assert found.lines == ("stock to measure = strength wanted × finished mix ÷ stock strength",)


def test_a_table_has_columns_of_their_own_width(folder: Path) -> None:
    found, _ = block(folder, "  - table: [{head: Name, width: 3}, Date]\n    rows: 4\n")

    assert isinstance(found, Ruled)
    assert [found.percent(column) for column in found.columns] == ["75.000%", "25.000%"]


def test_a_column_too_narrow_for_its_head_is_told(folder: Path) -> None:
    columns = ", ".join(["Temperature"] * 9)
    _, faults = block(folder, f"  - table: [{columns}]\n    rows: 4\n")

    assert 'mine.yaml:4: the column "Temperature" is too narrow for its head' in faults[0]


def test_a_head_about_a_rig_the_shop_does_not_have_is_left_empty(folder: Path) -> None:
    found, faults = block(folder, '  - table: [Day, "{shop.rig-9.tank_gal}"]\n    rows: 4\n')

    assert faults == []
    assert isinstance(found, Ruled)
    assert [column.head for column in found.columns] == ["Day", ""]


def test_a_cut_out_holds_blocks(folder: Path) -> None:
    found, faults = block(folder, "  - cut: [One, Two]\n    blocks:\n      - text: Same on both.\n")

    assert faults == []
    assert isinstance(found, Cut)
    assert found.names == ("One", "Two")
    assert [inner.kind for inner in found.blocks] == ["text"]


@pytest.mark.parametrize(
    ("text", "fault"),
    [
        (
            "  - feilds: [Date]\n",
            'mine.yaml:4: no block is known by feilds — did you mean "fields"?',
        ),
        (
            "  - fields: [Date]\n    text: Both\n",
            "mine.yaml:4: a block is both text and fields — make two blocks of it",
        ),
        ("  - text: Hi\n    bold: yes\n", "bold is not a known key"),
        ("  - table: [A]\n    rows: 90\n", "rows: 90 is not above 0 and at most 60"),
        ("  - table: [A]\n    rows: 2\n    height: 0\n", "height: 0 is not above 0"),
        ("  - checks: []\n", "checks has 0 entries"),
        ("  - choose: Rig\n    of: shop.rgis\n", '"shop.rgis" is no list of the shop'),
        ('  - text: "{shop.nmae}"\n', '"{shop.nmae}" is not a known look-up'),
        (
            "  - formulas:\n      - {relation: batsh, find: amount, from: [stock]}\n",
            'the relation "batsh" is not known — did you mean "batch"?',
        ),
        (
            "  - formulas:\n      - {relation: batch, find: amunt, from: [stock]}\n",
            'batch has no "amunt" — did you mean "amount"?',
        ),
        ("  - reviews: 900\n", "900 is not above 0 and at most 366"),
        ("  - caution: {id: a, signal: loud, title: T, happens: H, do: D}\n", 'signal is "loud"'),
    ],
)
def test_each_fault_is_told_with_its_place(text: str, fault: str, folder: Path) -> None:
    _, faults = block(folder, text)

    assert any(fault in said for said in faults), faults


def test_a_sheet_in_another_language_is_no_sheet_of_its_own(folder: Path) -> None:
    (folder / "sheets" / "mix-log.es.yaml").write_text("title: Registro\n", "utf-8")

    found = read_all(folder).curriculum
    assert found
    assert set(found.sheets) == SHIPPED


@pytest.mark.parametrize(
    ("file", "old", "new", "fault"),
    [
        (
            "rig-card.yaml",
            "Water now.",
            "Run for the nearest water now, at once.",
            "more than 8 words",
        ),
        (
            "rig-card.yaml",
            "other: acids, letters: G}",
            "other: acds, letters: G}",
            '"acds" is no family',
        ),
        (
            "rig-card.yaml",
            "other: acids, letters: G}",
            "other: acids, letters: Q}",
            'letter "Q" is not',
        ),
        ("rig-card.yaml", "sources: [wac-eyewash]", "sources: [wac-eyewsh]", "not in sources.yaml"),
        (
            "first-day.yaml",
            "line_ft: shop.limit.line_ft}",
            "line_ft: shop.limit.lin}",
            "known look-up",
        ),
        ("first-day.yaml", "gpm: 0.4", "gpm: shop.stock", '"shop.stock" is not one number'),
    ],
)
def test_faults_of_the_card_and_the_leaflet(
    file: str, old: str, new: str, fault: str, folder: Path
) -> None:
    text = (folder / file).read_text("utf-8")
    assert old in text
    (folder / file).write_text(text.replace(old, new, 1), "utf-8")

    said = [str(each) for each in read_all(folder).faults if file in each.file]
    assert any(fault in each for each in said), said


def test_two_families_meet_once(folder: Path) -> None:
    with (folder / "rig-card.yaml").open("a", encoding="utf-8") as card:
        card.write("  - {one: acids, other: bleach, letters: G}\n")

    (fault,) = [f for f in read_all(folder).faults if "rig-card" in f.file]
    assert "acids and bleach stand there twice" in fault.what


def test_a_curriculum_without_any_of_it_is_whole(folder: Path) -> None:
    shutil.rmtree(folder / "sheets")
    (folder / "rig-card.yaml").unlink()
    (folder / "first-day.yaml").unlink()

    reading = read_all(folder)
    assert reading.curriculum
    assert reading.curriculum.sheets == {}
    assert reading.curriculum.handouts.card is None
    assert [fault for fault in reading.faults if "sheets" in fault.file] == []
