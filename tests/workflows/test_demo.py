"""The demo: each outcome it promises comes about, on real files.

It takes long, so it runs once: the promises are looked at by one test, one after the other.
"""

from __future__ import annotations

import csv
from dataclasses import dataclass
from pathlib import Path

import pikepdf

from generator.model.course import Curriculum
from generator.model.event import Event
from generator.model.paper import Result
from generator.records.papers_kept import find_result
from generator.records.store import open_records
from generator.workflows.board import as_data, board_of
from generator.workflows.demo import CREW, Made, run
from generator.workflows.today import today


@dataclass(frozen=True)
class Demo:
    """What a run of the demo left."""

    out: Path
    made: list[Made]
    said: list[str]
    events: tuple[Event, ...]
    troubles: list[str]

    def result(self, person: str) -> Result:
        papers = [
            e.data["paper"]["code"]
            for e in self.events
            if e.kind == "issued"
            and e.person == person
            and (e.data["paper"]["module"], e.data["paper"]["practice"]) == ("mixing", False)
        ]
        assert len(papers) == 1
        result = find_result(self.events, papers[0])
        assert result
        return result


def missing_of(demo: Demo, curriculum: Curriculum) -> dict[str, dict[str, list[str]]]:
    """What each person lacks in each column of the board."""
    data = as_data(board_of(curriculum, demo.events, today(), ""))
    return {
        person["name"]: {each["module"]: each["missing"] for each in person["standing"]}
        for person in data["people"]
    }


def every_promised_file_is_there_and_has_pages(demo: Demo, curriculum: Curriculum) -> None:
    names = [made.path.relative_to(demo.out).as_posix() for made in demo.made]
    granting = [module.id for module in curriculum.modules.values() if module.grants]
    booklets = [f"booklets/{module}-booklet.pdf" for module in granting]
    assert names[: len(booklets)] == booklets
    papers = {"papers/mixing-papers.pdf", "keys/mixing-key.pdf"}
    assert papers | {"board.pdf", "board.csv"} < set(names)
    assert len([name for name in names if name.startswith("slips/")]) == len(CREW)
    for made in demo.made:
        assert made.what
        if made.path.suffix == ".pdf":
            with pikepdf.open(made.path) as pdf:
                assert len(pdf.pages) >= 1
        else:
            assert len(list(csv.reader(made.path.read_text("utf-8-sig").splitlines()))) > 1


def juno_may_mix_on_the_first_rig_and_nobody_else(demo: Demo, curriculum: Curriculum) -> None:
    duties = as_data(board_of(curriculum, demo.events, today(), ""))["may_mix"]
    assert duties == [
        {"rig": "Rig 1", "sentence": "Juno may mix today.", "open": True},
        {"rig": "Rig 2", "sentence": "Nobody may mix today.", "open": False},
    ]
    missing = missing_of(demo, curriculum)
    assert missing["Juno"]["mix, Rig 1"] == []
    assert missing["Juno"]["mix, Rig 2"]
    assert demo.result("Juno").passed


def teo_may_not_for_one_missed_must_get(demo: Demo, curriculum: Curriculum) -> None:
    result = demo.result("Teo")
    assert result.right == len(result.paper.items) - 1 >= result.paper.cut
    (position,) = result.must_missed
    assert result.paper.items[position - 1].id == "acid-and-bleach"
    assert not result.passed
    lacks = missing_of(demo, curriculum)["Teo"]["mix, Rig 1"]
    assert any("must" in text or "paper" in text for text in lacks)


def bram_may_not_since_he_took_the_ratio_for_a_fraction(demo: Demo, curriculum: Curriculum) -> None:
    result = demo.result("Bram")
    assert not result.passed
    by_id = {item.id: n for n, item in enumerate(result.paper.items)}
    verdict = result.verdicts[by_id["ratio-strength"]]
    assert (verdict.kind, verdict.counts) == ("slip", False)
    assert "fraction" in verdict.slip or "fraction" in verdict.tell


def pia_passed_and_lacks_the_sign_off(demo: Demo, curriculum: Curriculum) -> None:
    assert demo.result("Pia").passed
    lacks = " ".join(missing_of(demo, curriculum)["Pia"]["mix, Rig 1"]).lower()
    assert "sign" in lacks or "seen" in lacks
    assert "must" not in lacks


def the_record_is_whole_and_nothing_else_was_made(demo: Demo, curriculum: Curriculum) -> None:
    assert demo.troubles == []
    files = {path for path in demo.out.rglob("*") if path.is_file()}
    assert files == {made.path for made in demo.made} | {demo.out / "records.sqlite3"}
    assert demo.said


def no_two_papers_of_the_class_are_alike(demo: Demo, curriculum: Curriculum) -> None:
    papers = [demo.result(name).paper for name in CREW]
    assert len({tuple(item.ask for item in paper.items) for paper in papers}) == len(CREW)
    assert len({paper.code for paper in papers}) == len(CREW)


PROMISES = (
    every_promised_file_is_there_and_has_pages,
    juno_may_mix_on_the_first_rig_and_nobody_else,
    teo_may_not_for_one_missed_must_get,
    bram_may_not_since_he_took_the_ratio_for_a_fraction,
    pia_passed_and_lacks_the_sign_off,
    the_record_is_whole_and_nothing_else_was_made,
    no_two_papers_of_the_class_are_alike,
)


def test_the_demo_keeps_each_of_its_promises(tmp_path: Path, curriculum: Curriculum) -> None:
    said: list[str] = []
    made = run(curriculum, tmp_path / "demo", said.append)
    with open_records(tmp_path / "demo" / "records.sqlite3") as records:
        demo = Demo(tmp_path / "demo", made, said, records.events(), records.verify())
    for promise in PROMISES:
        promise(demo, curriculum)
