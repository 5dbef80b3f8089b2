"""A small yard to keep records of: three modules, two rigs, and events written as short lines.

A line is `DAY KIND PERSON [by NAME] [key=value …]`. `sat` stands for a paper printed and marked:
`2025-01-08 sat Ana by Boss M1 mixing 4/4 [missed=acid] [practice] [back] [edition=2]`.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field, replace
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest

from generator.model.course import Blueprint, Curriculum, Lesson, Module, SignOff, SkillLine
from generator.model.event import Event
from generator.model.item import Answer, Item
from generator.model.paper import Paper
from generator.model.shop import Lapse, Rig, Rules, Shop
from generator.records.papers_kept import paper_to_data
from generator.records.store import Records

ITEMS = ("amount", "ratio", "acid", "water-first")  # of every paper here; the last two are must
CUT = 3
HEADS = ("module", "rig", "edition")  # of a sign-off; all else is a line


def rig(number: int) -> Rig:
    gal = Fraction(100)
    return Rig(f"rig-{number}", f"Rig {number}", "van", gal, gal / 10, *[Fraction(4)] * 4)


def module(
    id: str,
    lessons: str,
    lines: str = "",
    must: str = "",
    edition: int = 1,
    practice: int = 0,
    tries: int = 2,
    days_between: int = 1,
    **more: Any,
) -> Module:
    exception, practice_cut = more.pop("exception", True), more.pop("practice_cut", 0)
    must_lines = must.split(",")
    sheet = [SkillLine(n, f"does {n}", "", n in must_lines) for n in lines.split(",") if n]
    return Module(
        id=id,
        title=id.capitalize(),
        short=id,
        aim="",
        edition=edition,
        wording="",
        digest="",
        lessons=tuple(Lesson(n, n.capitalize(), "", 10, ()) for n in lessons.split(",")),
        problems=(),
        blueprint=Blueprint(
            *(3, 1, CUT, tries, days_between, practice),
            must=("acid", "water-first"),
            exception=exception,
            practice_cut=practice_cut,
        ),
        sign_off=SignOff(tuple(sheet), more.pop("per_rig", False)),
        **more,
    )


MODULES: dict[str, dict[str, Any]] = {
    "gear": {"lessons": "hoses"},
    "mixing": {
        "lessons": "percent,ratios",
        "lines": "goggles,pour,tidy",
        "must": "goggles,pour",
        "per_rig": True,
        "grants": "mix",
        "requires": ("gear",),
    },
    "ladders": {"lessons": "foot", "lines": "footing", "must": "footing"},
}


@dataclass
class Case:
    """A case of tests/cases: how its history begins, what was added, what is `now` different."""

    title: str
    line: int
    start: str = ""
    events: str = ""
    now: dict[str, dict[str, Any]] = field(default_factory=dict)
    said: dict[str, list[str]] = field(default_factory=dict)  # lines that begin with a known word

    def read(self, line: str, words: Sequence[str]) -> None:
        """Take in one line; those that begin with one of `words` are only kept."""
        word, _, rest = line.partition(" ")
        if word == "from":
            self.start = rest
        elif word == "now":
            module, *pairs = rest.split()
            values = dict(pair.split("=") for pair in pairs)
            self.now[module] = {k: _value(v) for k, v in values.items()}
        elif word in words:
            self.said.setdefault(word, []).append(rest)
        else:
            self.events += line + "\n"

    def curriculum(self) -> Curriculum:
        """The curriculum of the case; `now rules` switches what lapses."""
        changes = {name: said for name, said in self.now.items() if name != "rules"}
        return a_curriculum(rules_of(self.now.get("rules", {})), **changes)


def _value(text: str) -> Any:
    return int(text) if text.isdigit() else text == "yes" if text in ("yes", "no") else text


def rules_of(said: dict[str, Any]) -> Rules:
    """Rules with some of their numbers or switches changed."""
    numbers = {name: value for name, value in said.items() if name in ("grace",)}
    switches = {name: value for name, value in said.items() if name not in numbers}
    return Rules(**numbers, lapse=Lapse(**switches))


def read_cases(name: str, words: Sequence[str]) -> list[Case]:
    """The cases of a file of tests/cases; `words` begin the lines that say what is expected."""
    cases: list[Case] = []
    text = (Path(__file__).parents[1] / "cases" / name).read_text("utf-8")
    for number, line in enumerate(text.splitlines(), start=1):
        if line.startswith("== "):
            cases.append(Case(line[3:], number))
        elif line.strip() and not line.startswith("#"):
            cases[-1].read(line, words)
    return cases


def pytest_generate_tests(metafunc: pytest.Metafunc) -> None:
    """One test for each case of the file that the test module names in CASES."""
    if "case" in metafunc.fixturenames:
        cases = read_cases(metafunc.module.CASES, metafunc.module.WORDS)
        metafunc.parametrize("case", cases, ids=lambda case: f"{case.line}: {case.title}")


def a_curriculum(rules: Rules | None = None, **changes: dict[str, Any]) -> Curriculum:
    shop = Shop(
        "Larkspur Bend", "letter", "en", (Fraction(10),), Fraction(1, 4), (), (rig(1), rig(2)), ()
    )
    modules = {id: module(id, **{**said, **changes.get(id, {})}) for id, said in MODULES.items()}
    return Curriculum(replace(shop, rules=rules or Rules()), {}, {}, modules, "")


def a_paper(code: str, module: str, person: str, day: str, **more: Any) -> Paper:
    answer = Answer(Fraction(5, 2), Fraction(7, 3), "gal", low=Fraction(9, 4), high=Fraction(5, 2))
    items = tuple(
        Item(id, "write", place, f"How much {id}?", answer, must=place > 2)
        for place, id in enumerate(ITEMS, start=1)
    )
    edition = more.pop("edition", 1)
    return Paper(code, "0" * 32, module, module, edition, "d", person, day, items, CUT, **more)


def a_mark(code: str, right: int, missed: str = "", practice: bool = False) -> dict[str, Any]:
    places = [ITEMS.index(item) + 1 for item in missed.split(",") if item]
    return {
        "paper": code,
        "verdicts": [],
        "right": right,
        "items": len(ITEMS),
        "cut": CUT,
        "must_missed": places,
        "passed": right >= CUT and not places,
        "practice": practice,
        "how": "by eye",
    }


def options(words: list[str]) -> tuple[list[str], dict[str, str]]:
    pairs = dict(word.split("=", 1) for word in words if "=" in word)
    return [word for word in words if "=" not in word], pairs


def one_value(name: str, text: str) -> Any:
    if name in ("lessons", "must"):
        return [word for word in text.split(",") if word]
    if name in ("rebrief", "alone"):
        return text == "yes"
    return int(text) if text.isdigit() else text


def line_events(line: str) -> list[Event]:
    day, kind, person, *rest = line.split()
    person = "" if person == "-" else person
    by = rest[1] if rest[:1] == ["by"] else ""
    words, pairs = options(rest[2:] if by else rest)
    if kind in ("sat", "issued", "marked"):
        return paper_events(day, kind, person, by, words, pairs)
    data = {name: one_value(name, text) for name, text in pairs.items()}
    if kind == "signed-off":
        data = sign_off_data(data)
    return [Event(kind, person, day, day, by, data)]


def sign_off_data(words: dict[str, Any]) -> dict[str, Any]:
    heads = {"rig": "", "edition": 1, **words}
    lines = {n: heads.pop(n).replace("_", " ") for n in words if n not in HEADS}
    return {**heads, "lines": lines}


def paper_events(
    day: str, kind: str, person: str, by: str, words: list[str], pairs: dict[str, str]
) -> list[Event]:
    code, about, *more = words
    practice = "practice" in more
    edition = int(pairs.get("edition", "1"))
    printed_for = "" if "spare" in more else person
    back = "back" in more
    paper = a_paper(code, about, printed_for, day, practice=practice, edition=edition, back=back)
    issued = Event("issued", printed_for, day, day, "", {"paper": paper_to_data(paper)})
    if kind == "issued":
        return [issued]
    right = int(more[0].split("/")[0])
    data = a_mark(code, right, pairs.get("missed", ""), practice)
    marked = Event("marked", person, day, day, by, data)
    return [issued, marked] if kind == "sat" else [marked]


def numbered(text: str) -> tuple[Event, ...]:
    lines = [line.split("#")[0].strip() for line in text.splitlines()]
    events = [event for line in lines if line for event in line_events(line)]
    return tuple(event._replace(number=n) for n, event in enumerate(events, start=1))


@pytest.fixture(scope="session")
def curriculum() -> Callable[..., Curriculum]:
    """A curriculum; `curriculum(mixing={"edition": 2})` changes a module."""
    return a_curriculum


@pytest.fixture(scope="session")
def history() -> Callable[[str], tuple[Event, ...]]:
    """Numbered events from lines."""
    return numbered


@pytest.fixture(scope="session")
def cases() -> Callable[[str, Sequence[str]], list[Case]]:
    """The cases of a file of tests/cases."""
    return read_cases


@pytest.fixture
def path(tmp_path: Path) -> Path:
    """Where a record may be made."""
    return tmp_path / "records.sqlite3"


@pytest.fixture
def kept(path: Path) -> Path:
    """A record of twelve events."""
    with Records(path, create=True) as records:
        records.append(
            [Event("joined", f"Crew {n}", "2025-03-01", "2025-03-02") for n in range(12)]
        )
    return path


CREW = """
2025-01-02 joined Boss
2025-01-02 trainer-named Boss by Owner basis=twelve-years-at-it
2025-01-02 joined Cal
2025-01-02 trainer-named Cal by Owner basis=ran-rigs-before
2025-01-03 joined Ana
"""
GEAR = """
2025-01-04 taught Ana by Boss module=gear lessons=hoses
2025-01-05 sat Ana by Boss G1 gear 4/4
"""
PAPERED = """
2025-01-06 taught Ana by Boss module=mixing lessons=percent,ratios
2025-01-08 sat Ana by Boss M1 mixing 4/4
"""
SHOWN = """
2025-01-09 sheets-shown Ana by Boss rig=rig-1
2025-01-10 signed-off Ana by Boss module=mixing rig=rig-1 goggles=yes pour=yes tidy=yes
"""
AT_WORK = """
2025-03-15 exception Ana by Owner why=seen-at-work
2025-06-01 exception Ana by Owner why=seen-at-work
2025-08-15 exception Ana by Owner why=seen-at-work
2025-11-01 exception Ana by Owner why=seen-at-work
2025-12-20 exception Ana by Owner why=seen-at-work
2026-02-01 exception Ana by Owner why=seen-at-work
"""


@pytest.fixture(scope="session")
def starts() -> dict[str, str]:
    """How histories begin: a crew; gear passed; mixing passed; cleared on rig 1; a year on."""
    names = ("crew", "gear", "papered", "cleared", "year")
    parts = (CREW, GEAR, PAPERED, SHOWN, AT_WORK)
    return {name: "".join(parts[: n + 1]) for n, name in enumerate(names)}
