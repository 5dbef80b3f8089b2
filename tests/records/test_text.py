"""The open text: out and in again without loss, and nothing damaged or hostile gets in."""

from __future__ import annotations

import io
import json
import tempfile
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.errors import Refusal
from generator.model.event import KINDS, Event
from generator.records.copies import bring_in
from generator.records.store import Records
from generator.records.text import lines_of, rows_of

History = Callable[[str], tuple[Event, ...]]
DAY = "2025-03-01"

plain_text = st.text(st.characters(exclude_categories=["Cs"]), max_size=20)
plain_data = st.dictionaries(
    plain_text | st.sampled_from(("paper", "items", "verdicts", "code", "number")),
    st.recursive(
        st.none()
        | st.booleans()
        | st.integers()
        | st.floats(allow_nan=False, allow_infinity=False)
        | plain_text,
        lambda inside: (
            st.lists(inside, max_size=3)
            | st.dictionaries(plain_text | st.sampled_from(("items", "code")), inside, max_size=3)
        ),
        max_leaves=6,
    ),
    max_size=4,
)
some_events = st.lists(
    st.builds(
        Event,
        st.sampled_from(KINDS),
        plain_text,
        st.dates().map(str),
        st.dates().map(str),
        plain_text,
        plain_data,
    ),
    max_size=5,
)


def export(path: Path) -> bytes:
    with Records(path) as records:
        return b"".join(lines_of(records.rows(), records.last()))


def bring(text: bytes, target: Path) -> None:
    bring_in(rows_of(io.BytesIO(text), "crew.jsonl"), target)


@settings(max_examples=30, deadline=None)
@given(some_events)
def test_out_in_and_out_again_gives_the_same_bytes(events: list[Event]) -> None:
    with tempfile.TemporaryDirectory() as folder:
        first, second = Path(folder) / "a.sqlite3", Path(folder) / "b.sqlite3"
        with Records(first, create=True) as records:
            kept = records.append(events)
        text = export(first)
        bring(text, second)
        assert export(second) == text
        with Records(second) as records:
            assert records.events() == kept
            assert records.verify() == []


@pytest.fixture
def text(kept: Path, history: History, starts: dict[str, str]) -> bytes:
    """An export of twelve people and a history with papers."""
    with Records(kept) as records:
        records.append(history(starts["cleared"]))
    return export(kept)


def test_each_line_is_json_that_anybody_can_read(text: bytes, kept: Path) -> None:
    header, *lines = [json.loads(line) for line in text.decode().splitlines()]
    with Records(kept) as records:
        events, last = records.events(), records.last()
    assert header == {
        "format": "rigprimer-records",
        "version": 1,
        "count": len(events),
        "head": last.hash,
    }
    assert lines[-1]["hash"] == last.hash
    keys = ["number", "kind", "person", "seen", "entered", "by", "paper", "data", "long", "hash"]
    for line, event in zip(lines, events, strict=True):
        assert list(line) == keys
        assert (line["number"], line["kind"], line["person"]) == (
            event.number,
            event.kind,
            event.person,
        )
    issued = next(line for line in lines if line["kind"] == "issued")
    assert issued["paper"] == issued["data"]["paper"]["code"] == "G1"
    assert [item["id"] for item in issued["long"]][:2] == ["amount", "ratio"]


def refused(text: bytes, tmp_path: Path) -> str:
    target = tmp_path / "new" / "r.sqlite3"
    target.parent.mkdir(exist_ok=True)
    with pytest.raises(Refusal) as caught:
        bring(text, target)
    assert list(target.parent.iterdir()) == []
    assert caught.value.next
    return caught.value.what


def changed(line: int, change: Callable[[dict[str, Any]], object]) -> Callable[[bytes], bytes]:
    """A text with one line changed, written in the very way an export writes."""

    def change_it(text: bytes) -> bytes:
        lines = text.decode().split("\n")
        said = json.loads(lines[line - 1])
        said = change(said) or said
        lines[line - 1] = json.dumps(said, separators=(",", ":"), ensure_ascii=False)
        return "\n".join(lines).encode()

    return change_it


def at_line(line: int, old: bytes, new: bytes) -> Callable[[bytes], bytes]:
    def change_it(text: bytes) -> bytes:
        lines = text.split(b"\n")
        assert old in lines[line - 1]
        lines[line - 1] = lines[line - 1].replace(old, new, 1)
        return b"\n".join(lines)

    return change_it


def lines_moved(order: Callable[[list[bytes]], list[bytes]]) -> Callable[[bytes], bytes]:
    return lambda text: b"".join(order(text.splitlines(keepends=True)))


