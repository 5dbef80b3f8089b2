"""`build`, `sheet` and `booklet --fold` as people and programs use them."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path

import pikepdf
import pytest
from click.testing import CliRunner, Result

from generator.cli import run


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory, part_of_starter: Callable[..., Path]) -> Path:
    """A shop of one module."""
    folder = tmp_path_factory.mktemp("shop")
    part_of_starter(folder / "curriculum", "welcome")
    return folder


def rigprimer(folder: Path, *words: str) -> Result:
    arguments = ["--curriculum", str(folder / "curriculum"), *words]
    return CliRunner().invoke(run, arguments, prog_name="rigprimer", catch_exceptions=False)


def test_without_an_id_every_sheet_is_listed(folder: Path) -> None:
    done = rigprimer(folder, "sheet")

    assert done.exit_code == 0
    for name in ("mix-log", "card-rig-1", "signoff-welcome", "guide-welcome", "first-day"):
        assert f"\n{name} " in f"\n{done.output}"
    assert "To print one: rigprimer sheet ID" in done.output


def test_the_list_as_json(folder: Path) -> None:
    listed = json.loads(rigprimer(folder, "sheet", "--json").output)

    assert {"id": "mix-log", "kind": "sheets", "title": "Mix log"} in listed
    assert {"id": "card-rig-2", "kind": "cards", "title": "Rig 2: card"} in listed


def test_a_sheet_is_printed_into_the_build_folder(folder: Path) -> None:
    done = rigprimer(folder, "sheet", "hospital-injection")

    assert done.exit_code == 0
    assert done.output.startswith("For the hospital: high-pressure injection: ")
    assert "1 page" in done.output
    assert (folder / "build" / "sheets" / "hospital-injection.pdf").exists()


def test_a_season_plan_with_its_dates_as_json(folder: Path) -> None:
    done = rigprimer(
        folder, "sheet", "season-plan", "--start", "2026-04-01", "--days", "200", "--json"
    )
    data = json.loads(done.output)

    assert data["id"] == "season-plan"
    assert [file["pages"] for file in data["files"]] == [1]
    assert Path(data["files"][0]["file"]).is_file()


@pytest.mark.parametrize(
    ("words", "code", "says"),
    [
        (("sheet", "mix-lgo"), 1, 'there is no sheet "mix-lgo" — did you mean "mix-log"?'),
        (("sheet", "mix-log", "--start", "2026-04-01"), 1, '"mix-log" has no review days'),
        (("sheet", "season-plan", "--start", "April"), 1, '"April" is not a day'),
        (("sheet", "mix-worksheet", "--language", "es"), 1, '"mix-worksheet" is not translated'),
        (("sheet", "--days", "90"), 2, "it is not said which sheet"),
        (("build", "cadrs"), 1, 'did you mean "cards"?'),
    ],
)
def test_what_cannot_be_is_told(words: tuple[str, ...], code: int, says: str, folder: Path) -> None:
    done = rigprimer(folder, *words)

    assert done.exit_code == code
    assert says in done.output


def test_a_sign_off_sheet_in_spanish_lies_beside_the_other(folder: Path) -> None:
    done = rigprimer(folder, "sheet", "signoff-welcome", "--language", "es")
    assert done.exit_code == 0, done.output
    assert "signoff-welcome-es.pdf, 1 page" in done.output
    assert (folder / "build" / "sheets" / "signoff-welcome-es.pdf").is_file()


def test_a_build_says_what_it_printed_and_how_many_pages_there_are(folder: Path) -> None:
    first = rigprimer(folder, "build", "cards", "sign-offs")
    second = rigprimer(folder, "build", "cards", "sign-offs")

    assert first.exit_code == second.exit_code == 0
    assert "3 of 3 printed. There are 3 files, 5 pages." in first.output
    assert second.output == "Nothing has changed. There are 3 files, 5 pages.\n"


def test_a_build_as_json(folder: Path) -> None:
    data = json.loads(rigprimer(folder, "build", "cards", "--json").output)

    assert [file["pages"] for file in data["files"]] == [2, 2]
    assert data["pages"] == 4
    assert all(Path(file["file"]).is_file() for file in data["files"])


def test_a_booklet_to_fold(folder: Path) -> None:
    done = rigprimer(folder, "booklet", "welcome", "--fold")

    assert done.exit_code == 0
    assert "welcome-booklet-fold.pdf" in done.output
    with (
        pikepdf.open(folder / "build" / "welcome-booklet-half.pdf") as halves,
        pikepdf.open(folder / "build" / "welcome-booklet-fold.pdf") as sides,
    ):
        assert len(sides.pages) == 2 * -(-len(halves.pages) // 4)
        assert tuple(map(int, sides.pages[0].mediabox)) == (0, 0, 792, 612)
