"""The commands as people and programs use them: words, shapes, exit codes, nothing half-done."""

from __future__ import annotations

import json
import os
import shutil
import sqlite3
import subprocess
import sys
from collections.abc import Callable, Iterator
from contextlib import closing
from pathlib import Path
from typing import Any

import click
import pytest
from click.testing import CliRunner, Result

from generator.cli import run
from generator.workflows.place import starter


def rigprimer(*words: str) -> Result:
    return CliRunner().invoke(run, list(words), prog_name="rigprimer", catch_exceptions=False)


def commands(group: click.Group, words: tuple[str, ...] = ()) -> Iterator[tuple[str, ...]]:
    for name in group.list_commands(None):  # type: ignore[arg-type]
        command = group.get_command(None, name)  # type: ignore[arg-type]
        yield (*words, name)
        if isinstance(command, click.Group):
            yield from commands(command, (*words, name))


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory, part_of_starter: Callable[..., Path]) -> Path:
    """A shop of two modules with the trainer Mara, and Juno and Teo, made once."""
    shop = tmp_path_factory.mktemp("made") / "shop"
    part_of_starter(shop / "curriculum", "debris", "mixing")
    for words in (
        ("crew", "add", "Mara", "Juno", "Teo"),
        ("crew", "trainer", "Mara", "--by", "Odile", "--basis", "six seasons"),
        ("note", "taught", "debris", "Juno", "Teo", "--by", "Mara"),
    ):
        assert in_shop(shop, *words).exit_code == 0
    return shop


@pytest.fixture
def folder(made: Path, tmp_path: Path) -> Path:
    """A copy of it, to do with as one likes."""
    return Path(shutil.copytree(made, tmp_path / "shop"))


def in_shop(folder: Path, *words: str) -> Result:
    return rigprimer("--curriculum", str(folder / "curriculum"), *words)


def contents(folder: Path) -> dict[str, bytes]:
    return {str(p): p.read_bytes() for p in folder.rglob("*") if p.is_file()}


def refused(result: Result, says: str, code: int = 1) -> None:
    assert result.exit_code == code, result.output
    assert says in result.output
    assert "Traceback" not in result.output
    assert "—" in result.output or "start" in result.output  # what to do stands behind it


@pytest.mark.parametrize("words", list(commands(run)), ids=" ".join)
def test_every_command_has_help(words: tuple[str, ...]) -> None:
    result = rigprimer(*words, "--help")
    assert result.exit_code == 0
    assert result.output.splitlines()[2].strip()


@pytest.mark.parametrize("words", [["--help"], ["paper", "--help"], ["grade", "--help"]])
def test_help_is_instant(words: list[str]) -> None:
    code = (
        "import sys; from generator.cli import run; run(sys.argv[1:], standalone_mode=False);"
        "print('heavy:', sorted({'sympy', 'weasyprint', 'pydantic'} & set(sys.modules)))"
    )
    done = subprocess.run([sys.executable, "-c", code, *words], capture_output=True, text=True)
    assert done.stdout.splitlines()[-1] == "heavy: []", done.stderr


def test_alone_it_shows_the_menu() -> None:
    result = rigprimer()
    assert result.exit_code == 0
    assert "  1  Check the curriculum" in result.output


@pytest.mark.parametrize(
    ("words", "code", "says"),
    [
        (["bord"], 2, 'did you mean "board"?'),
        (["work", "--no-such-option"], 2, "No such option"),
        (["paper"], 2, "not said of which module"),
        (["paper", "--again", "K7M-2QF", "--large"], 2, "stays as it was"),
        (["note", "taught", "mixing", "Juno"], 2, "'--by'. The trainer who states it."),
        (["board", "-h"], 0, "Who may mix today"),
        (["problem", "batch-stok"], 1, 'did you mean "batch-stock"?'),
        (["work", "bach"], 1, 'did you mean "batch"?'),
        (["work", "batch", "stok=12.5"], 1, 'did you mean "stock"?'),
        (["work", "batch", "stock=12.5", "target=2", "total=5 psi"], 1, "total can't be in psi"),
        (["work", "batch", "stock=12.5", "target=2", "total=many"], 1, "is not a number"),
        (["work", "batch", "stock=12,5", "target=2", "total=5"], 1, "write it like 3.25"),
        (["work", "batch", "stock=12.5", "target=2", "total=1/0"], 1, "divides by zero"),
        (["work", "batch", "stock=12.5", "stock=10"], 1, "given twice"),
        (["work", "batch", "stock=12.5", "target=2", "total"], 1, "is not name=number"),
        (["work", "surface-rate", "width_in=20", "overlap=30", "ft_per_min=45",
          "share_of_hour=70%"], 1, "did you mean 30%?"),
        (["--curriculum", "nowhere", "check"], 1, "there is no shop.yaml"),
        (["check"], 0, "No faults"),
    ],
)  # fmt: skip
def test_exit_codes_and_what_is_said(words: list[str], code: int, says: str, made: Path) -> None:
    result = in_shop(made, *words)
    assert says in result.output
    assert result.exit_code == code


