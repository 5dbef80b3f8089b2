"""Figures of speed, as ratios within one run: `python tests/benchmark [SUBJECT …]`.

Not a test: machines differ, so nothing here passes or fails. Medians of several runs. With no
subject named all are run, which takes about a quarter of an hour on two cores.
"""

from __future__ import annotations

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


def main(asked: list[str]) -> int:
    """Run the subjects named, or all."""
    unknown = [name for name in asked if name not in SUBJECTS]
    if unknown:
        print(f"There is no {', '.join(unknown)}. Subjects: {', '.join(SUBJECTS)}", file=sys.stderr)
        return 2
    for name in asked or SUBJECTS:
        print(f"{name}", flush=True)
        SUBJECTS[name]()
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
