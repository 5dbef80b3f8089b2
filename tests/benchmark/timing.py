"""Times of calls and of whole programs: medians of several, so that one hiccup does not count."""

from __future__ import annotations

import os
import statistics
import subprocess
import sys
import time
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Any, NamedTuple

ROOT = Path(__file__).resolve().parents[2]
RIGPRIMER = (sys.executable, "-m", "generator")
# Modules are compiled once and kept, as they are wherever Python is left as it is installed.
AS_INSTALLED = {k: v for k, v in os.environ.items() if k != "PYTHONDONTWRITEBYTECODE"}


class Ran(NamedTuple):
    """A program that has ended: seconds by the clock, and the most memory it held at once, in MB.

    Of a program that starts others, the memory is that of the largest of them.
    """

    seconds: float
    megabytes: float


def median_seconds(run: Callable[[], Any], times: int = 5) -> float:
    """The median time of a call, in seconds of this process."""
    taken = []
    for _ in range(times):
        start = time.perf_counter()
        run()
        taken.append(time.perf_counter() - start)
    return statistics.median(taken)


def ran(arguments: Sequence[str]) -> Ran:
    """Run a program to its end. Raises CalledProcessError when it fails."""
    start = time.perf_counter()
    program = subprocess.Popen(
        arguments, cwd=ROOT, env=AS_INSTALLED, stdout=subprocess.DEVNULL, stderr=subprocess.PIPE
    )
    assert program.stderr
    complaint = program.stderr.read()
    _, status, usage = os.wait4(program.pid, 0)
    program.returncode = os.waitstatus_to_exitcode(status)
    if program.returncode:
        raise subprocess.CalledProcessError(program.returncode, arguments, stderr=complaint)
    return Ran(time.perf_counter() - start, usage.ru_maxrss / 1024)


def median_run(arguments: Sequence[str], times: int = 5) -> Ran:
    """The median of several runs of a program, by its time."""
    runs = sorted(ran(arguments) for _ in range(times))
    return runs[len(runs) // 2]


def growth(small: float, large: float, factor: float) -> str:
    """How a time grew beside what was to be done: `1.00 of linear` is as it should be."""
    return f"{large / small / factor:.2f} of linear"
