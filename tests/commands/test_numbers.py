"""`plan` and `stats` as people and programs use them."""

from __future__ import annotations

import json
import shutil
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner, Result

from generator.cli import run
from generator.marking import result as marking
from generator.model.course import Curriculum
from generator.model.event import Event
from generator.model.item import Item
from generator.records.papers_kept import result_to_data
from generator.records.store import open_records
from generator.workflows.drawing import draw_paper
from generator.workflows.paper import issued_event
from generator.workflows.place import starter


def rigprimer(*words: str) -> Result:
    return CliRunner().invoke(run, list(words), prog_name="rigprimer", catch_exceptions=False)


def in_shop(folder: str, *words: str) -> Result:
    return rigprimer("--curriculum", folder, *words)


def reads_a_quarter(item: Item) -> str:
    slip = next((s for s in item.slips if s.id == "read-as-fraction"), None)
    return slip.text if slip and item.id == "ratio-strength" else item.answer.text


def season(curriculum: Curriculum, day: str) -> Iterator[Event]:
    """Three people sit a mixing paper on that day, and all take 1 to 4 for one quarter."""
    for name in ("Juno", "Teo", "Pia"):
        code = f"{name}-{day}"
        sheet = draw_paper(curriculum, curriculum.modules["mixing"], name, False, code, day=day)
        result = marking.mark(sheet, [reads_a_quarter(item) for item in sheet.items])
        yield issued_event(sheet)
        yield Event("marked", name, day, day, "Mara", result_to_data(result, "answers"))


@pytest.fixture(scope="module")
def small(tmp_path_factory: pytest.TempPathFactory, part_of_starter: Callable[..., Path]) -> str:
    """The folder of a curriculum of two modules."""
    folder = tmp_path_factory.mktemp("small") / "curriculum"
    return str(part_of_starter(folder, "mixing", "debris"))


@pytest.fixture(scope="module")
def records(tmp_path_factory: pytest.TempPathFactory, curriculum: Curriculum) -> Path:
    """A record with two seasons of papers."""
    path = tmp_path_factory.mktemp("records") / "records.sqlite3"
    joined = [Event("joined", n, "2024-01-01", "2024-01-01") for n in ("Juno", "Teo", "Pia")]
    papers = [event for day in ("2024-04-01", "2025-04-01") for event in season(curriculum, day)]
    with open_records(path, create=True) as opened:
        opened.append([*joined, *papers])
    return path


def data_of(result: Result) -> Any:
    assert result.exit_code == 0, result.output
    (line,) = result.stdout.splitlines()
    return json.loads(line)


def test_plan_says_what_each_number_means(small: str) -> None:
    result = in_shop(small, "plan", "mixing")
    assert result.exit_code == 0
    said = " ".join(result.output.split())
    for words in (
        "24 items (18 to write in, 6 to choose), 22 needed, 2 tries, 5 must-gets.",
        "False pass: of 100 people who know only 70% of it, up to",
        "Your limit is 5%: kept.",
        "False fail: of 100 people who know 95% of it, up to",
        "Your limit is 2%: kept.",
        "Shortest paper that keeps both limits:",
        "2 fresh items in a row must be right",
        "Practice papers do not count.",
    ):
        assert words in said
    rows = [line.split() for line in result.output.splitlines()]
    assert [row[0] for row in rows if len(row) == 4 and "%" in row[3]] == [
        "60%",
        "70%",
        "80%",
        "85%",
        "90%",
        "95%",
    ]


def test_plan_without_a_module_shows_each_on_one_line(curriculum: Curriculum) -> None:
    result = rigprimer("plan")
    assert result.exit_code == 0
    lines = result.output.splitlines()
    for module in curriculum.modules.values():
        (line,) = [each for each in lines if each.split()[:1] == [module.id]]
        assert ("kept" in line) or ("NOT KEPT" in line)
        assert ("*" in line) == bool(module.grants)


