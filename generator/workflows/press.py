"""Several documents at once: one process a core, each document whole or not at all."""

from __future__ import annotations

import signal
from collections.abc import Iterable, Iterator
from concurrent.futures import Future, ProcessPoolExecutor, as_completed
from dataclasses import dataclass
from multiprocessing import cpu_count, get_context
from pathlib import Path

from generator.errors import Refusal
from generator.printing.impose import impose, page_count
from generator.printing.pdf import Printed, Printer


@dataclass(frozen=True)
class Job:
    """A document to print at `path`; with `fold`, a copy laid out for folding goes there."""

    id: str
    name: str
    html: str
    path: Path
    fold: Path | None = None


@dataclass(frozen=True)
class Done:
    """A job done, with the pages of each file it made (0 for HTML, which has none)."""

    job: Job
    printed: Printed
    pages: tuple[tuple[Path, int], ...]


def run_off(jobs: Iterable[Job], many: bool = True) -> Iterator[Done]:
    """Print the jobs, given longest first, and yield each as it is done.

    `many` says that it is worth starting other processes. Raises Refusal, naming the document;
    then, and when it is stopped by Ctrl-C, what has begun is finished and nothing new begun.
    """
    if not many or cpu_count() < 2:
        printer = Printer()
        for job in jobs:
            yield _done(printer, job)
        return
    pool = ProcessPoolExecutor(cpu_count(), get_context("spawn"), _start)
    try:
        waiting: list[Future[Done]] = [pool.submit(_print, job) for job in jobs]
        for future in as_completed(waiting):
            yield future.result()
    finally:
        pool.shutdown(wait=True, cancel_futures=True)


_printer: list[Printer] = []  # the one printer of a worker process


def _start() -> None:
    signal.signal(signal.SIGINT, signal.SIG_IGN)  # the process that started us decides
    _printer.append(Printer())


def _print(job: Job) -> Done:
    return _done(_printer[0], job)


def _done(printer: Printer, job: Job) -> Done:
    try:
        printed = printer.write(job.html, job.path)
        pages = [(printed.path, page_count(printed.path))]
        if job.fold and printed.path.suffix == ".pdf":
            pages.append((job.fold, impose(printed.path, job.fold)))
    except Refusal as refusal:
        raise Refusal(f"{job.name}: {refusal.what}", refusal.next) from refusal
    return Done(job, printed, tuple(pages))
