"""Where a shop's things are: beside the curriculum, or named on the command line."""

from __future__ import annotations

from pathlib import Path

import pytest

from generator.errors import Refusal
from generator.workflows.place import find_place, starter


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    (tmp_path / "curriculum").mkdir()
    (tmp_path / "curriculum" / "shop.yaml").write_text("name: A\n", "utf-8")
    (tmp_path / "deep" / "down").mkdir(parents=True)
    return tmp_path.resolve()


def test_a_shop_folder_is_found_looking_upwards(folder: Path) -> None:
    place = find_place(here=folder / "deep" / "down")
    assert place.own
    assert place.curriculum == folder / "curriculum"
    assert place.records == folder / "records.sqlite3"
    assert place.out == folder / "build"


def test_named_places_win(folder: Path, tmp_path: Path) -> None:
    records, out = tmp_path / "r.sqlite3", tmp_path / "printed"
    place = find_place(records=records, out=out, here=folder)
    assert (place.records, place.out) == (records, out)


def test_a_named_curriculum_brings_the_folder_it_lies_in(folder: Path) -> None:
    place = find_place(curriculum=folder / "curriculum", here=Path("/"))
    assert place.own
    assert place.records == folder / "records.sqlite3"
    assert place.out == folder / "build"


def test_without_a_shop_the_starter_serves_and_nothing_is_recorded(tmp_path: Path) -> None:
    place = find_place(here=tmp_path)
    assert place.curriculum == starter()
    assert (place.curriculum / "shop.yaml").is_file()
    assert place.out == tmp_path.resolve() / "build"
    with pytest.raises(Refusal, match="rigprimer start"):
        place.require_own()


def test_a_shop_that_lost_its_shop_yaml_is_not_taken_for_the_starter(folder: Path) -> None:
    (folder / "curriculum" / "shop.yaml").unlink()
    (folder / "curriculum" / "modules").mkdir()
    assert find_place(here=folder / "deep").curriculum == folder / "curriculum"
