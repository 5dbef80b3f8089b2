"""Figures of speed, as ratios within one run: `python tests/benchmark [SUBJECT …]`.

Not a test: machines differ, so nothing here passes or fails. Medians of several runs. With no
subject named all are run but "many-papers", which takes half an hour by itself; the rest takes
about twenty minutes on two cores.
"""

from __future__ import annotations

import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[2]))

import commands
import items
import papers
import printing
import rebuild
import records

import curriculum

SUBJECTS: dict[str, Callable[[], None]] = {
    "commands": commands.main,
    "curriculum": curriculum.main,
    "items": items.main,
    "printing": printing.main,
    "rebuild": rebuild.main,
    "papers": papers.main,
    "records": records.main,
}
LONG: dict[str, Callable[[], None]] = {"many-papers": papers.many}


def main(asked: list[str]) -> int:
    """Run the subjects named, or all, each in a process of its own."""
    known = SUBJECTS | LONG
    unknown = [name for name in asked if name not in known]
    if unknown:
        print(f"There is no {', '.join(unknown)}. Subjects: {', '.join(known)}", file=sys.stderr)
        return 2
    if len(asked) == 1:
        print(asked[0], flush=True)
        known[asked[0]]()
        return 0
    # What one subject leaves in memory would slow the next, and count as memory of its programs.
    runs = [subprocess.run([sys.executable, __file__, name]) for name in asked or SUBJECTS]
    return max(run.returncode for run in runs)


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
