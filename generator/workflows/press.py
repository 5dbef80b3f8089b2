"""Several documents at once: one process a core, each document whole or not at all."""

from __future__ import annotations

import signal
from collections.abc import Iterable, Iterator, Sequence
from concurrent.futures import BrokenExecutor, Future, ProcessPoolExecutor, as_completed
from dataclasses import dataclass
from itertools import chain
from multiprocessing import cpu_count, get_context
from pathlib import Path

from generator.errors import Refusal
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
    if len(first) < 2 or cpu_count() < 2 or _length(first) < ENOUGH:
        printer = Printer()
        yield from (_done(printer, job) for job in chain(first, coming))
        return
    with ProcessPoolExecutor(cpu_count(), get_context("spawn"), _start) as pool:
        waiting: list[Future[Done]] = []
        told: set[Future[Done]] = set()
        try:
            waiting.extend(pool.submit(_print, job) for job in chain(first, coming))
            for future in as_completed(waiting):
                told.add(future)
                yield future.result()
        except (Refusal, KeyboardInterrupt):
            pool.shutdown(cancel_futures=True)
            yield from (f.result() for f in waiting if f not in told and _went_well(f))
            raise
        except BrokenExecutor as error:
            raise Refusal(
                "A printing process was ended from outside", "close other programs, then try again"
            ) from error


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


def _went_well(future: Future[Done]) -> bool:
    return not future.cancelled() and future.exception() is None


_printer: list[Printer] = []  # the one printer of a worker process


def _start() -> None:
    signal.signal(signal.SIGINT, signal.SIG_IGN)  # the process that started us decides
    collect_rarely()
    _printer.append(Printer())


def _print(job: Job) -> Done:
    return _done(_printer[0], job)


def _done(printer: Printer, job: Job) -> Done:
    try:
        printed = printer.write(job.html, job.path, job.most)
        pages = [(printed.path, page_count(printed.path))]
        if job.fold and printed.path.suffix == ".pdf":
            pages.append((job.fold, impose(printed.path, job.fold)))
    except Refusal as refusal:
        raise Refusal(f"{job.name}: {refusal.what}", refusal.next) from refusal
    return Done(job, printed, tuple(pages))
