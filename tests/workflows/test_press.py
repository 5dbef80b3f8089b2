"""Jobs printed one by one and several at once, to the end, to a refusal, to a Ctrl-C."""

from __future__ import annotations

import signal
from collections.abc import Iterable, Iterator
from dataclasses import replace
from itertools import islice
from pathlib import Path

import pikepdf
import pytest

from generator.errors import Refusal
from generator.workflows import press
from generator.workflows.press import Job, run_off

pytestmark = pytest.mark.usefixtures("way", "ctrl_c_is_heard")

PAGE = "<p style='break-before: page'>one page</p>"
PAGES = f"<html lang=en><title>Pages</title>{PAGE * 3}"
COUNT = 12


@pytest.fixture(params=["alone", "together"])
def way(request: pytest.FixtureRequest, monkeypatch: pytest.MonkeyPatch) -> None:
    """Few jobs are printed by one process, and any number by several once the limit is nothing."""
    monkeypatch.setattr(press, "ENOUGH", 0 if request.param == "together" else 10**9)
    monkeypatch.setattr(press, "cpu_count", lambda: 2)


def jobs_in(folder: Path) -> Iterator[Job]:
    for number in range(COUNT):
        yield Job(f"j{number}", f"Job {number}", PAGES, folder / f"{number}.pdf")


def whole_files(folder: Path) -> set[Path]:
    """The PDF files, each opened; nothing else may lie there."""
    for path in folder.iterdir():
        with pikepdf.open(path) as pdf:
            assert len(pdf.pages) == 3
    return set(folder.iterdir())


def follow(jobs: Iterable[Job], told: set[Path], stop_at: int = 0) -> None:
    """Note what the press tells, and press Ctrl-C when so many have been told."""
    for done in run_off(jobs):
        told.add(done.job.path)
        if len(told) == stop_at:
            signal.raise_signal(signal.SIGINT)


def test_every_job_is_printed_and_told_once(tmp_path: Path) -> None:
    done = list(run_off(jobs_in(tmp_path)))

    assert sorted(each.job.id for each in done) == sorted(f"j{n}" for n in range(COUNT))
    assert dict(p for d in done for p in d.pages) == dict.fromkeys(whole_files(tmp_path), 3)


def test_after_ctrl_c_what_was_printed_has_been_told(tmp_path: Path) -> None:
    told: set[Path] = set()
    with pytest.raises(KeyboardInterrupt):
        follow(jobs_in(tmp_path), told, stop_at=1)

    assert told == whole_files(tmp_path)
    assert len(told) < COUNT
    assert signal.getsignal(signal.SIGINT) is signal.default_int_handler


def test_ctrl_c_while_a_page_is_made_loses_nothing_printed(tmp_path: Path) -> None:
    def interrupted() -> Iterator[Job]:
        for number, job in enumerate(jobs_in(tmp_path)):
            if number == 3:
                signal.raise_signal(signal.SIGINT)
            yield job

    told: set[Path] = set()
    with pytest.raises(KeyboardInterrupt):
        follow(interrupted(), told)

    assert told == whole_files(tmp_path)
    assert len(told) <= 4


def test_a_document_refused_ends_it_and_loses_nothing_printed(tmp_path: Path) -> None:
    jobs = list(jobs_in(tmp_path))
    jobs[4] = replace(jobs[4], most=2)

    told: set[Path] = set()
    with pytest.raises(Refusal, match="Job 4: it comes to 3 pages, 2 at most"):
        follow(jobs, told)

    assert told == whole_files(tmp_path)
    assert 4 <= len(told) < COUNT


def test_a_page_that_cannot_be_made_loses_nothing_printed(tmp_path: Path) -> None:
    def broken() -> Iterator[Job]:
        yield from islice(jobs_in(tmp_path), 4)
        raise Refusal("No such figure", "draw it")

    told: set[Path] = set()
    with pytest.raises(Refusal, match="No such figure"):
        follow(broken(), told)

    assert told == whole_files(tmp_path)
    assert len(told) <= 4


def test_who_stops_listening_leaves_whole_files(tmp_path: Path) -> None:
    running = run_off(jobs_in(tmp_path))
    next(running)
    running.close()

    assert 1 <= len(whole_files(tmp_path)) < COUNT
    assert signal.getsignal(signal.SIGINT) is signal.default_int_handler
