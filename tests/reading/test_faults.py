"""Every way to get a curriculum file wrong: a fault with file and line, and what to do."""

from __future__ import annotations

import re
import shutil
from collections.abc import Callable
from pathlib import Path

import pytest
import yaml

from generator.errors import Fault, Refusal
from generator.workflows.check import check

HERE = Path(__file__).parents[1]
STARTER = HERE.parent / "curriculum"
CASES = yaml.safe_load((HERE / "cases" / "bad_curriculum.yaml").read_text("utf-8"))


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """A copy to spoil."""
    return Path(shutil.copytree(STARTER, tmp_path / "curriculum"))


def edit(folder: Path, file: str, old: str, new: str) -> None:
    path = folder / file
    text = path.read_text("utf-8")
    if old == "*":
        old = text
    assert old in text, f"the case is out of date: {old!r} is not in {file}"
    path.write_text(text.replace(old, new, 1), "utf-8")


def keep_one_module(folder: Path, file: str) -> None:
    """Leave the module of that file, and the relations it needs: a case takes a moment only."""
    kept = file.split("/")[1] if file.startswith("modules/") else "plants"
    for module in (folder / "modules").iterdir():
        if module.name != kept:
            shutil.rmtree(module)
    texts = {path: path.read_text("utf-8") for path in folder.rglob("*.yaml")}
    asked = " ".join(re.findall(r"relation: ([\w-]+)", "".join(texts.values())))
    for path in (folder / "relations").iterdir():
        names = re.findall(r"(?m)^([\w-]+):", texts[path])
        if f"relations/{path.name}" != file and not any(name in asked for name in names):
            path.unlink()


@pytest.mark.parametrize("name", CASES)
def test_an_edit_gives_its_fault(name: str, folder: Path) -> None:
    case = CASES[name]
    keep_one_module(folder, case["file"])
    edit(folder, case["file"], case["old"], case["new"])
    faults = check(folder).faults
    matching = [fault for fault in faults if case["says"] in f"{fault.what} {fault.next}"]
    assert matching, "\n".join(map(str, faults))
    assert any(fault.file == f"curriculum/{case['file']}" for fault in matching)
    assert all(fault.line > 0 and fault.next for fault in matching)


def test_the_line_is_the_one_that_was_edited(folder: Path) -> None:
    keep_one_module(folder, "shop.yaml")
    edit(folder, "shop.yaml", "reserve_gal: 10", "reserv_gal: 10")
    text = (folder / "shop.yaml").read_text("utf-8").splitlines()
    faults = check(folder).faults
    wrong = next(fault for fault in faults if "not a known key" in fault.what)
    assert text[wrong.line - 1].strip() == "reserv_gal: 10"


def test_several_faults_are_all_reported_in_one_run(folder: Path) -> None:
    chosen = (
        "unknown-key-of-a-problem",
        "example-that-does-not-come-out",
        "unknown-must-get",
        "question-with-two-right-options",
        "unknown-source-of-a-lesson",
        "module-that-requires-itself",
    )
    for name in chosen:
        edit(folder, CASES[name]["file"], CASES[name]["old"], CASES[name]["new"])
    said = "\n".join(map(str, check(folder).faults))
    assert [name for name in chosen if CASES[name]["says"] not in said] == []


def test_modules_that_require_each_other_in_a_circle(
    tmp_path: Path, part_of_starter: Callable[..., Path]
) -> None:
    folder = part_of_starter(tmp_path / "curriculum", "mixing", "gear", "debris")
    for module, needed in (("mixing", "gear"), ("gear", "debris"), ("debris", "mixing")):
        path = folder / f"modules/{module}/module.yaml"
        text = re.sub(r"(?m)^requires: .*$", f"requires: [{needed}]", path.read_text("utf-8"))
        path.write_text(text, "utf-8")
    faults = check(folder).faults
    assert {fault.what for fault in faults} == {
        f"{module} requires itself" for module in ("mixing", "gear", "debris")
    }
    assert all(fault.line > 0 for fault in faults)


def test_a_file_that_is_not_utf8(folder: Path) -> None:
    path = folder / "modules/card/ratios.yaml"
    keep_one_module(folder, "modules/card/ratios.yaml")
    path.write_bytes(path.read_bytes().replace(b"One to four", b"\xff", 1))
    fault = next(f for f in check(folder).faults if "UTF-8" in f.what)
    assert (fault.file, fault.next) == (
        "curriculum/modules/card/ratios.yaml",
        "save it as UTF-8",
    )
    assert path.read_bytes().splitlines()[fault.line - 1].find(b"\xff") >= 0


def test_a_folder_without_shop_yaml_is_no_curriculum(tmp_path: Path) -> None:
    with pytest.raises(Refusal, match=r"there is no shop\.yaml"):
        check(tmp_path)


def test_the_starter_itself_has_no_faults_and_is_counted() -> None:
    report = check(STARTER)
    assert report.faults == ()
    assert list(report.counts) == [
        "modules", "lessons", "points", "questions", "problems", "relations", "figures",
    ]  # fmt: skip
    assert min(report.counts.values()) > 0


def test_a_changed_text_is_worth_a_look_not_a_fault(folder: Path) -> None:
    path = folder / "modules/card/module.yaml"
    keep_one_module(folder, "modules/card/module.yaml")
    before = edition_warnings(folder)
    edit(folder, "modules/card/ratios.yaml", "One to four", "One to three")
    (warning,) = edition_warnings(folder)
    assert warning not in before
    assert (Path(warning.file).name, warning.line) == ("module.yaml", 1)
    digest = warning.next[-8:].strip('"')
    text = re.sub(r"(?m)^wording: .*$", f'wording: "{digest}"', path.read_text("utf-8"))
    path.write_text(text, "utf-8")
    assert not edition_warnings(folder)


def edition_warnings(folder: Path) -> list[Fault]:
    return [warning for warning in check(folder).warnings if "edition" in warning.what]