def test_check_as_json() -> None:
    data = json.loads(rigprimer("check", "--json").output)
    assert data["faults"] == []
    assert list(data["counts"]) == [
        "modules", "lessons", "points", "questions", "problems", "relations", "figures",
    ]  # fmt: skip
    assert set(data["false_pass"]) <= {*os.listdir(starter() / "modules")} - {"mixing", "card"}
    assert all(chance > 0.05 for chance in data["false_pass"].values())


def test_a_fault_as_json_has_its_place(folder: Path) -> None:
    shop = folder / "curriculum" / "shop.yaml"
    shop.write_text(shop.read_text("utf-8").replace("page: letter", "page: legal"), "utf-8")
    result = in_shop(folder, "check", "--json")
    assert result.exit_code == 1
    (fault,) = json.loads(result.output)["faults"]
    assert list(fault) == ["file", "line", "what", "next"]
    assert fault["file"] == "curriculum/shop.yaml"
    assert fault["line"] > 1


def test_problems_as_json(made: Path) -> None:
    listed = json.loads(in_shop(made, "problem", "--json").output)
    assert {"id": "batch-stock", "module": "mixing", "relation": "batch"} in listed
    words = ["problem", "batch-stock", "--seed", "7", "--count", "3", "--json"]
    items = [json.loads(line) for line in in_shop(made, *words).output.splitlines()]
    assert [item["seed"] for item in items] == [7, 8, 9]
    for item in items:
        assert list(item) == [
            "id", "seed", "given", "ask", "answer", "options", "working", "slips",
        ]  # fmt: skip
        assert list(item["answer"]) == ["value", "exact", "unit", "word", "low", "high"]
        assert [list(option) for option in item["options"]] == [["text", "correct", "slip"]] * 3
        assert sum(option["correct"] for option in item["options"]) == 1
        assert all(list(slip) == ["id", "value"] for slip in item["slips"])


def worked(shop: Path, *words: str) -> dict[str, Any]:
    result = in_shop(shop, "work", *words, "--json")
    assert result.exit_code == 0, result.output
    return dict(json.loads(result.output))


def test_work_as_json(made: Path) -> None:
    data = worked(made, "batch", "stock=12.5", "target=2", "total=50", "--find", "amount")
    assert list(data)[:7] == ["relation", "find", "value", "exact", "unit", "word", "working"]
    assert (data["value"], data["exact"], data["unit"], data["word"]) == (8, "8", "gal", None)
    assert data["working"]


def test_work_with_a_word_for_an_answer(made: Path) -> None:
    data = worked(made, "batch", "stock=10", "target=12", "total=30", "--find", "amount")
    assert (data["word"], data["value"], data["exact"]) == ("cannot", None, None)


@pytest.mark.parametrize(
    ("given", "exact"),
    [("total=13 qt", "13/25"), ("total=1/4 gal", "1/25"), ("total=3 1/4", "13/25"),
     ("total=3.25gal", "13/25"), ("total=128 oz", "4/25")],
)  # fmt: skip
def test_work_takes_units(given: str, exact: str, made: Path) -> None:
    data = worked(made, "batch", "stock=12.5%", "target=2", given)
    assert (data["find"], data["exact"], data["unit"]) == ("amount", exact, "gal")


@pytest.mark.parametrize("overlap", ["30%", "0.3", "3/10"])
def test_work_takes_a_share_as_percent_or_fraction(overlap: str, made: Path) -> None:
    given = ["width_in=20", f"overlap={overlap}", "ft_per_min=45", "share_of_hour=70%"]
    assert worked(made, "surface-rate", *given, "--find", "sqft_per_hour")["exact"] == "2205"


def test_work_with_numbers_that_contradict_each_other(made: Path) -> None:
    given = ["stock=12.5", "target=2", "total=50", "amount=9"]
    refused(in_shop(made, "work", "batch", *given, "--find", "amount"), "amount")
    refused(in_shop(made, "work", "batch", *given), "")


