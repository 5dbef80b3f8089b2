"""The part of a curriculum that a board needs is what a reading of the whole gives."""

from __future__ import annotations

import shutil
from dataclasses import fields, replace
from pathlib import Path

import pytest

from generator.errors import Faults
from generator.model.course import Curriculum, Lesson
from generator.reading.curriculum import read_curriculum
from generator.reading.outline import read_outline

STARTER = Path(__file__).parents[2] / "curriculum"
LESSON = "modules/plants/plants.yaml"
LEFT_OUT = ("digest", "lessons", "problems", "changed")


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """A copy with one module, to be spoiled."""
    copy = Path(shutil.copytree(STARTER, tmp_path / "curriculum"))
    for module in (copy / "modules").iterdir():
        if module.name != "plants":
            shutil.rmtree(module)
    edit(copy, "modules/plants/module.yaml", "requires:", "requires: [] #")
    return copy


def edit(folder: Path, file: str, old: str, new: str) -> None:
    text = (folder / file).read_text("utf-8")
    assert old in text
    (folder / file).write_text(text.replace(old, new, 1), "utf-8")


def titles(curriculum: Curriculum) -> list[list[tuple[str, str]]]:
    return [[(x.id, x.title) for x in m.lessons] for m in curriculum.modules.values()]


def test_it_says_of_every_module_what_the_whole_says(curriculum: Curriculum) -> None:
    outline = read_outline(STARTER)
    assert outline.shop == curriculum.shop
    assert list(outline.modules) == list(curriculum.modules)
    assert titles(outline) == titles(curriculum)
    for name, module in curriculum.modules.items():
        left_out = {f.name: getattr(module, f.name) for f in fields(module) if f.name in LEFT_OUT}
        assert replace(outline.modules[name], **left_out) == module


def test_a_lesson_is_not_read_beyond_its_title(folder: Path) -> None:
    outline = read_outline(folder)
    assert outline.relations == {}
    lesson = outline.modules["plants"].lessons[0]
    assert lesson == Lesson("plants", lesson.title, "", 0, ())
    (folder / "relations" / "odd.yaml").write_text("odd: {", "utf-8")
    assert read_outline(folder) == outline
    with pytest.raises(Faults):
        read_curriculum(folder)


@pytest.mark.parametrize(
    ("file", "old", "new"),
    [
        ("modules/plants/module.yaml", "edition: 1", "edition: one"),
        ("modules/plants/module.yaml", "lessons: [", "lessons: [weeds, "),
        ("modules/plants/module.yaml", "requires: []", "requires: [weeds]"),
        ("shop.yaml", "name:", "nam:"),
        (LESSON, "title: ", "- title\n- "),
        (LESSON, "title: ", "title: !odd "),
        (LESSON, "title: ", 'title: " " #'),
    ],
)
def test_every_fault_it_meets_is_told_as_by_the_whole(
    folder: Path, file: str, old: str, new: str
) -> None:
    edit(folder, file, old, new)
    with pytest.raises(Faults) as whole:
        read_curriculum(folder)
    with pytest.raises(Faults) as outline:
        read_outline(folder)
    assert str(outline.value) == str(whole.value)


def test_a_module_of_no_plain_name_is_told_as_by_the_whole(folder: Path) -> None:
    (folder / "modules" / "plants").rename(folder / "modules" / "Plants and lawn")
    with pytest.raises(Faults) as whole:
        read_curriculum(folder)
    with pytest.raises(Faults) as outline:
        read_outline(folder)
    assert str(outline.value) == str(whole.value)


@pytest.mark.parametrize(
    ("file", "old", "new"),
    [
        (LESSON, "title: ", "typed_ok: []\ntitle: "),
        (LESSON, "title: ", "title: At {shop.name} #"),
        (LESSON, "title: ", 'title: " Plants " #'),
        ("shop.yaml", "language: en", "language: es"),
    ],
)
def test_a_title_out_of_the_ordinary_is_read_with_the_whole(
    folder: Path, file: str, old: str, new: str
) -> None:
    edit(folder, file, old, new)
    assert titles(read_outline(folder)) == titles(read_curriculum(folder))
