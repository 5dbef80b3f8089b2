"""Two programs at once lose nothing; a program killed in the middle loses nothing it promised."""

from __future__ import annotations

import random
import subprocess
import sys
import time
from pathlib import Path

from generator.model.event import Event
from generator.records.store import Records

WRITER = """
import sys
from generator.model.event import Event
from generator.records.store import Records
path, name, count = sys.argv[1], sys.argv[2], int(sys.argv[3])
with Records(path) as records:
    for turn in range(count):
        words = {"what": f"{name} {turn}", "long": "x" * 3000}
        pair = [Event("incident", name, "2025-03-01", "2025-03-01", "", words)] * 2
        kept = records.append(pair)
        print(kept[-1].number, flush=True)
"""


def writer(path: Path, name: str, count: int) -> subprocess.Popen[str]:
    command = [sys.executable, "-c", WRITER, str(path), name, str(count)]
    return subprocess.Popen(command, stdout=subprocess.PIPE, text=True)


def test_two_programs_at_once_lose_nothing(path: Path) -> None:
    with Records(path, create=True):
        programs = [writer(path, name, 40) for name in ("Ana", "Ben")]
        said = [program.communicate(timeout=60)[0].split() for program in programs]
    assert [program.returncode for program in programs] == [0, 0]
    assert [len(numbers) for numbers in said] == [40, 40]
    with Records(path) as records:
        events = records.events()
        assert [event.number for event in events] == list(range(1, 161))
        assert sum(event.person == "Ana" for event in events) == 80
        assert records.verify() == []
    for name, numbers in zip(("Ana", "Ben"), said, strict=True):
        assert all(events[int(number) - 1].person == name for number in numbers)


def test_killed_at_any_moment_nothing_promised_is_lost(path: Path) -> None:
    with Records(path, create=True):
        pass
    chance, promised = random.Random(7), 0
    for _ in range(20):
        program = writer(path, "Ana", 10**6)
        assert program.stdout
        promised = int(program.stdout.readline())
        time.sleep(chance.random() / 25)
        program.kill()  # SIGKILL: no time to tidy up
        for line in program.communicate()[0].splitlines(keepends=True):
            promised = int(line) if line.endswith("\n") else promised
        with Records(path) as records:
            numbers = [event.number for event in records.events()]
            assert numbers == list(range(1, len(numbers) + 1))
            assert len(numbers) >= promised
            assert len(numbers) % 2 == 0  # each pair whole or not at all
            assert records.verify() == []
    with Records(path) as records:
        (last,) = records.append([Event("joined", "Ben", "2025-03-01", "2025-03-01")])
    assert last.number == len(numbers) + 1
    assert promised > 40