def test_plan_takes_the_owners_limits(small: str) -> None:
    def planned(*words: str) -> Any:
        return data_of(in_shop(small, "plan", "mixing", *words, "--json"))["modules"][0]

    loose, tight = planned("--false-pass", "20%"), planned("--false-pass", "0.5")
    assert (loose["limits"]["false_pass"], tight["limits"]["false_pass"]) == (0.2, 0.005)
    assert (loose["kept"], tight["kept"]) == (True, False)
    assert loose["shortest"]["items"] < tight["shortest"]["items"]
    once = planned("--tries", "1")
    assert once["paper"]["tries"] == 1
    assert once["chances"][5]["all_tries"] == once["chances"][5]["first_try"]


@pytest.mark.parametrize(
    ("words", "code", "says"),
    [
        (["plan", "mixing", "--low", "much"], 2, "is not a percent"),
        (["plan", "mixing", "--low", "1/0"], 2, "is not a percent"),
        (["plan", "mixing", "--low", "96"], 1, "give --low below --high"),
        (["plan", "mixing", "--false-pass", "0"], 1, "makes no sense"),
        (["plan", "mixin"], 1, 'did you mean "mixing"'),
        (["plan", "mixing", "--tries", "0"], 2, "1<=x<=9"),
    ],
)
def test_plan_refuses_in_words(words: list[str], code: int, says: str, small: str) -> None:
    result = in_shop(small, *words)
    assert result.exit_code == code
    assert says in result.output


def test_stats_names_the_slip(records: Path, small: str) -> None:
    result = in_shop(small, "--records", str(records), "stats")
    assert result.exit_code == 0
    assert "Mixing: 6 first tries by 3 people (seasons 2024 to 2025)." in result.output
    said = " ".join(result.output.split())
    assert "6 of 6 read the ratio as a fraction, as 1 to 4 for one quarter. In: Ratio" in said
    assert "too few to say more than these counts" in said
    assert "Wilson" not in said
    assert "KR-20" not in said


def test_stats_in_full_tells_seasons_apart_and_adds_the_analysis(records: Path, small: str) -> None:
    result = in_shop(small, "--records", str(records), "stats", "mixing", "--full")
    assert result.exit_code == 0
    for season_ in ("2024", "2025"):
        assert f"3 first tries by 3 people (season {season_})." in result.output
    assert "95% interval (Wilson)" in result.output
    assert "KR-20" in result.output
    assert "With fewer than 10 people" in result.output


def test_stats_as_json(records: Path, small: str) -> None:
    plain = data_of(in_shop(small, "--records", str(records), "stats", "--json"))
    full = data_of(in_shop(small, "--records", str(records), "stats", "--full", "--json"))
    (module,), (more,) = plain["modules"], full["modules"]
    assert plain["file"] is None
    assert (module["module"], module["people"], module["first_tries"]) == ("mixing", 3, 6)
    assert module["slips"][0]["first_tries"] == {"made": 6, "of": 6}
    assert set(more) - set(module) == {"by_season", "wilson_95", "item_analysis"}
    assert {name: part["first_tries"] for name, part in more["by_season"].items()} == {
        "2024": 3,
        "2025": 3,
    }
    assert more["wilson_95"]["ratio-strength"] == [0, 40]


def test_stats_prints_its_page(records: Path, tmp_path: Path, small: str) -> None:
    place = ("--curriculum", small, "--records", str(records), "--out", str(tmp_path))
    result = rigprimer(*place, "stats", "--pdf")
    assert result.exit_code == 0
    assert (tmp_path / "stats.pdf").read_bytes().startswith(b"%PDF")
    one = data_of(rigprimer(*place, "stats", "mixing", "--pdf", "--json"))
    assert Path(one["file"]) == tmp_path / "stats-mixing.pdf"
    assert Path(one["file"]).exists()


def test_stats_without_marked_papers_says_what_to_do(
    tmp_path: Path, records: Path, small: str
) -> None:
    missing = in_shop(small, "--records", str(tmp_path / "none.sqlite3"), "stats")
    assert missing.exit_code == 1
    assert "there is no record" in missing.output
    other = in_shop(small, "--records", str(records), "stats", "debris")
    assert other.exit_code == 1
    assert "no paper has been marked yet in debris — mark one first" in other.output


def test_stats_is_for_a_shop(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    result = rigprimer("stats")
    assert result.exit_code == 1
    assert "rigprimer start" in result.output
    shutil.copytree(starter(), tmp_path / "curriculum")
    assert "there is no record" in rigprimer("stats").output
