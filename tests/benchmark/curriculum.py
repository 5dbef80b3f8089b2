"""Reading a curriculum of the usual size, of ten times and a hundred times as much."""

from __future__ import annotations

import re
import shutil
import tempfile
from functools import partial
from pathlib import Path

from timing import ROOT, growth, median_seconds

from generator.memory import collect_rarely
from generator.reading.curriculum import read_curriculum

SIZES = (1, 10, 100)
RELATIONS = re.compile(r"\b(relation|strip): ")  # named here, and shared by all


def main() -> None:
    """Print the seconds of each, and how they grew."""
    collect_rarely()
    seconds = {}
    for times in SIZES:
        with tempfile.TemporaryDirectory() as folder:
            larger = Path(shutil.copytree(ROOT / "curriculum", Path(folder) / "curriculum"))
            multiply(larger, times)
            seconds[times] = median_seconds(
                partial(read_curriculum, larger), 5 if times == 1 else 1
            )
    for times in SIZES:
        print(
            f"  {times} times the starter: {seconds[times]:.2f} s; "
            f"{growth(seconds[1], seconds[times], times)}"
        )


def multiply(curriculum: Path, times: int) -> None:
    """Put so many of each module into a curriculum, with their problems and questions."""
    for name, module in read_curriculum(curriculum).modules.items():
        folder = curriculum / "modules" / name
        for path in folder.glob("*.es.yaml"):
            path.unlink()
        asked = {p.id for p in module.problems} | {
            q.id for x in module.lessons for q in x.questions
        }
        word = re.compile(rf"(?<![\w.-])({'|'.join(map(re.escape, sorted(asked)))})(?![\w-])")
        for number in range(2, times + 1):
            copy = folder.with_name(f"{name}-{number}")
            copy.mkdir()
            for path in folder.iterdir():
                lines = path.read_text("utf-8").splitlines(keepends=True)
                renamed = [
                    x if RELATIONS.search(x) else word.sub(rf"\1-{number}", x) for x in lines
                ]
                (copy / path.name).write_text("".join(renamed), "utf-8")
