"""A build of everything, and what a further one costs when little or nothing has changed."""

from __future__ import annotations

import shutil
import tempfile
from pathlib import Path

from timing import RIGPRIMER, ROOT, median_run, ran


def main() -> None:
    """Print the seconds of each, start-up included."""
    with tempfile.TemporaryDirectory() as folder:
        curriculum = Path(folder) / "curriculum"
        shutil.copytree(ROOT / "curriculum", curriculum)
        build = [*RIGPRIMER, "--curriculum", str(curriculum), "--out", f"{folder}/build", "build"]
        whole = ran(build).seconds
        print(f"  everything: {whole:.1f} s")
        print(f"  nothing changed: {median_run(build).seconds:.2f} s")
        changes = (
            ("one lesson changed", "modules/gear/hoses.yaml", "\npoints:\n", "\npoints: # new\n"),
            ("one word of a lesson changed", "modules/gear/hoses.yaml", "title: ", "title: New "),
            ("one setting changed", "shop.yaml", "reserve_gal: 10", "reserve_gal: 12"),
        )
        for name, file, old, new in changes:
            text = (curriculum / file).read_text("utf-8")
            assert old in text, f"{file} no longer says {old!r}"
            (curriculum / file).write_text(text.replace(old, new, 1), "utf-8")
            taken = ran(build).seconds
            print(f"  {name}: {taken:.1f} s, {taken / whole:.2f} of everything")
