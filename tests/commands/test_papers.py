"""Papers and marking as people type them: flags, what is said, and item by item at a terminal."""

from __future__ import annotations

import json
import os
import pty
import re
import select
import subprocess
import sys
import time
from collections.abc import Callable
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from generator.cli import run
from generator.reading.curriculum import read_curriculum


@pytest.fixture
def folder(tmp_path: Path, part_of_starter: Callable[..., Path]) -> Path:
    """A shop of one module with the trainer Mara, and Juno and Teo."""
    part_of_starter(tmp_path / "shop" / "curriculum", "debris")
    for words in (
        ("crew", "add", "Mara", "Juno", "Teo"),
        ("crew", "trainer", "Mara", "--by", "Odile", "--basis", "six seasons"),
    ):
        assert in_shop(tmp_path / "shop", *words).exit_code == 0
    return tmp_path / "shop"


def in_shop(folder: Path, *words: str) -> Result:
    return CliRunner().invoke(
        run,
        ["--curriculum", str(folder / "curriculum"), *words],
        prog_name="rigprimer",
        catch_exceptions=False,
    )


def printed(folder: Path, *words: str) -> list[str]:
    """The codes of the papers that the words print."""
    result = in_shop(folder, "paper", "debris", *words, "--practice", "--json")
    assert result.exit_code == 0, result.output
    return [paper["code"] for paper in json.loads(result.stdout)["papers"]]


def test_a_class_with_spares_and_a_script_then_again(folder: Path) -> None:
    words = ["paper", "debris", "Juno", "Teo", "--spare", "1", "--practice", "--script"]
    result = in_shop(folder, *words)
    assert result.exit_code == 0, result.output
    lines = result.stdout.splitlines()
    assert [line.split("  ")[1] for line in lines[:3]] == [
        "Juno",
        "Teo",
        "spare, name it when marking",
    ]
    assert "Script, to read aloud:" in result.stdout
    code = lines[1].split()[0]
    again = in_shop(folder, "paper", "--again", code)
    assert again.exit_code == 0, again.output
    assert f"{code}  Teo  <- this one" in again.stdout
    assert again.stdout.count("The same file as the first time, to the last byte.") == 2


REFUSED = [
    (["paper", "--again", "4B3-FCM"], "no paper 4B3-FCM was printed"),
    (["paper", "--again", "4B3-FCN"], "mistyped character"),
    (["paper", "debris", "--return", "Juno"], "Juno"),
    (["grade", "--from", "none.csv", "--by", "Mara"], "can't be read"),
]
MISUSED = [
    (["paper", "debris", "--again", "4B3-FCM"], "stays as it was"),
    (["paper", "debris"], "it is not said whose papers"),
    (["grade"], "it is not said which paper"),
    (["grade", "--from", "none.csv"], "it is not said who marks"),
]


def test_what_cannot_be_done_is_said(folder: Path) -> None:
    for code, cases in ((1, REFUSED), (2, MISUSED)):
        for words, says in cases:
            result = in_shop(folder, *words)
            assert result.exit_code == code, result.output
            assert says in result.output
    assert not list(folder.rglob("*.pdf"))


def test_ticks_a_table_and_what_is_said(folder: Path, tmp_path: Path) -> None:
    first, second, spare = printed(folder, "Juno", "Teo", "--spare", "1")
    for words, code in ((["1z"], 1), (["99a"], 1), ([""], 1), ([" ; "], 1), (["1a", "A"], 2)):
        marked = in_shop(folder, "grade", first, "--ticks", *words, "--by", "Mara")
        assert marked.exit_code == code
    result = in_shop(folder, "grade", first, "--ticks", "1x 11a 12a", "--by", "Mara")
    assert result.exit_code == 0, result.output
    assert "Two slips made two misses." in result.stdout
    assert ": wrote something else, right is" in result.stdout
    assert (
        "marked already" in in_shop(folder, "grade", first, "--ticks", "0", "--by", "Mara").output
    )
    table = tmp_path / "day.csv"
    table.write_text(f"paper,name,ticks\n{second},,0\n{spare},Teo,2x\n", "utf-8")
    result = in_shop(folder, "grade", "--from", str(table), "--by", "Mara", "--json")
    assert result.exit_code == 0, result.output
    data = json.loads(result.stdout)
    assert [(d["code"], d["person"]) for d in data] == [(second, "Teo"), (spare, "Teo")]
    assert data[0]["right"] == data[0]["items"] == data[1]["right"] + 1


def test_what_it_takes_to_have_done_a_practice_paper_is_said(folder: Path) -> None:
    file = folder / "curriculum" / "modules" / "debris" / "module.yaml"
    text = file.read_text("utf-8")
    file.write_text(text.replace("practice: 1\n", "practice: 1\n  practice_cut: 15\n"), "utf-8")
    enough, short = printed(folder, "Juno", "Teo")
    for code, ticks, said in (
        (enough, "1x", "15 of 16, practice. Needed 15. Done."),
        (short, "1x 2x", "14 of 16, practice. Needed 15. Not done yet: print another one."),
    ):
        result = in_shop(folder, "grade", code, "--ticks", ticks, "--by", "Mara")
        assert said in result.stdout


def test_item_by_item_with_a_correction(folder: Path) -> None:
    """A trainer at a real terminal: every answer asked for, one put right before the end."""
    (code,) = printed(folder, "Juno")
    items = read_curriculum(folder / "curriculum").modules["debris"].blueprint.items
    words = ["--curriculum", "curriculum", "grade", code, "--by", "Mara"]
    told = at_terminal(folder, words, ["Z", *[""] * (items - 1), "99", "1", "", ""])
    assert re.search(r"item 1( \(must-get\))?: wrote nothing", told)
    assert f'"99" is not an item — type a number from 1 to {items}' in told
    assert f"0 of {items}, practice: it does not count." in told


def at_terminal(folder: Path, words: list[str], typed: list[str]) -> str:
    """Run the program on a terminal of its own, type the lines, return all it showed."""
    ours, theirs = pty.openpty()
    command = [sys.executable, "-m", "generator", *words]
    root = Path(__file__).parents[2]
    environment = os.environ | {"PYTHONPATH": str(root), "TERM": "dumb"}
    process = subprocess.Popen(
        command, cwd=folder, stdin=theirs, stdout=theirs, stderr=theirs, env=environment
    )
    os.close(theirs)
    os.write(ours, "".join(f"{line}\n" for line in typed).encode())
    shown, end = b"", time.monotonic() + 60
    while time.monotonic() < end:
        ready, _, _ = select.select([ours], [], [], 0.2)
        try:
            shown += os.read(ours, 4096) if ready else b""
        except OSError:
            break  # the other side is closed
    os.close(ours)
    assert process.wait(timeout=60) == 0, shown.decode()
    return shown.decode()
