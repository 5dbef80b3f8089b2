"""The options that speak of language: how hard to read, what is translated, Spanish on paper."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from click.testing import CliRunner

from generator.cli import run
from generator.workflows.place import starter


def said(*arguments: str, code: int = 0) -> str:
    result = CliRunner().invoke(run, ["--curriculum", str(starter()), *arguments])
    assert result.exit_code == code, result.output
    return result.output


def test_check_shows_the_reading_level_of_every_module() -> None:
    told = said("check", "--reading")
    assert "not translated; of: " not in told  # that is for check --language
    table = told.split("median grade")[1]
    for module in (starter() / "modules").iterdir():
        assert module.name in table


def test_check_lists_what_is_not_translated() -> None:
    lines = said("check", "--language", "es").splitlines()
    assert any(line.endswith("modules/mixing/problems.es.yaml: 102 of 102 texts") for line in lines)
    assert any("not translated; of: " in line for line in lines)


def test_a_problem_in_spanish_has_the_same_numbers() -> None:
    own, other = (
        json.loads(said("problem", "top-up-stock", "--seed", "7", "--json", *more))
        for more in ((), ("--language", "es"))
    )
    assert own["given"] == other["given"]
    assert own["answer"] == other["answer"]
    assert other["ask"].startswith("En el tanque quedan")


def test_a_language_there_is_not_is_wrong_use() -> None:
    assert "is not one of 'en', 'es'" in said("problem", "--language", "fr", code=2)


@pytest.mark.parametrize("day", ["2026-05-04", ""])
def test_the_owner_says_when_the_spanish_was_read(day: str, tmp_path: Path) -> None:
    assert "spanish_checked" in (starter() / "shop.yaml").read_text("utf-8")
    bad = tmp_path / "shop.yaml"
    text = (starter() / "shop.yaml").read_text("utf-8")
    bad.write_text(text.replace('spanish_checked: ""', f'spanish_checked: "{day or "May"}"'))
    result = CliRunner().invoke(run, ["--curriculum", str(tmp_path), "check", "--json"])
    whats = [fault["what"] for fault in json.loads(result.output)["faults"]]
    assert any('"May" is not a date' in what for what in whats) == (not day)