def code_of_a_paper(folder: Path) -> tuple[str, int]:
    result = in_shop(folder, "paper", "debris", "--for", "Juno", "--practice", "--json")
    assert result.exit_code == 0, result.output
    data = json.loads(result.output)
    for file in ("file", "key"):
        assert Path(data[file]).is_file()
    (paper,) = data["papers"]
    ((items,),) = rows(folder, "SELECT long FROM events WHERE kind = 'issued'")
    return paper["code"], len(json.loads(items))


def rows(folder: Path, query: str) -> list[Any]:
    with closing(sqlite3.connect(folder / "records.sqlite3")) as connection:
        return connection.execute(query).fetchall()


def test_the_loop_of_a_paper_and_its_bad_inputs(folder: Path) -> None:
    code, count = code_of_a_paper(folder)
    before = contents(folder)
    last = "3" if code[-1] != "3" else "4"
    for words, says in (
        (["222-222"], "222-222"),
        ([code[:-1] + last], "mistyped character"),
        (["K7"], "is not a paper code"),
        ([code, *["A"] * (count - 1)], f"{count - 1} answers were read and {count} are needed"),
        ([code, ";" * (count + 1)], "answers were read"),
        ([code, "--from", str(folder / "none.csv")], "can't be read"),
        ([code, "--for", "Teo", *["A"] * count], "is Juno's"),
    ):
        refused(in_shop(folder, "grade", *words, "--by", "Mara"), says)
    refused(in_shop(folder, "grade", code, "--by", "Mara"), "no answers were given", 2)
    refused(in_shop(folder, "grade", code, *[""] * count), "it is not said who marks", 2)
    assert contents(folder) == before
    result = in_shop(folder, "grade", code, ";" * (count - 1), "--by", "Mara", "--json")
    assert result.exit_code == 0, result.output
    data = json.loads(result.output)
    assert (data["right"], data["items"], data["passed"]) == (0, count, False)
    refused(in_shop(folder, "grade", code, ";" * (count - 1), "--by", "Mara"), "marked already")


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (["paper", "debris", "--for", "Junno"], 'did you mean "Juno"'),
        (["paper", "debriss", "--for", "Juno"], 'did you mean "debris"'),
        (["signoff", "mixing", "Mara", "--rig", "rig-1", "--by", "Mara"], "Mara"),
        (["signoff", "mixing", "Juno", "--rig", "rig-9", "--by", "Mara"], "is not a rig"),
        (["signoff", "mixing", "Juno", "--by", "Mara"], "rig by rig"),
        (["signoff", "mixing", "Juno", "--rig", "rig-1", "--by", "Teo"], "Teo"),
        (["signoff", "mixing", "Juno", "--rig", "rig-1", "--by", "Mara", "--not-yet", "gear"],
         "is not on the sign-off sheet"),
        (["crew", "add", "Juno"], "Juno"),
        (["crew", "left", "Nobody"], "is not on the crew"),
        (["crew", "add", "Ann", "--seen-on", "yesterday"], "is not a day"),
        (["void", "999", "--by", "Odile", "--why", "a mistake"], "999"),
        (["board", "--on", "soon"], "is not a day"),
    ],
)  # fmt: skip
def test_what_cannot_be_entered_leaves_the_record_as_it_was(
    words: list[str], says: str, folder: Path
) -> None:
    before = contents(folder)
    refused(in_shop(folder, *words), says)
    assert contents(folder) == before


def test_names_typed_as_a_list_are_no_name(folder: Path) -> None:
    before = contents(folder)
    result = in_shop(folder, "crew", "add", "Ann,", "Bea")
    assert result.exit_code == 2
    assert '"Ann," ends with a comma' in result.output
    assert contents(folder) == before


def test_what_was_voided_is_said(folder: Path) -> None:
    number = in_shop(folder, "crew", "add", "Ann").stdout.split("event ")[1].rstrip(")\n")
    told = in_shop(folder, "void", number, "--by", "Odile", "--why", "a wrong name").stdout
    assert f"Event {number} (joined, Ann, " in told


