"""Marking goes on in several programs at once, and in programs killed at any moment.

What was acknowledged is there afterwards, and no pair of events is there by half. The programs are
real processes, stopped with SIGKILL, so they have no time to tidy up.
"""

from __future__ import annotations

import os
import random
import signal
import statistics
import time
import warnings
from collections.abc import Callable, Iterator
from contextlib import ExitStack, contextmanager
from functools import partial
from pathlib import Path

import pytest

from generator.errors import Refusal
from generator.model.course import Curriculum
from generator.model.event import Event
from generator.records.copies import bring_back, keep_up, write_copy
from generator.records.rules import permit
from generator.records.store import Records
from generator.workflows.keeping import read_text, write_text
from generator.workflows.place import Place

pytestmark = pytest.mark.posix("forking and killing processes")

History = Callable[[str], tuple[Event, ...]]
Say = Callable[[int], None]
CREW = ("Ana", "Ben", "Dee", "Eli")
DAY = "2025-01-09"
LINES = "goggles=yes pour=yes tidy=told"


@contextmanager
def process(work: Callable[[Say], None]) -> Iterator[tuple[int, int]]:
    """A process of its own that runs `work`; its id, and the end of a pipe it speaks into."""
    ear, mouth = os.pipe()
    with warnings.catch_warnings():
        warnings.simplefilter("ignore", DeprecationWarning)  # threads of the test runner
        child = os.fork()
    if not child:
        code = 1
        try:
            os.close(ear)
            work(lambda number: os.write(mouth, f"{number}\n".encode()) and None)
            code = 0
        finally:
            os._exit(code)
    os.close(mouth)
    try:
        yield child, ear
    finally:
        os.kill(child, signal.SIGKILL)
        os.waitpid(child, 0)
        os.close(ear)


def heard(ear: int) -> list[int]:
    """Every whole number the process said before it ended."""
    text = b""
    while part := os.read(ear, 65536):
        text += part
    return [int(line) for line in text.splitlines(keepends=True) if line.endswith(b"\n")]


class Yard:
    """A record with a crew and papers, and jobs of two events each that can be done in it."""

    def __init__(self, path: Path, jobs: int, history: History, today: Curriculum) -> None:
        self.path, self.history, self.today = path, history, today
        self.jobs = [self.job(number) for number in range(jobs)]
        lines = [f"2025-01-02 joined {name}" for name in ("Boss", "Cal", *CREW)]
        lines += [
            f"2025-01-02 trainer-named {name} by Owner basis=years" for name in ("Boss", "Cal")
        ]
        lines += [f"2025-01-03 issued - P{n} mixing spare practice" for n in range(jobs)]
        with Records(path, create=True) as records:
            records.append(history("\n".join(lines)))
            self.before = records.last().number

    def job(self, number: int) -> tuple[Event, ...]:
        """A grading, or every third time a sign-off, each with what goes along with it."""
        who, by = CREW[number % len(CREW)], ("Boss", "Cal")[number % 2]
        if number % 3:
            return self.history(
                f"""{DAY} marked {who} by {by} P{number} mixing 3/4 practice
                    {DAY} taught {who} by {by} module=mixing lessons=percent"""
            )
        return self.history(
            f"""{DAY} sheets-shown {who} by {by} rig=rig-1
                {DAY} signed-off {who} by {by} module=mixing rig=rig-1 {LINES}"""
        )

    def do(self, number: int) -> None:
        with Records(self.path) as records:
            records.append(self.jobs[number], partial(permit, curriculum=self.today))

    def work(self, first: int, say: Say) -> None:
        """Do the jobs from the first on, saying each one that was acknowledged."""
        for number in range(first, len(self.jobs)):
            self.do(number)
            say(number)

    def done(self) -> int:
        """How many jobs are in the record, each of them whole."""
        with Records(self.path) as records:
            assert records.verify() == []
            found = records.events()[self.before :]
        jobs = len(found) // 2
        assert len(found) == 2 * jobs
        for number in range(jobs):
            kinds = [event.kind for event in found[2 * number : 2 * number + 2]]
            assert kinds == [event.kind for event in self.jobs[number]]
        return jobs


def killed_until_done(yard: Yard, chance: random.Random) -> int:
    """Kill the marking program at random moments until all is marked; how often it was killed."""
    usual = min(_seconds(partial(yard.do, number)) for number in range(3))
    kills, acknowledged = 0, 2
    while acknowledged < len(yard.jobs) - 1:
        with process(partial(yard.work, acknowledged + 1)) as (child, ear):
            time.sleep(chance.uniform(0, 3 * usual))
            os.kill(child, signal.SIGKILL)
            said = heard(ear)
        kills += 1
        there = yard.done()
        assert there > max(said, default=acknowledged)  # nothing acknowledged is lost
        usual *= 1.3 if there == acknowledged + 1 else 0.9  # a busy machine needs more time
        acknowledged = there - 1
    return kills


def test_killed_at_any_moment_of_forty_gradings_and_sign_offs(
    path: Path, history: History, curriculum: Callable[..., Curriculum]
) -> None:
    yard = Yard(path, 40, history, curriculum())
    assert killed_until_done(yard, random.Random(7)) >= 10
    assert yard.done() == 40
    assert os.listdir(path.parent) == [path.name]  # no journal is left


@pytest.mark.deep
def test_killed_at_any_moment_of_two_hundred(
    path: Path, history: History, curriculum: Callable[..., Curriculum]
) -> None:
    yard = Yard(path, 200, history, curriculum())
    kills = killed_until_done(yard, random.Random(1))
    print(f"killed {kills} times")
    assert kills >= 50
    assert yard.done() == 200