DAMAGE: dict[str, tuple[Callable[[bytes], bytes], str]] = {
    "a name": (changed(5, lambda e: e.update(person="Mallory")), "line 5 was changed"),
    "a day": (changed(5, lambda e: e.update(seen="2025-03-02")), "line 5 was changed"),
    "data": (changed(5, lambda e: e.update(data={"a": 1})), "line 5 was changed"),
    "a seal": (changed(5, lambda e: e.update(hash="0" * 64)), "line 5 was changed"),
    "another number": (changed(5, lambda e: e.update(number=9)), "line 5 holds event 9, and"),
    "a number as text": (changed(5, lambda e: e.update(number="4")), "line 5 was changed"),
    "a key more": (changed(5, lambda e: e.update(more=1)), "line 5 was changed"),
    "a key less": (changed(5, lambda e: e.pop("by") and None), "line 5 is not as an export"),
    "a name as number": (changed(5, lambda e: e.update(person=7)), "line 5 is not as an export"),
    "data as list": (changed(5, lambda e: e.update(data=[])), "line 5 is not as an export"),
    "no kind": (changed(5, lambda e: e.update(kind="fired")), 'line 5 can\'t be an event: "fired"'),
    "no day": (changed(5, lambda e: e.update(seen="soon")), "line 5 can't be an event"),
    "a list": (changed(5, lambda e: [e]), "line 5 is not as an export writes it"),
    "a long part out of place": (
        changed(5, lambda e: e.update(long=[1])),
        "line 5",
    ),
    "a blank": (at_line(5, b'":', b'": '), "line 5 was changed"),
    "a key twice": (at_line(5, b'"by":""', b'"by":"x","by":""'), "line 5 was changed"),
    "not a number": (at_line(5, b'"data":{}', b'"data":{"a":NaN}'), "line 5 can't be read"),
    "a huge number": (
        at_line(5, b'"data":{}', b'"data":{"a":' + b"9" * 9999 + b"}"),
        "line 5 can't be read",
    ),
    "a deep list": (
        at_line(5, b'"data":{}', b'"data":{"a":' + b"[" * 99999 + b"]" * 99999 + b"}"),
        "line 5",
    ),
    "half a letter": (at_line(5, b'"data":{}', b'"data":{"a":"\\ud800"}'), "line 5 can't be an"),
    "no text": (at_line(5, b"Crew", b"\xff\xfe"), "line 5 holds bytes that are no text"),
    "NUL bytes": (at_line(5, b"Crew", b"\x00\x00"), "line 5 can't be read"),
    "a line gone": (lines_moved(lambda x: x[:4] + x[5:]), "line 5 holds event 5, and event 4 was"),
    "a line twice": (lines_moved(lambda x: x[:5] + x[4:]), "line 6 holds event 4, and event 5"),
    "lines swapped": (
        lines_moved(lambda x: [*x[:4], x[5], x[4], *x[6:]]),
        "line 5 holds event 5",
    ),
    "an empty line": (lines_moved(lambda x: [*x[:4], b"\n", *x[4:]]), "line 5 can't be read"),
    "the end gone": (lines_moved(lambda x: x[:-2]), "is the last, and 2 more events should follow"),
    "an end added": (lambda text: text + b"{}\n", "is one more than the 25 events announced"),
    "cut in a line": (lambda text: text[:-9], "line 26 is cut short"),
    "cut before the line end": (lambda text: text[:-1], "line 26 is cut short"),
    "a smaller count": (changed(1, lambda h: h.update(count=20)), "line 22 is one more than"),
    "a greater count": (changed(1, lambda h: h.update(count=30)), "5 more events should follow"),
    "another head": (changed(1, lambda h: h.update(head="f" * 64)), "line 1 names another head"),
    "a head as number": (changed(1, lambda h: h.update(head=1)), "line 1 is not as an export"),
    "no count": (changed(1, lambda h: h.pop("count") and None), "line 1 is not as an export"),
    "a yes for a count": (changed(1, lambda h: h.update(count=True)), "line 1 is not as an"),
    "a newer format": (changed(1, lambda h: h.update(version=2)), "made by a newer Rigprimer"),
    "another format": (changed(1, lambda h: h.update(format="x")), "is not an export"),
    "no header": (lines_moved(lambda x: x[1:]), "is not an export"),
    "nothing": (lambda text: b"", "line 1 can't be read"),
    "a mark at the start": (lambda text: b"\xef\xbb\xbf" + text, "line 1 can't be read"),
    "a picture": (lambda text: bytes(range(255, -1, -1)) * 99, "line 1 holds bytes"),
    "an endless line": (lambda text: b"x" * (17 * 2**20), "line 1 is far too long"),
}  # fmt: skip


@pytest.mark.parametrize("harm", DAMAGE)
def test_what_is_damaged_or_hostile_is_refused_with_its_line(
    harm: str, text: bytes, tmp_path: Path
) -> None:
    change, says = DAMAGE[harm]
    bad = change(text)
    assert bad != text
    assert says in refused(bad, tmp_path)


def test_every_letter_changed_is_noticed(text: bytes, tmp_path: Path) -> None:
    for at in range(0, len(text), 197):
        bad = text[:at] + bytes([text[at] ^ 1]) + text[at + 1 :]
        assert "crew.jsonl" in refused(bad, tmp_path)


def test_line_ends_of_another_system_do_no_harm(text: bytes, tmp_path: Path) -> None:
    bring(text.replace(b"\n", b"\r\n"), tmp_path / "r.sqlite3")
    assert export(tmp_path / "r.sqlite3") == text


def test_it_goes_into_an_empty_record_only(text: bytes, kept: Path, tmp_path: Path) -> None:
    before = kept.read_bytes()
    with pytest.raises(Refusal, match="has 25 events already"):
        bring(text, kept)
    assert kept.read_bytes() == before
    empty = tmp_path / "empty.sqlite3"
    Records(empty, create=True).close()
    bring(text, empty)
    assert export(empty) == text
    letter = tmp_path / "letter.txt"
    letter.write_text("Dear crew,\n" * 200, "utf-8")
    with pytest.raises(Refusal, match="is not a Rigprimer record"):
        bring(text, letter)
    assert letter.read_text("utf-8").startswith("Dear")