def test_outside_a_shop_nothing_is_recorded(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    refused(rigprimer("crew", "add", "Ann"), "rigprimer start")
    assert list(tmp_path.iterdir()) == []


def test_a_record_that_another_program_holds(folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("generator.records.store.WAIT", 0.05)
    with closing(sqlite3.connect(folder / "records.sqlite3", isolation_level=None)) as other:
        other.execute("BEGIN EXCLUSIVE")
        refused(in_shop(folder, "crew", "add", "Ann"), "records.sqlite3")


def cut_short(path: Path) -> None:
    path.write_bytes(path.read_bytes()[: path.stat().st_size // 2])


def scribbled(path: Path) -> None:
    path.write_bytes(b"not a record at all" * 100)


def of_the_future(path: Path) -> None:
    with closing(sqlite3.connect(path)) as connection:
        connection.execute("PRAGMA user_version = 999")


@pytest.mark.parametrize("spoil", [cut_short, scribbled, of_the_future])
@pytest.mark.parametrize("words", [["board"], ["crew", "add", "Ann"], ["check", "--records"]])
def test_a_record_that_cannot_be_used_is_left_alone(
    spoil: Callable[[Path], None], words: list[str], folder: Path
) -> None:
    spoil(folder / "records.sqlite3")
    before = contents(folder)
    refused(in_shop(folder, *words), "records.sqlite3")
    assert contents(folder) == before


def test_a_record_that_may_only_be_read(folder: Path) -> None:
    (folder / "records.sqlite3").chmod(0o400)
    if os.access(folder / "records.sqlite3", os.W_OK):
        pytest.skip("this user may write everything")
    refused(in_shop(folder, "crew", "add", "Ann"), "records.sqlite3")


@pytest.mark.parametrize(
    "words",
    [["booklet", "debris"], ["paper", "debris", "--for", "Juno", "--practice"],
     ["board", "--pdf"], ["board", "--csv"]],
    ids=" ".join,
)  # fmt: skip
def test_a_file_in_the_place_of_the_printing_folder(words: list[str], folder: Path) -> None:
    (folder / "taken").write_text("mine", "utf-8")
    before = contents(folder)
    refused(in_shop(folder, "--out", str(folder / "taken"), *words), "can't be written")
    assert contents(folder) == before


def test_without_pango_a_page_for_the_browser_is_written(folder: Path, tmp_path: Path) -> None:
    stub = tmp_path / "stub" / "weasyprint"
    stub.mkdir(parents=True)
    (stub / "__init__.py").write_text("raise OSError('no library called pango')\n", "utf-8")
    done = subprocess.run(
        [sys.executable, "-m", "generator", "--curriculum", str(folder / "curriculum"),
         "board", "--pdf"],
        env=os.environ | {"PYTHONPATH": str(stub.parent)}, capture_output=True, text=True,
    )  # fmt: skip
    assert done.returncode == 0, done.stderr
    assert "Pango is missing" in done.stderr
    assert "To get PDF" in done.stderr
    page = (folder / "build" / "board.html").read_text("utf-8")
    assert "@font-face" in page
    assert "Nobody may mix today." in page
    assert not list(folder.rglob("*.pdf"))


def test_a_folder_that_is_gone_is_told(tmp_path: Path) -> None:
    gone = tmp_path / "gone"
    gone.mkdir()
    code = "import os, sys; os.rmdir(os.getcwd()); from generator.cli import run; run(sys.argv[1:])"
    env = {**os.environ, "PYTHONPATH": str(Path(__file__).parents[2])}
    words = [sys.executable, "-c", code, "board"]
    done = subprocess.run(words, cwd=gone, env=env, capture_output=True, text=True)
    assert (done.returncode, done.stdout) == (1, "")
    assert done.stderr.startswith("the folder you are in is not there any more — ")


@pytest.mark.parametrize("encoding", ["ascii", "latin-1", "cp1252"])
def test_a_screen_without_the_letters_stops_nothing(folder: Path, encoding: str) -> None:
    in_shop(folder, "crew", "add", "Ngọc")
    env = {**os.environ, "PYTHONIOENCODING": encoding}
    words = [sys.executable, "-m", "generator", "--curriculum", str(folder / "curriculum"), "board"]
    done = subprocess.run(words, env=env, capture_output=True)
    assert done.returncode == 0, done.stderr
    assert b"Nobody may mix today." in done.stdout
    data = subprocess.run([*words, "--json"], env=env, capture_output=True)
    assert "Ngọc" in [person["name"] for person in json.loads(data.stdout)["people"]]


def test_what_the_system_refuses_is_said_in_words(folder: Path) -> None:
    (folder / "build").write_text("a file in the place of a folder", "utf-8")
    result = rigprimer("--out", str(folder / "build"), "demo")
    refused(result, "not a directory — check the disk")


def test_questions_left_unanswered_leave_nothing(tmp_path: Path) -> None:
    words = ["start", str(tmp_path / "shop")]
    result = CliRunner().invoke(run, words, input="Name\n", prog_name="rigprimer")
    assert result.exit_code == 1
    assert "Stopped at this question: nothing was written." in result.output
    assert list(tmp_path.iterdir()) == []


def test_a_name_is_kept_with_single_blanks(folder: Path) -> None:
    assert in_shop(folder, "crew", "add", " Ann \n Lee ").exit_code == 0
    assert "Ann Lee: " in in_shop(folder, "board").output
