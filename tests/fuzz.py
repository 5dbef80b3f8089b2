"""A fuzzer guided by coverage, one target for each thing that reads what people or files say.

It is no part of the quick tests, and atheris is no dependency of the project. In an environment of
its own (Linux, CPython 3.11 or newer), outside the repository or in a copy:

    python3 -m venv fuzzing && fuzzing/bin/pip install -e '.[test]' atheris
    fuzzing/bin/python tests/fuzz.py all 60           # seconds for each target
    fuzzing/bin/python tests/fuzz.py answers 300

Each target prints how often it ran; the first input that ends in anything but a Refusal or Faults
is printed with its traceback and kept, and the exit code is 1.
"""

from __future__ import annotations

import io
import re
import shutil
import subprocess
import sys
import tempfile
from collections.abc import Callable
from contextlib import suppress
from fractions import Fraction
from importlib import import_module
from pathlib import Path
from typing import Any

HERE = Path(__file__).parent
SMALL = HERE / "cases" / "small"
Target = Callable[[Any], None]
"""Takes a provider of data, as atheris makes it from the bytes of an input."""


def answers() -> tuple[Target, list[bytes]]:
    """Every form and unit of item, judged; whatever counts must be right when read again."""
    from generator.marking.judge import judge
    from generator.model.item import Answer, Item, Option

    right = Fraction(7919)
    options = (Option("Water", False), Option("Stock", True), Option("7 gal", False))
    items = [
        Item("x", "write", 1, "How much stock?", Answer(right, right, unit, low=right, high=right))
        for unit in ("gal", "", "%", "fraction", "ft", "usd", "degF", "floz/gal", "1")
    ]
    items += [Item("x", "choose", 1, "?", Answer(None, None, ""), options)]
    items += [Item("x", "order", 1, "?", Answer(None, None, ""), options, "CAB")]

    def run(data: Any) -> None:
        item = items[data.ConsumeIntInRange(0, len(items) - 1)]
        language = "es" if data.ConsumeBool() else "en"
        verdict = judge(item, 1, data.ConsumeUnicode(120), language)
        assert not verdict.counts or not verdict.half

    lines = (HERE / "cases" / "answers.txt").read_text("utf-8").splitlines()
    return run, [line.encode() for line in lines[::20]]


def codes() -> tuple[Target, list[bytes]]:
    """Codes of papers, and ticks."""
    from generator.marking.ticks import parse_ticks
    from generator.papers.codes import read_code

    def run(data: Any) -> None:
        text = data.ConsumeUnicode(60)
        with suppress(*refusals()):
            assert read_code(read_code(text)) == read_code(text)
        with suppress(*refusals()):
            parse_ticks(text, 24)

    return run, [b"K7M-2QF", b"1a 5b, 7x", b"1 a 12-"]


def csv() -> tuple[Target, list[bytes]]:
    """Answers on a line and in a table, and a day's table."""
    from generator.marking.answers import parse_csv, parse_line
    from generator.marking.day import read_day_table

    path = Path(tempfile.mkdtemp()) / "day.csv"

    def run(data: Any) -> None:
        raw = data.ConsumeBytes(4000)
        path.write_bytes(raw)
        with suppress(*refusals()):
            read_day_table(path)
        with suppress(*refusals()):
            parse_csv(path, 2)
        with suppress(*refusals()):
            parse_line(raw.decode("utf-8", "replace"), 2)

    return run, [b"paper,name,ticks\nK7M-2QF,Ana,1a\n", b'item,answer\n1,"3 gal"\n2,4\n', b"1;2"]


def imports() -> tuple[Target, list[bytes]]:
    """Exports of a record."""
    from generator.model.event import Event
    from generator.records.store import Records
    from generator.records.text import lines_of, rows_of

    day = "2026-05-04"
    with Records(Path(tempfile.mkdtemp()) / "r.sqlite3", create=True) as records:
        records.append([Event("joined", name, day, day, "", {"a": [1, {}]}) for name in "AB"])
        text = b"".join(lines_of(records.rows(), records.last()))

    def run(data: Any) -> None:
        with suppress(*refusals()):
            for _ in rows_of(io.BytesIO(data.ConsumeBytes(10_000)), "x"):
                pass

    return run, [text, text.partition(b"\n")[0] + b"\n"]


