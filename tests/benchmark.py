"""Figures of speed, as ratios within one run: `python tests/benchmark.py`.

Not a test: machines differ, so nothing here passes or fails. Medians of several runs.
"""

from __future__ import annotations

import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path
from typing import Any

ROOT = Path(__file__).resolve().parents[1]
sys.path.insert(0, str(ROOT))


def median_seconds(run: Callable[[], Any], times: int = 5) -> float:
    """The median time of a call, in seconds of this process."""
    taken = []
    for _ in range(times):
        start = time.perf_counter()
        run()
        taken.append(time.perf_counter() - start)
    return statistics.median(taken)


def command(*arguments: str) -> float:
    """The median time of a command, start-up included."""
    return median_seconds(lambda: subprocess.run(arguments, check=True, capture_output=True))


def start_up() -> None:
    """`--help` beside bare Python with click; `check` in seconds."""
    click = command(sys.executable, "-c", "import click")
    helped = command(sys.executable, "-m", "generator", "--help")
    checked = command(sys.executable, "-m", "generator", "check")
    print(f"--help: {helped:.3f} s, {helped - click:+.3f} s beside Python with click")
    print(f"check: {checked:.2f} s")


def drawing() -> None:
    """10,000 items over every problem, and one beside a fresh solve."""
    import sympy

    from generator.cli import collect_rarely
    from generator.items.build import draw_item
    from generator.reading.curriculum import read_curriculum

    curriculum = read_curriculum(ROOT / "curriculum")
    problems = curriculum.problems
    collect_rarely()
    for problem in problems:
        draw_item(problem, 0)  # loaded: relations solved
    start = time.perf_counter()
    for seed in range(10_000 // len(problems)):
        for problem in problems:
            draw_item(problem, seed)
    each = (time.perf_counter() - start) / (10_000 // len(problems) * len(problems))

    def solve_afresh() -> None:
        stock, target, total, amount = sympy.symbols("stock target total amount", positive=True)
        equation = sympy.Eq(target * total, stock * amount)
        sympy.solve(equation.subs({stock: 12.5, target: 2, total: 50}), amount)

    solved = median_seconds(solve_afresh, 50)
    print(
        f"10,000 items: {each * 10_000:.2f} s; one item {each * 1e6:.0f} µs, "
        f"{solved / each:.0f} times faster than one fresh solve of a batch"
    )


def printing() -> None:
    """A booklet through the printer beside WeasyPrint alone on the same HTML and styles."""
    from weasyprint import CSS, HTML
    from weasyprint.text.fonts import FontConfiguration

    from generator.printing.pdf import Printer
    from generator.printing.stylesheet import stylesheet
    from generator.reading.curriculum import read_curriculum
    from generator.workflows.booklet import html_of

    curriculum = read_curriculum(ROOT / "curriculum")
    html = html_of(curriculum, curriculum.modules["debris"])
    printer, fonts = Printer(), FontConfiguration()
    css = CSS(string=stylesheet(lambda font: font.as_uri()), font_config=fonts)
    with tempfile.TemporaryDirectory() as folder:
        target = Path(folder) / "booklet.pdf"
        pairs = [
            (
                median_seconds(lambda: printer.write(html, target), 1),
                median_seconds(
                    lambda: HTML(string=html).write_pdf(
                        target, stylesheets=[css], font_config=fonts, pdf_variant="pdf/ua-1"
                    ),
                    1,
                ),
            )
            for _ in range(5)
        ]
    ratio = statistics.median(ours / bare for ours, bare in pairs)
    print(f"printing a booklet: {ratio:.2f} of the time of WeasyPrint alone")


def main() -> None:
    """All of them."""
    start_up()
    drawing()
    printing()


if __name__ == "__main__":
    main()
