"""A full disk, a disk that can only be read, and a clock that was set back."""

from __future__ import annotations

import os
import shutil
import subprocess
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

from generator.errors import Refusal
from generator.model.course import Curriculum
from generator.model.event import Event
from generator.records.copies import bring_back, keep_up, write_copy
from generator.records.standing import standings
from generator.records.store import Records

DAY = "2025-03-01"
SIZE = 512 * 1024


def joined(name: str) -> Event:
    return Event("joined", name, DAY, DAY)


def mount(*words: str) -> bool:
    """Whether the system let us do it; plain users may not."""
    if os.name != "posix" or not shutil.which("mount"):
        return False
    return subprocess.run(["mount", *words], capture_output=True).returncode == 0


@pytest.fixture
def small_disk(tmp_path: Path) -> Iterator[Path]:
    """A real disk, in memory, with room for half a megabyte."""
    disk = tmp_path / "disk"
    disk.mkdir()
    if not mount("-t", "tmpfs", "-o", f"size={SIZE}", "tmpfs", str(disk)):
        pytest.skip("no disk can be mounted here; test_store.py fills a record up to its limit")
    yield disk
    subprocess.run(["umount", str(disk)], check=True)


def everything(folder: Path) -> dict[str, bytes]:
    return {path.name: path.read_bytes() for path in folder.iterdir()}


def fill(disk: Path, but: int = 0) -> None:
    """Use up the disk, `but` for so many bytes."""
    room = os.statvfs(disk)
    (disk / "films").write_bytes(b"x" * (room.f_bavail * room.f_frsize - but))


def test_a_full_disk_enters_nothing_and_loses_nothing(small_disk: Path) -> None:
    path = small_disk / "records.sqlite3"
    with Records(path, create=True) as records:
        records.append([joined("Ana")])
    refusal, entered = None, 1
    while not refusal:
        try:
            with Records(path) as records:
                records.append([joined("x" * 6000), joined("y" * 6000)])
            entered += 2
        except Refusal as said:
            refusal = said
    assert "the disk is full; nothing was entered" in refusal.what
    assert entered > 11
    with Records(path) as records:
        assert len(records.events()) == entered
        assert records.verify() == []
    assert os.listdir(small_disk) == ["records.sqlite3"]
    fill(small_disk)  # to the last byte
    before = path.read_bytes()
    with Records(path) as records, pytest.raises(Refusal, match="nothing was entered"):
        records.append([joined("Ben")])
    assert path.read_bytes() == before
    (small_disk / "films").unlink()
    with Records(path) as records:
        assert records.append([joined("Ben")])[0].number == entered + 1


def test_a_copy_that_does_not_fit_leaves_the_old_one(small_disk: Path, kept: Path) -> None:
    target = small_disk / "records.sqlite3"
    with Records(kept) as records:
        write_copy(records, target)
        records.append([joined("x" * 3000) for _ in range(60)])
        fill(small_disk, but=60_000)
        before = everything(small_disk)
        for copy in (write_copy, lambda r, t: keep_up(r, t, DAY)):
            with pytest.raises(Refusal, match=r"disk is full|no space left"):
                copy(records, target)
            assert everything(small_disk) == before


def test_a_backup_that_does_not_fit_leaves_the_record(small_disk: Path, kept: Path) -> None:
    path = small_disk / "records.sqlite3"
    with Records(path, create=True) as records:
        records.append([joined("Ana")])
    with Records(kept) as records:
        records.append([joined("x" * 3000) for _ in range(60)])
    fill(small_disk, but=60_000)
    before = everything(small_disk)
    with pytest.raises(Refusal, match=r"disk is full|no space left"):
        bring_back(kept, path, DAY, yes=True)
    assert everything(small_disk) == before


def test_a_disk_that_can_only_be_read(small_disk: Path, kept: Path) -> None:
    path = small_disk / "records.sqlite3"
    shutil.copy(kept, path)
    before = path.read_bytes()
    assert mount("-o", "remount,ro", str(small_disk))
    with Records(path) as records:
        assert len(records.events()) == 12
        assert records.verify() == []
        with pytest.raises(Refusal, match="the file or its folder is read-only"):
            records.append([joined("Ana")])
        with pytest.raises(Refusal, match="read-only"):
            write_copy(records, small_disk / "copy.sqlite3")
    with pytest.raises(Refusal, match="read-only"):
        bring_back(kept, path, DAY, yes=True)
    assert everything(small_disk) == {path.name: before}
    assert bring_back(path, kept, DAY, yes=True).last.number == 12  # from a disk in the safe


def test_a_clock_that_was_set_back_changes_no_order(
    path: Path, starts: dict[str, str], history: Callable[[str], tuple[Event, ...]],
    curriculum: Callable[..., Curriculum],
) -> None:  # fmt: skip
    lines = starts["cleared"] + "2025-01-20 suspended Ana by Owner why=splash"
    with Records(path, create=True) as records:
        records.append(history(lines))
    back = [  # typed in with the clock of a year before, in programs started anew
        Event("restored", "Ana", "2025-01-21", "2024-01-05", "Owner", {"module": ""}),
        Event("suspended", "Ana", "2025-01-21", "2024-01-04", "Owner", {"why": "again"}),
    ]
    for event in back:
        with Records(path) as records:
            records.append([event])
    with Records(path) as records:
        assert records.verify() == []
        events = records.events()
    assert [event.kind for event in events[-3:]] == ["suspended", "restored", "suspended"]
    assert [event.number for event in events] == list(range(1, len(events) + 1))
    states = {s.state for s in standings(events, curriculum(), "2025-02-01") if s.person == "Ana"}
    assert states == {"suspended"}