@pytest.mark.parametrize("programs", [2, 8])
def test_programs_marking_at_once_lose_nothing(
    path: Path, programs: int, history: History, curriculum: Callable[..., Curriculum]
) -> None:
    each = 24 // programs
    yard = Yard(path, 24, history, curriculum())

    def share(first: int, say: Say) -> None:
        for number in range(first * each, (first + 1) * each):
            yard.do(number)
            say(number)
        try:
            with Records(path) as records:  # all of them want to mark the same paper
                wanted = history(f"{DAY} marked Ana by Cal P0 mixing 3/4 practice")
                records.append(wanted, partial(permit, curriculum=yard.today))
                say(1000)
        except Refusal as refusal:
            say(2000 if "was marked on" in refusal.what else 3000)

    with ExitStack() as running:
        ears = [
            running.enter_context(process(partial(share, number)))[1] for number in range(programs)
        ]
        said = [number for ear in ears for number in heard(ear)]
    assert sorted(n for n in said if n < 1000) == list(range(24))
    assert [said.count(1000), said.count(2000)] == [1, programs - 1]
    with Records(path) as records:
        assert records.verify() == []
        events = records.events()
        assert [event.number for event in events] == list(range(1, yard.before + 2 * 24 + 2))
        marked = [event for event in events if event.kind == "marked"]
        assert len(marked) == 16 + 1


def interrupted(work: Callable[[Say], None], usual: float, chance: random.Random) -> None:
    """Start it and kill it somewhere on its way."""
    with process(work) as (child, _):
        time.sleep(chance.uniform(0, 1.5 * usual))
        os.kill(child, signal.SIGKILL)


def whole(path: Path) -> int:
    """The number of events in a record that must be without a fault."""
    with Records(path) as records:
        assert records.verify() == []
        return records.last().number


def test_killed_while_copying_and_restoring(tmp_path: Path) -> None:
    """A backup, a second copy and a restored record are the old one or the new one, never half."""
    path, backup, second = (tmp_path / f"{name}.sqlite3" for name in ("records", "old", "second"))
    with Records(path, create=True) as records:
        records.append([Event("joined", f"Crew {n}", DAY, DAY) for n in range(20)])
        write_copy(records, backup)
        write_copy(records, second)
        records.append([Event("joined", f"More {n}", DAY, DAY) for n in range(200)])
    full = path.read_bytes()

    def copy(say: Say) -> None:
        with Records(path) as records:
            write_copy(records, backup)

    def follow(say: Say) -> None:
        with Records(path) as records:
            keep_up(records, second, DAY)

    def restore(say: Say) -> None:
        bring_back(backup, path, DAY, yes=True)

    chance = random.Random(3)
    old = backup.read_bytes(), second.read_bytes()
    usual = statistics.median(_seconds(lambda: copy(lambda _: None)) for _ in range(3))
    for _ in range(8):
        backup.write_bytes(old[0])
        second.write_bytes(old[1])
        interrupted(copy, usual, chance)
        interrupted(follow, usual, chance)
        assert {whole(backup), whole(second)} <= {20, 220}
        backup.write_bytes(old[0])
        interrupted(restore, usual, chance)
        assert whole(path) in (20, 220)
        for aside in tmp_path.glob("records-aside-*"):
            assert whole(aside) in (20, 220)
            aside.unlink()
        path.write_bytes(full)


def test_killed_while_writing_out_and_reading_in(tmp_path: Path) -> None:
    """An export is the old text or the new one; an import is all there or nothing is."""
    path, made, out = tmp_path / "records.sqlite3", tmp_path / "made.sqlite3", tmp_path / "all.txt"
    with Records(path, create=True) as records:
        records.append([Event("joined", f"Crew {n}", DAY, DAY) for n in range(150)])
    from_here, into = (Place(tmp_path, file, tmp_path, True) for file in (path, made))
    write_text(from_here, out)
    old = out.read_bytes()
    with Records(path) as records:
        records.append([Event("joined", f"More {n}", DAY, DAY) for n in range(150)])
    write_text(from_here, tmp_path / "new.txt")
    new = (tmp_path / "new.txt").read_bytes()

    chance = random.Random(5)
    usual = _seconds(lambda: read_text(into, out))
    for _ in range(8):
        out.write_bytes(old)
        made.unlink(missing_ok=True)
        interrupted(lambda say: write_text(from_here, out) and None, usual, chance)
        assert out.read_bytes() in (old, new)
        interrupted(lambda say: read_text(into, out) and None, usual, chance)
        assert not made.exists() or whole(made) in (150, 300)


def test_killed_while_a_record_is_made(path: Path) -> None:
    """Whatever stands there afterwards, the next entry goes in, and nothing is in the way."""

    def start(say: Say) -> None:
        with Records(path, create=True) as records:
            records.append([Event("joined", "Ana", DAY, DAY)])
            say(1)

    usual = _seconds(lambda: start(lambda _: None))
    chance = random.Random(11)
    for _ in range(12):
        path.unlink(missing_ok=True)
        with process(start) as (child, ear):
            time.sleep(chance.uniform(0, 2 * usual))
            os.kill(child, signal.SIGKILL)
            said = heard(ear)
        with Records(path, create=True) as records:
            there = [event.person for event in records.events()]
            assert there == ["Ana"] or (not there and not said)
            records.append([Event("joined", "Ben", DAY, DAY)])
            assert records.verify() == []


def _seconds(run: Callable[[], None]) -> float:
    start = time.perf_counter()
    run()
    return time.perf_counter() - start