def curriculum() -> tuple[Target, list[bytes]]:
    """A file of a small curriculum, with a piece of another input written into it."""
    from generator.workflows.check import check

    names = sorted(path.relative_to(SMALL).as_posix() for path in SMALL.rglob("*.yaml"))
    folder = Path(shutil.copytree(SMALL, Path(tempfile.mkdtemp()) / "curriculum"))

    def run(data: Any) -> None:
        name = names[data.ConsumeIntInRange(0, len(names) - 1)]
        text = (SMALL / name).read_bytes()
        start = data.ConsumeIntInRange(0, len(text))
        end = data.ConsumeIntInRange(start, min(len(text), start + 40))
        (folder / name).write_bytes(text[:start] + data.ConsumeBytes(200) + text[end:])
        with suppress(*refusals()):
            for fault in check(folder).faults:
                assert fault.file.startswith("curriculum/")
        shutil.copyfile(SMALL / name, folder / name)

    return run, [b"[]", b"{a: b}", b"*x", b"&x", b"!!str", b"1/0", b"shop.stock", b"'", b"|\n  "]


def formula() -> tuple[Target, list[bytes]]:
    """Formulas read and worked out, units and numbers."""
    from generator.maths.evaluate import compiled
    from generator.maths.exact import number
    from generator.maths.formula import parse
    from generator.maths.units import parse_unit, size

    values = {name: Fraction(n, 7) for n, name in enumerate(("a", "b", "stock", "total"), 1)}
    given = values | {"row": (Fraction(1), Fraction(2))}

    def run(data: Any) -> None:
        text = data.ConsumeUnicode(220)
        with suppress(*refusals()):
            compiled(parse(text, given))(given)
        with suppress(*refusals()):
            size(parse_unit(text).parts)
        with suppress(*refusals()):
            number(text)

    lines = (HERE / "cases" / "formulas.txt").read_text("utf-8").splitlines()
    return run, [line.partition(" => ")[0].encode() for line in lines]


TARGETS: dict[str, Callable[[], tuple[Target, list[bytes]]]] = {
    "answers": answers,
    "codes": codes,
    "csv": csv,
    "import": imports,
    "curriculum": curriculum,
    "formula": formula,
}


def refusals() -> tuple[type[Exception], type[Exception]]:
    """The two ways in which a reader says no."""
    from generator.errors import Faults, Refusal

    return Refusal, Faults


def fuzz(name: str, seconds: int) -> None:
    """Run one target in this process, which ends with it."""
    atheris = import_module("atheris")
    with atheris.instrument_imports(include=["generator"]):
        target, seeds = TARGETS[name]()
    corpus = Path(tempfile.mkdtemp())
    for number, seed in enumerate(seeds):
        (corpus / str(number)).write_bytes(seed)
    options = (f"-max_total_time={seconds}", "-timeout=30", "-rss_limit_mb=2048", "-verbosity=1")
    kept = f"-artifact_prefix={tempfile.gettempdir()}/fuzz-{name}-"
    arguments = [sys.argv[0], *options, "-print_final_stats=1", kept, str(corpus)]
    atheris.Setup(arguments, lambda raw: target(atheris.FuzzedDataProvider(raw)))
    atheris.Fuzz()


def fuzz_all(seconds: int) -> int:
    """Run every target in a process of its own; how many found something."""
    found = 0
    for name in TARGETS:
        done = subprocess.run(
            [sys.executable, __file__, name, str(seconds)], capture_output=True, text=True
        )
        runs = re.findall(r"number_of_executed_units: *(\d+)", done.stderr)
        end = "a finding" if done.returncode else "no finding"
        print(f"{name}: {runs[-1] if runs else '?'} runs, {end}", flush=True)
        if done.returncode:
            print(done.stdout[-3000:], done.stderr[-3000:])
        found += bool(done.returncode)
    return found


if __name__ == "__main__":
    if len(sys.argv) != 3 or sys.argv[1] not in (*TARGETS, "all") or not sys.argv[2].isdigit():
        sys.exit(f"usage: fuzz.py {'|'.join([*TARGETS, 'all'])} SECONDS")
    sys.path.insert(0, str(HERE.parent))
    if sys.argv[1] == "all":
        sys.exit(bool(fuzz_all(int(sys.argv[2]))))
    fuzz(sys.argv[1], int(sys.argv[2]))
