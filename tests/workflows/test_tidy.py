"""Old keys go, and nothing else does."""

from __future__ import annotations

import os
from pathlib import Path

from generator.workflows.tidy import old_keys, remove

NOW = 1_800_000_000.0
DAY = 24 * 60 * 60


def key(out: Path, name: str, days: float) -> Path:
    path = out / "keys" / name
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_bytes(b"x")
    os.utime(path, (NOW - days * DAY, NOW - days * DAY))
    return path


def test_only_keys_older_than_so_many_days_go_the_oldest_first(tmp_path: Path) -> None:
    old, older = key(tmp_path, "a.pdf", 15), key(tmp_path, "b.html", 40)
    key(tmp_path, "c.pdf", 13.9)
    assert old_keys(tmp_path, 14, NOW) == [older, old]


def test_nothing_but_printed_keys_is_taken(tmp_path: Path) -> None:
    key(tmp_path, "notes.txt", 99)
    key(tmp_path, "inner/a.pdf", 99)
    precious = tmp_path / "precious.pdf"
    precious.write_bytes(b"x")
    os.utime(precious, (0, 0))
    (tmp_path / "keys" / "link.pdf").symlink_to(precious)
    assert old_keys(tmp_path, 14, NOW) == []


def test_a_folder_of_keys_that_is_a_link_is_left_alone(tmp_path: Path) -> None:
    elsewhere = tmp_path / "elsewhere"
    key(elsewhere, "a.pdf", 99)
    (tmp_path / "keys").symlink_to(elsewhere / "keys")
    assert old_keys(tmp_path, 14, NOW) == []


def test_no_folder_no_keys(tmp_path: Path) -> None:
    assert old_keys(tmp_path, 14, NOW) == []


def test_removing_leaves_the_young_ones(tmp_path: Path) -> None:
    old, young = key(tmp_path, "a.pdf", 15), key(tmp_path, "b.pdf", 1)
    remove(old_keys(tmp_path, 14, NOW))
    assert not old.exists()
    assert young.exists()
