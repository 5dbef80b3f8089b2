"""Figures of speed, as ratios within one run: `python tests/benchmark.py`.

Not a test: machines differ, so nothing here passes or fails. Medians of several runs.
"""

from __future__ import annotations

import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Iterator
from datetime import date, timedelta
from pathlib import Path
from random import Random
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from generator.model.course import Curriculum
    from generator.workflows.place import Place

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


PEOPLE, TRAINERS = 500, 20


def big_record(path: Path, curriculum: Curriculum, events: int, papers: int) -> None:
    """A record of ten years: talks, data sheets, sign-offs, and papers kept whole and marked."""
    from generator.model.event import Event
    from generator.records.chain import START, sealed
    from generator.records.rows import Row, heads
    from generator.records.store import Records

    def made() -> Iterator[Row]:
        row = Row(0, "", "", "", "", "", "", "", "", START, "")
        for kind, person, day, by, data in ten_years(curriculum, events, papers):
            event = Event(kind, person, day, day, by, data)
            row = sealed(row.number + 1, heads(event), row.hash)
            yield row

    with Records(path, create=True) as records:
        records.append_rows(made())


def ten_years(
    curriculum: Curriculum, events: int, papers: int
) -> Iterator[tuple[str, str, str, str, dict[str, Any]]]:
    """Kind, person, day, trainer and data of so many events, spread over ten years."""
    from generator.marking.result import mark
    from generator.records.papers_kept import paper_to_data, result_to_data
    from generator.workflows.paper import draw_papers

    random, modules = Random(1), list(curriculum.modules.values())
    names = [f"Crew {number}" for number in range(PEOPLE)]
    for name in names:
        yield "joined", name, "2015-01-01", "", {}
    for name in names[:TRAINERS]:
        yield "trainer-named", name, "2015-01-01", "Owner", {"basis": "years at it"}
    sheets = {module.id: draw_papers(curriculum, module, [""], False)[0] for module in modules}
    results = {
        name: result_to_data(mark(sheet, [item.answer.text for item in sheet.items]), "answers")
        for name, sheet in sheets.items()
    }
    kept = {name: paper_to_data(sheet) for name, sheet in sheets.items()}
    rest = events - PEOPLE - TRAINERS - 2 * papers
    for number in range(papers):
        day = (date(2015, 1, 2) + timedelta(days=3600 * number // papers)).isoformat()
        who, by = random.choice(names[TRAINERS:]), random.choice(names[:TRAINERS])
        name, code = modules[number % len(modules)].id, f"P{number}"
        yield "issued", who, day, "", {"paper": kept[name] | {"code": code, "person": who}}
        yield "marked", who, day, by, results[name] | {"paper": code}
        for _ in range(rest * number // papers, rest * (number + 1) // papers):
            module, who = random.choice(modules), random.choice(names[TRAINERS:])
            lesson = random.choice(module.lessons).id
            lines = {line.id: "yes" for line in module.sign_off.lines}
            rig = curriculum.shop.rigs[0].id if module.sign_off.per_rig else ""
            about = {"module": module.id, "edition": module.edition}
            yield random.choice(
                [("taught", who, day, by, about | {"lessons": [lesson]})] * 8
                + [("signed-off", who, day, by, about | {"rig": rig, "lines": lines})]
                + [("sheets-shown", who, day, by, {"rig": curriculum.shop.rigs[0].id})]
            )


def records() -> None:
    """A record of 200,000 events and one of a quarter: reading, board, a person, a grading."""
    from generator.cli import collect_rarely
    from generator.reading.curriculum import read_curriculum

    curriculum = read_curriculum(ROOT / "curriculum")
    collect_rarely()
    with tempfile.TemporaryDirectory() as folder:
        sizes = {events: Path(folder) / f"{events}.sqlite3" for events in (50_000, 200_000)}
        for events, path in sizes.items():
            big_record(path, curriculum, events, events // 100)
        small, large = (record_figures(path, curriculum) for path in sizes.values())
    for name, seconds in large.items():
        print(f"200,000 events: {name} {seconds:.3f} s, {seconds / small[name]:.1f} times 50,000")


def record_figures(path: Path, curriculum: Curriculum) -> dict[str, float]:
    """Seconds of each thing a shop does with a record, the file opened anew each time."""
    from generator.records.about import about_people
    from generator.records.store import Records
    from generator.workflows.board import board_of
    from generator.workflows.person import person_file
    from generator.workflows.place import Place

    place = Place(ROOT / "curriculum", path, path.parent, own=True)

    def board() -> None:
        with Records(path) as opened:
            board_of(curriculum, opened.events(), "2025-01-01", opened.head())

    def person() -> None:
        with Records(path) as opened:
            events = opened.events(about_people(["Crew 100"]))
            person_file(curriculum, events, "Crew 100", "2025-01-01", opened.head())

    def verify() -> None:
        with Records(path) as opened:
            assert not opened.verify()

    with Records(path) as opened:
        reading = median_seconds(opened.events, 3)
        bare = median_seconds(lambda: sum(1 for _ in opened.rows()), 3)
    return {
        "turning every page": bare,
        "reading all": reading,
        "the board": median_seconds(board, 3),
        "a person's file": median_seconds(person, 3),
        "a grading": grading(place, curriculum),
        "testing the chain": median_seconds(verify, 1),
    }


def grading(place: Place, curriculum: Curriculum) -> float:
    """The median time of entering a marked paper, all rules asked, until the disk has it."""
    from generator.marking.result import mark
    from generator.records.papers_kept import result_to_data
    from generator.workflows.paper import draw_papers, issued_event
    from generator.workflows.record import enter, event

    module = next(iter(curriculum.modules.values()))
    names = [f"Crew {number}" for number in range(100, 107)]
    papers = draw_papers(curriculum, module, names, practice=True)
    enter(place, curriculum, [issued_event(paper) for paper in papers])
    marks = [
        result_to_data(mark(paper, [item.answer.text for item in paper.items]), "answers")
        for paper in papers
    ]
    left = [
        event("marked", name, by="Crew 3", **data) for name, data in zip(names, marks, strict=True)
    ]
    return median_seconds(lambda: enter(place, curriculum, [left.pop()]), len(names))


def main() -> None:
    """All of them."""
    start_up()
    drawing()
    printing()
    records()


if __name__ == "__main__":
    main()
