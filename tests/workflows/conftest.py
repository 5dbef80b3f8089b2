"""A shop folder of its own for each test, with a crew and a trainer."""

from __future__ import annotations

import shutil
from itertools import count
from pathlib import Path
from typing import Any

import pytest

from generator.model.course import Curriculum, Module
from generator.model.event import Event
from generator.printing.pdf import Printer
from generator.workflows.people import taught
from generator.workflows.place import Place, starter
from generator.workflows.record import enter, event


@pytest.fixture(scope="session")
def printer() -> Printer:
    """One Printer, as every printing process has."""
    return Printer()


@pytest.fixture
def shop(tmp_path: Path, curriculum: Curriculum) -> Place:
    """A shop with the trainer Mara, and Juno and Teo, taught everything."""
    shutil.copytree(starter(), tmp_path / "curriculum")
    place = Place(tmp_path / "curriculum", tmp_path / "records.sqlite3", tmp_path / "build", True)
    joined = [event("joined", name) for name in ("Mara", "Juno", "Teo")]
    named = event("trainer-named", "Mara", by="Odile", basis="six seasons")
    lessons = [
        each
        for module in curriculum.modules.values()
        for each in taught(module, ["Juno", "Teo"], (), "Mara", None)
    ]
    enter(place, curriculum, [*joined, named, *lessons])
    return place


class Story:
    """A history written in few words, entered as it stands; no rule is asked.

    Days are ISO texts. Papers hold what standing reads of them, and no items to answer.
    """

    def __init__(self, curriculum: Curriculum) -> None:
        self.curriculum = curriculum
        self.events: list[Event] = []
        self._codes = count(1)

    def add(self, kind: str, person: str, day: str, by: str = "", **data: Any) -> Event:
        """One event, with its number."""
        event = Event(kind, person, day, day, by, data, len(self.events) + 1)
        self.events.append(event)
        return event

    def entered(self, day: str) -> None:
        """The last event was entered only on that day."""
        self.events[-1] = self.events[-1]._replace(entered=day)

    def crew(self, *names: str, trainer: str = "Mara") -> Story:
        """A trainer named by Odile, and people who joined on the same day."""
        for name in (trainer, *names):
            self.add("joined", name, "2026-01-05")
        basis = "six seasons at the rig"
        self.add("trainer-named", trainer, "2026-01-05", "Odile", basis=basis)
        for module in self.curriculum.modules.values():
            self.edition(module, "2026-01-05")
        return self

    def edition(self, module: Module, day: str) -> None:
        """The module as it is, heard of on that day."""
        lessons = [lesson.id for lesson in module.lessons]
        must = [line.id for line in module.sign_off.lines if line.must]
        self.add(
            "edition", "", day, module=module.id, edition=module.edition, lessons=lessons, must=must
        )

    def sat(self, person: str, module: str, day: str, by: str = "Mara", **how: Any) -> str:
        """A counted paper, passed unless `right` or `missed` say otherwise; its code."""
        of = self.curriculum.modules[module]
        code = f"P{next(self._codes):02d}"
        musts = [{"id": name, "must": True} for name in of.blueprint.must]
        rest = [{"id": f"item-{n}", "must": False} for n in range(of.blueprint.items - len(musts))]
        missed, practice = how.get("missed", ""), how.get("practice", False)
        places = [n for n, item in enumerate(musts, 1) if item["id"] == missed]
        right = how.get("right", of.blueprint.items - len(places))
        paper = {
            "code": code,
            "module": module,
            "edition": of.edition,
            "person": person,
            "practice": practice,
            "items": [*musts, *rest],
            "language": "en",
        }
        cut = of.blueprint.cut
        self.add("issued", person, day, paper=paper)
        self.add(
            *("marked", person, day, by),
            paper=code,
            right=right,
            items=of.blueprint.items,
            cut=cut,
            must_missed=places,
            passed=right >= cut and not places,
            practice=practice,
            how="answers",
            verdicts=[],
        )
        return code

    def signed(self, person: str, module: str, day: str, rig: str = "", by: str = "Mara") -> None:
        """Every line of the sheet yes."""
        lines = {line.id: "yes" for line in self.curriculum.modules[module].sign_off.lines}
        self.add("signed-off", person, day, by, module=module, rig=rig, lines=lines)

    def cleared(self, person: str, day: str, *rigs: str) -> Story:
        """Everything for mixing on those rigs, on one day."""
        modules = self.curriculum.modules
        for module in (*self.curriculum.before(modules["mixing"]), modules["mixing"]):
            lessons = [lesson.id for lesson in module.lessons]
            self.add("taught", person, day, "Mara", module=module.id, lessons=lessons, minutes=45)
            self.sat(person, module.id, day)
            for rig in rigs if module.sign_off.per_rig else [""]:
                self.signed(person, module.id, day, rig)
        for rig in rigs:
            self.add("sheets-shown", person, day, "Mara", rig=rig)
        return self


@pytest.fixture
def story(curriculum: Curriculum) -> Story:
    """A history to be written; nobody is on the crew yet."""
    return Story(curriculum)
