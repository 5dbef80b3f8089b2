"""The house: what lies where, who may import whom, and what the pages for people promise."""

from __future__ import annotations

import ast
import re
import shutil
import subprocess
from collections.abc import Iterator
from fnmatch import fnmatch
from pathlib import Path

import pytest

from generator.cli import run

ROOT = Path(__file__).parents[1]
PACKAGE = ROOT / "generator"
CODE = sorted(PACKAGE.rglob("*.py"))
FLOORS = {
    "errors": 0,
    "interrupts": 0,
    "memory": 0,
    "words": 0,
    "maths": 1,
    "model": 2,
    "solving": 3,
    "items": 4,
    "marking": 4,
    "papers": 4,
    "reading": 4,
    "records": 4,
    "printing": 5,
    "workflows": 6,
    "commands": 7,
    "cli": 8,
    "__main__": 9,
}
ONLY_IN = {
    "sqlite3": ["records"],
    "yaml": ["reading"],
    "pydantic": ["reading"],
    "pydantic_core": ["reading"],
    "sympy": ["maths/solve.py", "maths/symbols.py"],
    "weasyprint": ["printing/pdf.py"],
    "icalendar": ["printing/calendar.py"],
    "pikepdf": ["printing/impose.py"],
}


def imports(path: Path) -> Iterator[str]:
    """The dotted names a file imports, those inside functions too."""
    for node in ast.walk(ast.parse(path.read_text("utf-8"))):
        if isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            assert not node.level, f"{path} imports from a relative place"
            yield from (f"{node.module}.{alias.name}" for alias in node.names)


def within(path: Path) -> str:
    """The package or module of ours that a file belongs to."""
    return path.relative_to(PACKAGE).with_suffix("").parts[0]


def test_the_top_level_holds_the_agreed_names_and_hidden_ones() -> None:
    kept = (".", "records", "backups")  # the record of a shop kept here is not in the code
    names = {path.name for path in ROOT.iterdir() if not path.name.startswith(kept)}
    assert names == {
        "README.md", "DEVELOPERS.md", "pyproject.toml", "curriculum", "generator", "build", "tests",
    }  # fmt: skip


def test_every_package_stands_on_a_floor() -> None:
    assert {within(path) for path in CODE} - {"__init__"} == set(FLOORS)


@pytest.mark.parametrize("path", CODE, ids=lambda path: str(path.relative_to(PACKAGE)))
def test_a_file_imports_from_lower_floors_only(path: Path) -> None:
    here = within(path)
    for name in imports(path):
        parts = name.split(".")
        if parts[0] != "generator" or len(parts) == 1:
            continue
        there = parts[1]
        if there == here or here == "__init__" or there == "__version__":
            continue
        assert FLOORS[there] < FLOORS[here], f"{here} imports {name}"


@pytest.mark.parametrize("library", ONLY_IN)
def test_a_library_is_known_in_one_place_only(library: str) -> None:
    users = [
        path.relative_to(PACKAGE).as_posix()
        for path in CODE
        if any(name.split(".")[0] == library for name in imports(path))
    ]
    assert users
    assert [u for u in users if not any(u.startswith(place) for place in ONLY_IN[library])] == []


def test_text_is_never_run_as_code() -> None:
    forbidden = {"eval", "exec", "sympify", "parse_expr", "compile", "__import__"}
    for path in CODE:
        for node in ast.walk(ast.parse(path.read_text("utf-8"))):
            if isinstance(node, ast.Call):
                called = node.func
                name = getattr(called, "id", "")
                if isinstance(called, ast.Attribute) and called.attr != "compile":
                    name = called.attr  # re.compile is harmless
                assert name not in forbidden, f"{path.name}:{node.lineno} calls {name}"


@pytest.mark.parametrize("folder", ["generator", "tests", "curriculum"])
def test_no_file_knows_a_machine(folder: str) -> None:
    path_of_a_machine = re.compile(r"(?<![\w.])/(?:home|root|Users|tmp|work|opt|usr)/\w")
    for path in (ROOT / folder).rglob("*"):
        if path.suffix in (".py", ".yaml", ".txt", ".html", ".css", ".csv"):
            found = path_of_a_machine.search(path.read_text("utf-8"))
            assert not found, f"{path.relative_to(ROOT)} holds {found}"


def readme_table() -> list[tuple[str, ...]]:
    """The commands of each row of README's table, as they are written."""
    text = (ROOT / "README.md").read_text("utf-8")
    table = text.split("| command | what it does |")[1].split("\n\n")[0]
    rows = [line.split("|")[1] for line in table.splitlines()[2:]]
    return [tuple(re.findall(r"`([^`]+)`", row)) for row in rows]


def command_exists(words: str) -> bool:
    command = run
    for word in words.split():
        if not hasattr(command, "get_command") or not word[0].islower():
            break
        found = command.get_command(None, word)  # type: ignore[arg-type]
        if found is None:
            return False
        command = found
    return True


def test_every_command_of_the_readme_exists() -> None:
    missing = []
    for first, *more in readme_table():
        group = first.split()[0]
        names = [first, *(f"{group} {word}" for word in more)]
        missing += [name for name in names if not command_exists(name)]
    assert missing == []
    text = (ROOT / "README.md").read_text("utf-8")
    blocks = re.findall(r"```sh\n(.*?)```", text, re.S)
    lines = re.findall(r"(?m)^rigprimer ([^#\n]+)", "\n".join(blocks))
    assert lines
    assert [line for line in lines if not command_exists(line)] == []


def test_every_command_stands_in_the_readme() -> None:
    told = {row[0].split()[0] for row in readme_table()}
    assert told == set(run.list_commands(None))  # type: ignore[arg-type]


def test_every_link_of_the_pages_leads_to_a_file() -> None:
    for page in ("README.md", "DEVELOPERS.md"):
        links = re.findall(r"\]\((?!https?:)([^)#]+)\)", (ROOT / page).read_text("utf-8"))
        assert [link for link in links if not (ROOT / link).exists()] == []


def test_the_page_for_developers_names_every_module_and_no_other() -> None:
    """Figures are named by their folder alone: there are many, and each says what it draws."""
    page = (ROOT / "DEVELOPERS.md").read_text("utf-8")
    named = {f"*/{name}" for name in re.findall(r"`([\w/*]+\.py)`", page)}
    modules = [f"/{path.relative_to(PACKAGE).as_posix()}" for path in CODE]
    told = [name for name in modules if "/figures/" not in name and "/__" not in name]
    tests = [f"/{path.relative_to(ROOT).as_posix()}" for path in (ROOT / "tests").rglob("*.py")]
    there = modules + tests

    assert [name for name in told if not any(fnmatch(name, each) for each in named)] == []
    assert [each for each in sorted(named) if not any(fnmatch(name, each) for name in there)] == []


def test_every_test_file_stands_where_the_code_it_tests_does() -> None:
    known = {within(path) for path in CODE} | {"benchmark", "cases", "published", "__pycache__"}
    folders = {path.name for path in (ROOT / "tests").iterdir() if path.is_dir()}
    assert folders <= known


def test_git_keeps_nothing_that_was_printed_or_recorded() -> None:
    if not (ROOT / ".git").exists() or not shutil.which("git"):
        pytest.skip("not a checkout")
    kept = subprocess.run(
        ["git", "ls-files"], cwd=ROOT, capture_output=True, text=True, check=True
    ).stdout.split()
    printed = [name for name in kept if name.endswith((".pdf", ".sqlite3"))]
    assert printed == []
    assert [name for name in kept if name.startswith("build/")] == ["build/.gitignore"]
