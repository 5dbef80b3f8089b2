"""A shop of 500 people over ten years: the record read, the board, a person's file, a grading."""

from __future__ import annotations

import tempfile
from collections.abc import Iterator
from datetime import date, timedelta
from pathlib import Path
from random import Random
from typing import Any

from timing import ROOT, growth, median_seconds

from generator.marking.result import mark
from generator.memory import collect_rarely
from generator.model.course import Curriculum
from generator.model.event import Event
from generator.reading.curriculum import read_curriculum
from generator.records.about import about_people
from generator.records.chain import START, sealed
from generator.records.papers_kept import paper_to_data, result_to_data
from generator.records.rows import Row, heads
from generator.records.store import Records
from generator.workflows.board import board_of
from generator.workflows.drawing import draw_papers
from generator.workflows.paper import issued_event
from generator.workflows.person import person_file
from generator.workflows.place import Place
from generator.workflows.record import enter, event

SIZES = (1_000, 10_000, 50_000, 200_000)  # events
PEOPLE, TRAINERS = 500, 20


def big_record(path: Path, curriculum: Curriculum, events: int, papers: int) -> None:
    """A record of ten years: talks, data sheets, sign-offs, and papers kept whole and marked."""

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


def main() -> None:
    """Print the figures of each size, and how they grew."""
    collect_rarely()
    curriculum = read_curriculum(ROOT / "curriculum")
    with tempfile.TemporaryDirectory() as folder:
        figures = {
            size: of_size(Path(folder) / f"{size}.sqlite3", curriculum, size) for size in SIZES
        }
    for name in figures[SIZES[0]]:
        each = ", ".join(f"{figures[size][name]:.3f} s" for size in SIZES)
        last, before = figures[SIZES[-1]][name], figures[SIZES[-2]][name]
        print(f"  {name}: {each}; {growth(before, last, SIZES[-1] / SIZES[-2])} at the end")


def of_size(path: Path, curriculum: Curriculum, events: int) -> dict[str, float]:
    """The figures of a record of so many events, one in a hundred a paper kept whole."""
    big_record(path, curriculum, events, events // 100)
    return record_figures(path, curriculum)


def record_figures(path: Path, curriculum: Curriculum) -> dict[str, float]:
    """Seconds of each thing a shop does with a record, the file opened anew each time."""

    place = Place(ROOT / "curriculum", path, path.parent, own=True)

    def board() -> None:
        with Records(path) as opened:
            board_of(curriculum, opened.outline(), "2025-01-01", opened.head())

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
