"""Several documents at once: one process a core, each document whole or not at all."""

from __future__ import annotations

import signal
from collections.abc import Iterable, Iterator, Sequence
from concurrent.futures import (
    FIRST_COMPLETED,
    BrokenExecutor,
    Future,
    ProcessPoolExecutor,
    wait,
)
from dataclasses import dataclass
from itertools import chain
from multiprocessing import cpu_count, get_context
from multiprocessing.synchronize import Event
from pathlib import Path

from generator.errors import Refusal
from generator.interrupts import Interrupts, not_heard_by_children, put_off
from generator.memory import collect_rarely
from generator.printing.impose import impose, page_count
from generator.printing.pdf import Printed, Printer


@dataclass(frozen=True)
class Job:
    """A document to print at `path`; with `fold`, a copy laid out for folding goes there.

    With `most`, one of more pages than that is refused.
    """

    id: str
    name: str
    html: str
    path: Path
    fold: Path | None = None
    most: int = 0


@dataclass(frozen=True)
class Done:
    """A job done, with the pages of each file it made (0 for HTML, which has none)."""

    job: Job
    printed: Printed
    pages: tuple[tuple[Path, int], ...]


Result = Done | Refusal | None
"""What comes of a job handed over: None where it was not begun any more."""

SOON = 0.2
"""Seconds within which Ctrl-C is heard."""

ENOUGH = 250_000
"""Characters of HTML from which on starting other processes pays: some four seconds of work."""


def run_off(jobs: Iterable[Job]) -> Iterator[Done]:
    """Print the jobs, best given longest first, and yield each as it is done.

    Jobs may still be in the making: the first are printed meanwhile. Raises Refusal, naming the
    document. Then, and when it is stopped by Ctrl-C, what has begun is finished and yielded, and
    nothing new is begun.
    """
    coming = iter(jobs)
    first = list(_enough(coming))
    alone = len(first) < 2 or cpu_count() < 2 or _length(first) < ENOUGH
    with put_off() as interrupts:
        yield from (_alone if alone else _together)(chain(first, coming), interrupts)


def _alone(jobs: Iterable[Job], interrupts: Interrupts) -> Iterator[Done]:
    printer = Printer()
    for job in jobs:
        if interrupts.came:
            return
        yield _done(printer, job)


def _together(jobs: Iterable[Job], interrupts: Interrupts) -> Iterator[Done]:
    context = get_context("spawn")
    stop = context.Event()
    refusals: list[Refusal] = []
    with ProcessPoolExecutor(cpu_count(), context, _start, (stop,)) as pool:
        try:
            waiting = set(_begun(jobs, pool, interrupts, refusals))
            while waiting:
                if refusals or interrupts.came:
                    stop.set()
                ended, waiting = wait(waiting, SOON, FIRST_COMPLETED)
                for future in ended:
                    match future.result():
                        case Done() as done:
                            yield done
                        case Refusal() as refusal:
                            refusals.append(refusal)
        except BrokenExecutor as error:
            raise Refusal(
                "A printing process was ended from outside", "close other programs, then try again"
            ) from error
        finally:
            stop.set()
    if refusals:
        raise refusals[0]


def _begun(
    jobs: Iterable[Job],
    pool: ProcessPoolExecutor,
    interrupts: Interrupts,
    refusals: list[Refusal],
) -> Iterator[Future[Result]]:
    """The jobs handed over, until one can't be made or Ctrl-C is pressed."""
    try:
        for job in jobs:
            if interrupts.came:
                return
            with not_heard_by_children():  # a process may be started for it
                future = pool.submit(_print, job)
            yield future
    except Refusal as refusal:
        refusals.append(refusal)


def _enough(jobs: Iterator[Job]) -> Iterator[Job]:
    """The first jobs, until there is enough to do for several processes."""
    length = 0
    for count, job in enumerate(jobs, 1):
        yield job
        length += len(job.html)
        if count > 1 and length >= ENOUGH:
            return


def _length(jobs: Sequence[Job]) -> int:
    return sum(len(job.html) for job in jobs)


_printer: list[Printer] = []  # the one printer of a worker process
_stop: list[Event] = []  # set once nothing new is to be begun


def _start(stop: Event) -> None:
    signal.signal(signal.SIGINT, signal.SIG_IGN)  # the process that started us decides
    collect_rarely()
    _stop.append(stop)
    _printer.append(Printer())


def _print(job: Job) -> Result:
    if _stop[0].is_set():
        return None
    try:
        return _done(_printer[0], job)
    except Refusal as refusal:
        return refusal


def _done(printer: Printer, job: Job) -> Done:
    try:
        printed = printer.write(job.html, job.path, job.most)
        pages = [(printed.path, page_count(printed.path))]
        if job.fold and printed.path.suffix == ".pdf":
            pages.append((job.fold, impose(printed.path, job.fold)))
    except Refusal as refusal:
        raise Refusal(f"{job.name}: {refusal.what}", refusal.next) from refusal
    return Done(job, printed, tuple(pages))
