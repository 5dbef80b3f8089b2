"""Files that mean harm: each is a fault in its place, and nothing is run, fetched or waited for."""

from __future__ import annotations

import json
import os
import shutil
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
import yaml

from generator.errors import Fault, Faults
from generator.reading.files import LARGEST, plain_files
from generator.reading.outline import read_outline
from generator.workflows.check import check
from generator.workflows.sources_of import Snapshot

HERE = Path(__file__).parents[1]
ATTACKS = yaml.safe_load((HERE / "cases" / "attacks.yaml").read_text("utf-8"))
FORMULAS = [
    line.rsplit(" => ", 1)[0]
    for line in (HERE / "cases" / "formulas.txt").read_text("utf-8").splitlines()
    if line.strip() and not line.startswith("#") and not line.endswith(" => ok")
]


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """A small curriculum without faults, to spoil."""
    return Path(shutil.copytree(HERE / "cases" / "small", tmp_path / "curriculum"))


def edit(path: Path, old: str, new: str) -> int:
    """Write `new` for `old`; the line where it begins."""
    text = path.read_text("utf-8")
    old = text if old == "*" else old
    assert old in text
    path.write_bytes(text.replace(old, new, 1).encode("utf-8", "surrogatepass"))
    return text[: text.index(old)].count("\n") + 1


def test_the_small_curriculum_has_no_faults(folder: Path) -> None:
    assert check(folder).faults == ()


def test_there_are_enough_attacks() -> None:
    assert len(ATTACKS) >= 60
    assert len(FORMULAS) >= 60


@pytest.mark.parametrize("name", ATTACKS)
def test_an_attack_is_a_fault_in_its_place(name: str, folder: Path) -> None:
    case: dict[str, Any] = ATTACKS[name]
    new = case["new"].replace("@", case.get("fill", "@") * case.get("times", 1))
    line = edit(folder / case["file"], case["old"], new) + case.get("down", 0)
    faults = check(folder).faults
    places = [(f.file, f.line) for f in faults if case["says"] in f"{f.what} {f.next}"]
    assert (f"curriculum/{case['file']}", line) in places, "\n".join(map(str, faults))


@pytest.mark.parametrize("text", FORMULAS)
def test_a_formula_that_is_refused_is_a_fault_in_its_line(text: str, folder: Path) -> None:
    path = folder / "modules/mix/problems.yaml"
    line = edit(path, "gives: amount/10", f"gives: {json.dumps(text, ensure_ascii=False)}")
    places = {(fault.file, fault.line) for fault in check(folder).faults}
    assert ("curriculum/modules/mix/problems.yaml", line) in places


def linked(path: Path, target: str) -> None:
    path.unlink(missing_ok=True)
    path.symlink_to(target)


def sized(path: Path, size: int) -> None:
    with path.open("wb") as file:
        file.truncate(size)


ODD: dict[str, Callable[[Path], object]] = {
    "relations/z.yaml": os.mkfifo,
    "modules/mix/z.yaml": os.mkfifo,
    "modules/mix/pipe.txt": os.mkfifo,
    "sheets/zero.yaml": lambda path: linked(path, "/dev/zero"),
    "relations/tty.yaml": lambda path: linked(path, "/dev/tty"),
    "relations/passwd.yaml": lambda path: linked(path, "/etc/passwd"),
    "modules/mix/batch.yaml": lambda path: linked(path, "/etc/passwd"),
    "shop.yaml": lambda path: linked(path, "/etc/hostname"),
    "modules/mix/nowhere.yaml": lambda path: linked(path, "/nowhere"),
    "relations/circle.yaml": lambda path: linked(path, "circle.yaml"),
    "modules/up": lambda path: linked(path, ".."),
    "modules/root": lambda path: linked(path, "/"),
    "pictures": lambda path: linked(path, "/etc"),
    "relations/folder.yaml": Path.mkdir,
    "modules/mix/problems.es.yaml": Path.mkdir,
    "/".join("abcdefghi"): lambda path: path.mkdir(parents=True),
    "relations/large.yaml": lambda path: sized(path, LARGEST + 1),
    "relations/huge.yaml": lambda path: sized(path, 10**11),
}


@pytest.mark.posix("pipes and links")
@pytest.mark.parametrize("name", ODD)
def test_what_is_no_plain_file_is_a_fault_before_anything_is_read(name: str, folder: Path) -> None:
    ODD[name](folder / name)
    (fault,) = check(folder).faults
    assert (fault.file, fault.line) == (f"curriculum/{name}", 0)
    assert fault.next
    with pytest.raises(Faults):
        Snapshot(folder)
    with pytest.raises(Faults):
        read_outline(folder)


@pytest.mark.posix("names of any bytes")
@pytest.mark.parametrize(
    ("name", "shown"),
    [
        (b"\xff.yaml", "\\udcff.yaml"),
        (b"\x1b[2J.yaml", "\\x1b[2J.yaml"),
        (b"a\nb.yaml", "a\\nb.yaml"),
        ("a\u202eb.yaml".encode(), "a\\u202eb.yaml"),
    ],
)
def test_a_name_that_cannot_be_printed_is_a_fault(name: bytes, shown: str, folder: Path) -> None:
    path = os.path.join(os.fsencode(folder / "relations"), name)
    try:
        os.close(os.open(path, os.O_CREAT))
    except OSError:
        pytest.skip("this file system has no such names")
    what = "the name holds signs that nobody sees"
    assert check(folder).faults == (Fault(f"curriculum/relations/{shown}", 0, what, "rename it"),)


@pytest.mark.parametrize("name", ["modules/{{ 1 }}", "modules/<b>", "modules/a b", "sheets/A;b"])
def test_a_folder_or_sheet_that_is_no_plain_name_is_a_fault(name: str, folder: Path) -> None:
    if name.startswith("modules"):
        (folder / "modules" / "mix").rename(folder / name)
        file = f"{name}/module.yaml"
    else:
        file = f"{name}.yaml"
        (folder / "sheets" / "day.yaml").rename(folder / file)
    fault = next(f for f in check(folder).faults if "is not a plain name" in f.what)
    assert (fault.file, fault.line) == (f"curriculum/{file}", 1)


def test_what_is_hidden_is_no_part_of_a_curriculum(folder: Path) -> None:
    (folder / ".git" / "x").mkdir(parents=True)
    (folder / "modules" / ".old").mkdir()
    for name in (".git/x/a.yaml", "relations/.#mixing.yaml", "modules/.old/module.yaml"):
        linked(folder / name, "/nowhere")
    assert check(folder).faults == ()
    assert {path.name[0] for path in plain_files(folder)}.isdisjoint(".")


@pytest.mark.parametrize(
    "raw",
    [
        bytes(range(256)) * 9,
        b"\x89PNG\r\n\x1a\n" + bytes(99),
        "batch: {title: x}".encode("utf-16"),
        "batch: {title: x}".encode("utf-32"),
        b"\xef\xbb\xbf\xef\xbb\xbfbatch: x",
        b"batch: \xed\xa0\x80",
        b"batch: \xc0\xaf",
        b"\x00" * 9999,
    ],
)
def test_bytes_that_are_no_text_are_a_fault(raw: bytes, folder: Path) -> None:
    (folder / "relations" / "mixing.yaml").write_bytes(raw)
    faults = [f for f in check(folder).faults if f.file.endswith("mixing.yaml")]
    assert [f.line > 0 for f in faults] == [True] * len(faults) != []
