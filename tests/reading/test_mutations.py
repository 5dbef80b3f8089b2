"""The shipped files, damaged by chance: a curriculum comes of it or faults inside its files."""

from __future__ import annotations

import shutil
from functools import lru_cache
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from generator.workflows.check import check

HERE = Path(__file__).parents[1]
SMALL = HERE / "cases" / "small"
NAMES = sorted(path.relative_to(SMALL).as_posix() for path in SMALL.rglob("*.yaml"))
ODD = ["", "[]", "{}", "-1", "0", "1/0", "999999999999999", "0.000000000001", "no", "~", "x", "*",
       "[[]]", "{a: b}", "shop.stock", "shop.name", "{shop.name}", "sum(piece)", "piece", "1 == 1",
       "amount**2", "pi", "rig", "verdict", "'", "|", ">", "ñ", "½", "[1, 2, 3]", "batch", "gal",
       "%", "fraction", "gal/gal", "cannot", '"{shop.rig-9.tank_gal}"',
       '"5 gal\\n\\n|---|\\n"']  # fmt: skip


@lru_cache
def lines_of(name: str) -> tuple[str, ...]:
    """The lines of a file of the small curriculum."""
    return tuple((SMALL / name).read_text("utf-8").splitlines(keepends=True))


@st.composite
def damage(draw: st.DrawFn, lines: tuple[str, ...]) -> str:
    """The lines with one of them lost, doubled, moved, or a piece of it written anew."""
    kept = list(lines)
    at = draw(st.integers(0, len(kept) - 1))
    match draw(st.sampled_from(["lost", "doubled", "moved", "in", "value", "cut", "other"])):
        case "lost":
            del kept[at]
        case "doubled":
            kept.insert(at, kept[at])
        case "moved":
            kept.insert(draw(st.integers(0, len(kept) - 1)), kept.pop(at))
        case "in":
            kept[at] = "  " + kept[at]
        case "value":
            key, colon, _ = kept[at].partition(": ")
            kept[at] = f"{key}{colon or ': '}{draw(st.sampled_from(ODD))}\n"
        case "cut":
            start = draw(st.integers(0, len(kept[at])))
            end = draw(st.integers(start, len(kept[at])))
            kept[at] = kept[at][:start] + draw(st.sampled_from(ODD)) + kept[at][end:]
        case _:
            kept[at] = draw(st.sampled_from(kept))
    return "".join(kept)


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A copy to spoil and mend again."""
    return Path(shutil.copytree(SMALL, tmp_path_factory.mktemp("spoiled") / "curriculum"))


@settings(max_examples=250, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(st.data())
def test_damage_is_a_fault_inside_the_files_or_none(folder: Path, data: st.DataObject) -> None:
    spoiled = data.draw(st.lists(st.sampled_from(NAMES), min_size=1, max_size=2, unique=True))
    try:
        for name in spoiled:
            (folder / name).write_text(data.draw(damage(lines_of(name))), "utf-8")
        report = check(folder)
    finally:
        for name in spoiled:
            shutil.copyfile(SMALL / name, folder / name)
    for fault in (*report.faults, *report.warnings):
        name = fault.file.removeprefix("curriculum/")
        assert name in NAMES
        assert 0 <= fault.line <= len(lines_of(name)) + 2
        assert fault.what
        assert fault.next
