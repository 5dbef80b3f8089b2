"""Folders that are kept the same on several computers are recognised by what lies about in them."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from generator.records.synced import sign_of_syncing


@pytest.fixture
def record(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A record two folders below one that somebody's programs may share."""
    home = tmp_path / "home"
    folder = home / "shared" / "shop"
    folder.mkdir(parents=True)
    monkeypatch.setattr(Path, "home", lambda: home)
    path = folder / "records.sqlite3"
    path.touch()
    return path


def test_a_plain_folder_is_none(record: Path) -> None:
    for name in (".git", ".venv", "curriculum", "build", ".gitignore", "notes about sync.txt"):
        (record.parent / name).mkdir()
    (record.parent / "backups").mkdir()
    assert sign_of_syncing(record) == ""


@pytest.mark.parametrize(
    "name",
    [".stfolder", ".sync", ".sync_0a1b.db", "._sync_0a1b.db", ".cloudsettings", ".photos.cloud",
     ".drivedownload", ".somebox.cache", ".MyCloudSync.log"],
)  # fmt: skip
def test_what_such_programs_keep_in_a_folder_above(record: Path, name: str) -> None:
    (record.parents[1] / name).mkdir()
    assert name in sign_of_syncing(record)


def test_settings_in_the_home_folder_say_nothing(record: Path) -> None:
    (Path.home() / ".somebox").mkdir()
    assert sign_of_syncing(record) == ""


@pytest.mark.parametrize("name", ["Cloud Storage", "CloudStorage", "Mobile Documents", "OurDrive"])
def test_folders_that_systems_set_up_for_it(record: Path, name: str) -> None:
    folder = Path.home() / name / "shop"
    folder.mkdir(parents=True)
    assert name in sign_of_syncing(folder / "records.sqlite3")


def test_a_copy_in_conflict_beside_it(record: Path) -> None:
    twin = record.with_name("records (conflicted copy of Mara).sqlite3")
    twin.touch()
    assert twin.name in sign_of_syncing(record)


@pytest.mark.skipif(not hasattr(os, "setxattr"), reason="no such attributes there")
def test_a_folder_marked_by_an_attribute(record: Path) -> None:
    try:
        os.setxattr(record.parent, "user.mysync.id", b"1")
    except OSError:
        pytest.skip("this disk keeps no attributes")
    assert "user.mysync.id" in sign_of_syncing(record)


def test_a_folder_that_is_not_there_is_no_trouble(tmp_path: Path) -> None:
    assert sign_of_syncing(tmp_path / "gone" / "records.sqlite3") == ""
