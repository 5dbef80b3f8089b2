"""A new shop folder from a dozen answers: whole, without faults, or not there at all."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from generator.errors import Refusal
from generator.reading.outline import read_outline
from generator.workflows.check import check
from generator.workflows.start import QUESTIONS, start

SMALL = {
    "name": 'Ann "O\'Dell" & Son: #1 \\ wash',
    "page": "A4",
    "stock": "10",
    "jug": "1/2",
    "rig": 'The "Mule"',
    "kind": "truck",
    "tank": "65",
    "reserve": "5",
    "gpm": "3.5",
    "psi": "2000",
    "stock_tank": "15",
    "chemical": "2 1/2",
    "ladders": "24",
}


def answering(answers: dict[str, list[str] | str]) -> Callable[[str, str], str]:
    """Answers by question, one after the other; the default for the rest."""
    keys = {question.text: question.key for question in QUESTIONS}
    waiting = {k: list(v) if isinstance(v, list) else [v] for k, v in answers.items()}

    def ask(text: str, default: str) -> str:
        left = waiting.get(keys[text])
        return left.pop(0) if left else default

    return ask


@pytest.mark.parametrize(
    "answers",
    [
        SMALL,
        {"reserve": "400", "tank": "300"},
        pytest.param({}, marks=pytest.mark.deep),
        pytest.param(
            {"stock": "12.5, 10, 8", "ladders": "16, 20, 24, 28, 32, 40"}, marks=pytest.mark.deep
        ),
        pytest.param({"stock": "10, 10", "reserve": "0"}, marks=pytest.mark.deep),
        {"stock": "15", "gpm": "8", "tank": "525", "reserve": "0"},
    ],
)
def test_a_new_folder_has_no_faults(answers: dict[str, list[str] | str], tmp_path: Path) -> None:
    made = start(tmp_path / "ours", answering(answers), lambda _: None)
    assert [str(fault) for fault in check(made / "curriculum").faults] == []
    assert (made / "build").is_dir()
    assert [path.name for path in tmp_path.iterdir()] == ["ours"]


def test_the_answers_stand_in_shop_yaml(tmp_path: Path) -> None:
    made = start(tmp_path / "ours", answering(dict(SMALL)), lambda _: None)
    shop = read_outline(made / "curriculum").shop
    assert shop.name == SMALL["name"]
    assert (shop.page, shop.stock, shop.ladders) == ("a4", (10,), (24,))
    (rig,) = shop.rigs
    assert (rig.name, rig.kind, rig.tank_gal, rig.reserve_gal) == ('The "Mule"', "truck", 65, 5)
    assert (rig.machine_psi, rig.chemical_gpm) == (2000, 2.5)
    text = (made / "curriculum" / "shop.yaml").read_text("utf-8")
    assert "# Your rigs. Measure them" in text  # the comments tell the owner how to go on
    assert "Larkspur" not in text


@pytest.mark.parametrize(
    ("key", "bad"),
    [
        ("tank", "plenty"),
        ("tank", "0"),
        ("tank", "-5"),
        ("page", "legal"),
        ("stock", "12.5; 10"),
        ("stock", "30"),
        ("ladders", ""),
        ("name", "  "),
        ("name", "a\tb"),
        ("name", "Suds 🧽"),
        ("jug", "1/0"),
        ("gpm", "1e9"),
    ],
)
def test_an_answer_that_cannot_be_used_is_asked_for_again(
    key: str, bad: str, tmp_path: Path
) -> None:
    said: list[str] = []
    good = next(question.default for question in QUESTIONS if question.key == key)
    made = start(tmp_path / "ours", answering({key: [bad, good]}), said.append)
    assert len(said) == 1
    assert read_outline(made / "curriculum").shop.rigs


@pytest.mark.parametrize("here", [".", "", "ours"])
def test_an_empty_folder_is_filled(
    here: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / here).mkdir(exist_ok=True)
    monkeypatch.chdir(tmp_path)
    start(Path(here), answering({}), lambda _: None)
    assert sorted(path.name for path in (tmp_path / here).iterdir()) == ["build", "curriculum"]
    assert read_outline(Path.cwd() / here / "curriculum").shop.rigs


def test_a_folder_that_is_not_empty_is_refused_before_any_question(tmp_path: Path) -> None:
    (tmp_path / "mine.txt").write_text("keep", "utf-8")

    def ask(text: str, default: str) -> str:
        raise AssertionError(text)

    with pytest.raises(Refusal, match="is not empty"):
        start(tmp_path, ask, lambda _: None)
    assert [path.name for path in tmp_path.iterdir()] == ["mine.txt"]


def test_a_file_in_the_place_of_the_folder_is_refused(tmp_path: Path) -> None:
    (tmp_path / "ours").write_text("keep", "utf-8")
    with pytest.raises(Refusal):
        start(tmp_path / "ours", answering({}), lambda _: None)
    assert (tmp_path / "ours").read_text("utf-8") == "keep"


def test_nothing_is_left_when_the_questions_are_broken_off(tmp_path: Path) -> None:
    def ask(text: str, default: str) -> str:
        raise KeyboardInterrupt

    with pytest.raises(KeyboardInterrupt):
        start(tmp_path / "ours", ask, lambda _: None)
    assert list(tmp_path.iterdir()) == []
