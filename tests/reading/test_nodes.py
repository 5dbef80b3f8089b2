"""YAML as text with lines: nothing is converted, and what is not plain is refused in its place."""

from __future__ import annotations

from pathlib import Path

import pytest

from generator.errors import Fault, Faults
from generator.reading.nodes import DEEPEST, LARGEST, parse_text, read_document


def faults_of(text: str) -> tuple[Fault, ...]:
    with pytest.raises(Faults) as raised:
        parse_text(text, "a.yaml")
    return raised.value.faults


@pytest.mark.parametrize(
    "written",
    ["no", "yes", "null", "~", "1:30", "012", "0x1f", "1e3", ".5", "2026-01-02", "1/4", "2 1/2",
     "-3", "NaN", "=", "<<"],
)  # fmt: skip
def test_a_scalar_stays_the_text_that_was_written(written: str) -> None:
    assert parse_text(f"key: {written}\n", "a").data == {"key": written}
    assert parse_text(f"[{written}]\n", "a").data == [written]
    assert parse_text(f"{written}: key\n", "a").data == {written: "key"}


def test_an_empty_value_is_an_empty_text() -> None:
    assert parse_text("key:\nother: ''\n", "a").data == {"key": "", "other": ""}


def test_a_block_of_text_keeps_its_line_ends() -> None:
    assert parse_text("why: |\n  one\n  two\n", "a").data == {"why": "one\ntwo\n"}


def test_every_value_keeps_its_line() -> None:
    document = parse_text("# a note\nfirst: 1\nlist:\n  - a\n  - b: c\n    d: e\n", "a.yaml")
    assert document.line(("first",)) == 2
    assert document.line(("list", 0)) == 4
    assert document.line(("list", 1, "d")) == 6
    assert document.fault(("list", 1, "d"), "what", "next") == Fault("a.yaml", 6, "what", "next")


def test_what_is_missing_is_shown_at_the_line_around_it() -> None:
    document = parse_text("a:\n  b: 1\n", "a")
    assert document.line(("a", "missing", 3)) == 1
    assert document.line(()) == 1


@pytest.mark.parametrize(
    ("text", "line", "says"),
    [
        ("a: 1\nb: 2\na: 3\n", 3, '"a" stands here twice'),
        ("x:\n  a: 1\n  a: 1\n", 3, '"a" stands here twice'),
        ("x: [{a: 1,\n a: 1}]\n", 2, '"a" stands here twice'),
        ("a: &here 1\n", 1, "an alias or anchor"),
        ("a: 1\nb: *here\n", 2, "an alias or anchor"),
        ("a: 1\n<<: *here\n", 2, "an alias or anchor"),
        ("a: 1\n&k b: 2\n", 2, "an alias or anchor"),
        ("a: 1\nb: !!int 2\n", 2, "an explicit tag"),
        ("a: 1\nb: !!python/object/apply:os.system [ls]\n", 2, "an explicit tag"),
        ("a: 1\nb: !mine {c: d}\n", 2, "an explicit tag"),
        ("a: 1\n!!str b: 2\n", 2, "an explicit tag"),
        ("a: 1\n? [b, c]\n: d\n", 2, "a key that is not a word"),
        ("a: 1\n---\nb: 2\n", 2, "a second document"),
        ("a: 1\n\tb: 2\n", 2, "not readable as YAML"),
        ("a:\n\t- b\n", 2, "not readable as YAML"),
        ("a: b: c\n", 1, "not readable as YAML"),
        ("a: 1\n b: 2\n", 2, "not readable as YAML"),
        ('a: 1\nb: "open\n', 3, "not readable as YAML"),
        ("a: [1, 2\nb: 3\n", 2, "not readable as YAML"),
    ],
)
def test_what_is_not_plain_is_a_fault_at_its_line(text: str, line: int, says: str) -> None:
    fault = faults_of(text)[0]
    assert says in fault.what
    assert (fault.file, fault.line) == ("a.yaml", line)
    assert fault.next


def test_several_faults_of_one_file_come_together() -> None:
    lines = [fault.line for fault in faults_of("a: 1\na: 2\nb: !!int 3\nc: &d 4\n")]
    assert lines == [2, 3, 4]


def test_aliases_that_multiply_are_refused_before_they_cost_anything() -> None:
    levels = "".join(f"l{n}: &l{n} [{', '.join([f'*l{n - 1}'] * 9)}]\n" for n in range(1, 12))
    faults = faults_of(f"l0: &l0 [x]\n{levels}")
    assert {fault.what for fault in faults} == {"an alias or anchor (* or &)"}


@pytest.mark.parametrize("depth", [DEEPEST + 1, 5_000, 100_000])
@pytest.mark.parametrize(("opened", "closed"), [("[", "]"), ("{a: ", "}")])
def test_deep_nesting_is_refused(depth: int, opened: str, closed: str) -> None:
    what = faults_of(opened * depth + "x" + closed * depth)[-1].what
    assert "too deep" in what or "nesting depth" in what  # the parser has a limit of its own


def test_nesting_up_to_the_limit_is_read() -> None:
    data = parse_text("[" * DEEPEST + "x" + "]" * DEEPEST, "a").data
    for _ in range(DEEPEST):
        (data,) = data
    assert data == "x"


def test_a_file_that_is_too_large_is_refused() -> None:
    assert "too large" in faults_of("x" * (LARGEST + 1))[0].what


def test_a_control_character_is_refused() -> None:
    (fault,) = faults_of("a: 1\nb: \x07\n")
    assert (fault.line, fault.what) == (2, "a sign that nobody sees (U+0007)")


def test_a_byte_order_mark_is_no_part_of_the_text(tmp_path: Path) -> None:
    path = tmp_path / "a.yaml"
    path.write_bytes(b"\xef\xbb\xbfname: Ni\xc3\xb1o\r\nother: 2\r\n")
    document = read_document(path, "a.yaml")
    assert document.data == {"name": "Niño", "other": "2"}
    assert document.line(("other",)) == 2


@pytest.mark.parametrize(
    ("raw", "line"), [(b"a: 1\nb: Ni\xf1o\n", 2), ("a: ñ\n".encode("utf-16"), 1)]
)
def test_a_file_that_is_not_utf8_is_a_fault_at_the_line(
    raw: bytes, line: int, tmp_path: Path
) -> None:
    path = tmp_path / "a.yaml"
    path.write_bytes(raw)
    with pytest.raises(Faults) as raised:
        read_document(path, "shop/a.yaml")
    assert raised.value.faults == (
        Fault("shop/a.yaml", line, "the file is not UTF-8 text", "save it as UTF-8"),
    )


def test_a_file_that_is_not_there_is_a_fault(tmp_path: Path) -> None:
    with pytest.raises(Faults, match="no such file"):
        read_document(tmp_path / "none.yaml", "none.yaml")
