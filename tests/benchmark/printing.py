"""Everything printable, beside bare WeasyPrint on the same HTML, one document after another.

Bare is WeasyPrint as its manual calls it: each document with its stylesheet, and nothing kept from
one to the next. "Styles kept" is the same with styles and fonts read once. All run in processes of
their own, in turn, so that no one has the quiet moments to himself.
"""

from __future__ import annotations

import statistics
import tempfile
import time
from collections.abc import Callable, Sequence
from concurrent.futures import ProcessPoolExecutor
from multiprocessing import cpu_count, get_context
from pathlib import Path

from timing import ROOT

from generator.memory import collect_rarely
from generator.printing.pdf import Printer
from generator.printing.stylesheet import stylesheet
from generator.reading.curriculum import read_curriculum
from generator.workflows.press import Job, run_off
from generator.workflows.sheets import products

TIMES = 3
Way = Callable[[Sequence[Job]], None]


def main() -> None:
    """Print the times, and each beside the first."""
    with tempfile.TemporaryDirectory() as folder:
        jobs = every_job(Path(folder))
        ways: dict[str, Way] = {
            "bare": bare,
            "styles kept": styles_kept,
            "one printer": one_printer,
            "the press": the_press,
        }
        runs = [{name: seconds(way, jobs) for name, way in ways.items()} for _ in range(TIMES)]
    print(f"  {len(jobs)} documents, {sum(len(job.html) for job in jobs):,} characters of HTML")
    for name in ways:
        taken = statistics.median(run[name] for run in runs)
        beside = ", ".join(
            f"{statistics.median(run[name] / run[other] for run in runs):.2f} of {other}"
            for other in ("bare", "styles kept")
        )
        print(f"  {name}: {taken:.1f} s: {beside}")
    cores = cpu_count()
    print(f"  {cores} processes at plain sums: {side_by_side(cores):.2f} times the work of one")


def every_job(folder: Path) -> list[Job]:
    """All that a build prints, as HTML; not the pages that stay HTML."""
    known = products(read_curriculum(ROOT / "curriculum")).values()
    jobs = [product.job(folder) for product in known]
    kept = [Job(j.id, j.name, j.html, j.path) for j in jobs if j.path.suffix == ".pdf"]
    for job in kept:
        job.path.parent.mkdir(parents=True, exist_ok=True)
    return sorted(kept, key=lambda job: -len(job.html))


def seconds(way: Way, jobs: Sequence[Job]) -> float:
    """Seconds of that way with all jobs, in a process of its own."""
    with ProcessPoolExecutor(1, get_context("spawn")) as pool:
        return pool.submit(timed, way, jobs).result()


def timed(way: Way, jobs: Sequence[Job]) -> float:
    """Its seconds by the clock, WeasyPrint loaded before."""
    import weasyprint  # noqa: F401  # not counted for any

    start = time.perf_counter()
    way(jobs)
    return time.perf_counter() - start


def bare(jobs: Sequence[Job]) -> None:
    """WeasyPrint as its manual calls it."""
    from weasyprint import CSS, HTML
    from weasyprint.text.fonts import FontConfiguration

    styles = stylesheet(lambda font: font.as_uri())
    for job in jobs:
        fonts = FontConfiguration()
        css = CSS(string=styles, font_config=fonts)
        HTML(string=job.html).write_pdf(
            job.path, stylesheets=[css], font_config=fonts, pdf_variant="pdf/ua-1"
        )


def styles_kept(jobs: Sequence[Job]) -> None:
    """The same, with styles and fonts read once."""
    from weasyprint import CSS, HTML
    from weasyprint.text.fonts import FontConfiguration

    fonts = FontConfiguration()
    css = CSS(string=stylesheet(lambda font: font.as_uri()), font_config=fonts)
    for job in jobs:
        HTML(string=job.html).write_pdf(
            job.path, stylesheets=[css], font_config=fonts, pdf_variant="pdf/ua-1"
        )


def one_printer(jobs: Sequence[Job]) -> None:
    """Ours, in one process."""
    collect_rarely()
    printer = Printer()
    for job in jobs:
        printer.write(job.html, job.path)


def the_press(jobs: Sequence[Job]) -> None:
    """Ours, a process a core."""
    for _ in run_off(jobs):
        pass


def side_by_side(cores: int) -> float:
    """How much more work so many processes do than one in the same time, on this machine."""
    with get_context("spawn").Pool(cores) as pool:
        pool.map(plain_sums, [1] * cores)  # started
        alone, together = [], []
        for _ in range(TIMES):
            start = time.perf_counter()
            pool.apply(plain_sums, [20])
            alone.append(time.perf_counter() - start)
            start = time.perf_counter()
            pool.map(plain_sums, [20] * cores, chunksize=1)
            together.append(time.perf_counter() - start)
    return cores * statistics.median(alone) / statistics.median(together)


def plain_sums(times: int) -> int:
    """Some work for one core."""
    return sum(number % 7 for _ in range(times) for number in range(500_000))
