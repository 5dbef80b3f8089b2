"""The start of every command beside bare Python with click; `check`; the board of the demo."""

from __future__ import annotations

import sys
import tempfile

import click
from timing import RIGPRIMER, Ran, median_run, ran

from generator.cli import run


def main() -> None:
    """Print them."""
    bare = median_run([sys.executable, "-c", "import click"], 9).seconds
    names = run.list_commands(click.Context(run))
    helped = {name: median_run([*RIGPRIMER, name, "--help"], 3).seconds for name in names}
    whole = median_run([*RIGPRIMER, "--help"], 9).seconds
    slowest = max(helped, key=helped.__getitem__)
    print(f"  Python with click: {bare:.3f} s")
    print(f"  rigprimer --help: {whole - bare:+.3f} s beside it")
    print(
        f"  COMMAND --help, {len(names)} commands: at most {helped[slowest] - bare:+.3f} s "
        f"beside it ({slowest})"
    )
    print(f"  check: {median_run([*RIGPRIMER, 'check'], 3).seconds:.2f} s")
    demo, board = demo_and_board()
    print(f"  demo: {demo.seconds:.1f} s; board of its crew on the screen: {board.seconds:.2f} s")


def demo_and_board() -> tuple[Ran, Ran]:
    """The demo, and the board of the record that it leaves."""
    with tempfile.TemporaryDirectory() as folder:
        demo = ran([*RIGPRIMER, "--out", folder, "demo"])
        record = f"{folder}/demo/records.sqlite3"
        return demo, median_run([*RIGPRIMER, "--records", record, "board"])
