"""YAML as plain text with places: every scalar stays text, every value keeps its line.

Built from the parser's events, so nothing is ever constructed from a tag, and a file that means
harm (aliases, tags, depth, size, signs that nobody sees) is refused before it costs anything.
"""

from __future__ import annotations

from collections.abc import Iterator, Sized
from dataclasses import dataclass, field
from itertools import islice
from pathlib import Path
from typing import Any

import yaml

from generator.errors import Fault, Faults
from generator.reading.files import LARGEST
from generator.reading.printable import unprintable
from generator.reading.unseen import unseen_in
from generator.words import WRITTEN_IN

DEEPEST, MOST_ENTRIES, LONGEST = 30, 1000, 20_000  # levels, entries in one, letters of a text
Path_ = tuple[str | int, ...]
_LOADER = getattr(yaml, "CSafeLoader", yaml.SafeLoader)


@dataclass
class Document:
    """One file: its `data` (dicts, lists and texts) and the line of every path in it.

    `languages` names what is said in another language than the file is written in, by path.
    """

    file: str
    data: Any = None
    lines: dict[Path_, int] = field(default_factory=dict)
    languages: dict[Path_, str] = field(default_factory=dict)

    def line(self, path: Path_) -> int:
        """The line of a path, or of the nearest thing around it."""
        while path and path not in self.lines:
            path = path[:-1]
        return self.lines.get(path, 1)

    def language(self, path: Path_) -> str:
        """The language of what stands at a path: that of the nearest thing around it."""
        while path and path not in self.languages:
            path = path[:-1]
        return self.languages.get(path, WRITTEN_IN)

    def fault(self, path: Path_, what: str, next: str) -> Fault:
        """A fault at a path of this file."""
        return Fault(self.file, self.line(path), what, next)


def read_document(path: Path, shown: str) -> Document:
    """The document in a file; `shown` is its name in messages. Raises Faults."""
    return parse_text(_text(path, shown), shown)


def read_first(path: Path, shown: str) -> tuple[str, str]:
    """The first name of a file and the text at it, the rest unread; "" where it is no plain text.

    Raises Faults when the file can't be read at all.
    """
    events = yaml.parse(_text(path, shown), Loader=_LOADER)
    try:
        _, _, start, *entry = islice(events, 5)
    except (yaml.YAMLError, ValueError):
        return "", ""
    texts = [e.value for e in entry if isinstance(e, yaml.ScalarEvent) and not e.tag]
    if not isinstance(start, yaml.MappingStartEvent) or len(texts) < 2:
        return "", ""
    return (texts[0], texts[1]) if texts[1].isprintable() else ("", "")


def _text(path: Path, shown: str) -> str:
    try:
        with path.open("rb") as file:
            raw = file.read(LARGEST + 1)
        text = raw.decode("utf-8-sig")
    except OSError as trouble:
        reason = trouble.strerror or "can't be read"
        raise Faults([Fault(shown, 0, reason.lower(), "check the file")]) from trouble
    except UnicodeDecodeError as trouble:
        line = raw[: trouble.start].count(b"\n") + 1
        what = "the file is not UTF-8 text"
        raise Faults([Fault(shown, line, what, "save it as UTF-8")]) from trouble
    return text


def parse_text(text: str, shown: str) -> Document:
    """The document in a text. Raises Faults for everything that is not plain YAML."""
    if len(text) > LARGEST:
        raise Faults([Fault(shown, 0, "the file is too large", f"{LARGEST} characters at most")])
    document = Document(shown)
    builder = _Builder(document)
    builder.faults += [Fault(shown, n + 1, *_unseen(s)) for n, s in unseen_in(text, "\r\t")]
    if builder.faults:
        raise Faults(builder.faults)
    try:
        builder.build(yaml.parse(text, Loader=_LOADER))
    except yaml.MarkedYAMLError as trouble:
        mark = trouble.problem_mark or trouble.context_mark
        builder.faults.append(_syntax_fault(shown, mark.line + 1 if mark else 0, trouble))
    except yaml.YAMLError as trouble:  # a control character, which has no mark
        what = f"not readable as YAML ({str(trouble).splitlines()[0]})"
        builder.faults.append(Fault(shown, 0, what, "remove the odd character"))
    if builder.faults:
        raise Faults(builder.faults)
    return document


def _syntax_fault(shown: str, line: int, trouble: yaml.MarkedYAMLError) -> Fault:
    reason = (trouble.problem or "a syntax error").replace("\t", "a tab")
    hint = "check the spaces at the start of the line, the colon, and put quotes round the text"
    return Fault(shown, line, f"not readable as YAML: {reason}", hint)


def _unseen(sign: str) -> tuple[str, str]:
    return f"a sign that nobody sees ({sign})", "delete it, and type again what stands around it"


def _line(event: yaml.Event) -> int:
    return event.start_mark.line + 1 if event.start_mark else 0


class _Builder:
    def __init__(self, document: Document) -> None:
        self.document = document
        self.faults: list[Fault] = []

    def fault(self, event: yaml.Event, what: str, next: str) -> None:
        line = _line(event)
        self.faults.append(Fault(self.document.file, line, what, next))

    def build(self, events: Iterator[yaml.Event]) -> None:
        for event in events:
            if isinstance(event, yaml.DocumentStartEvent):
                if self.document.data is not None:
                    self.fault(event, "a second document (---) in one file", "use two files")
                    return
                self.document.data = self.value(next(events), events, ())

    def value(self, event: yaml.Event, events: Iterator[yaml.Event], path: Path_) -> Any:
        self.document.lines[path] = _line(event)
        self.check(event, path)
        if len(path) > DEEPEST:
            self.fault(event, "nested too deep", f"{DEEPEST} levels is the limit")
            raise Faults(self.faults)
        if isinstance(event, yaml.MappingStartEvent):
            return self.mapping(events, path)
        if isinstance(event, yaml.SequenceStartEvent):
            return self.sequence(events, path)
        return getattr(event, "value", "")

    def check(self, event: yaml.Event, path: Path_) -> None:
        if isinstance(event, yaml.AliasEvent) or getattr(event, "anchor", None):
            self.fault(event, "an alias or anchor (* or &)", "write the value out, or quote it")
        elif (tag := getattr(event, "tag", None)) not in (None, "!"):
            self.fault(event, f"an explicit tag ({tag})", "remove the tag")
        if isinstance(event, yaml.ScalarEvent):  # as "\e", or the text would not be parsed at all
            for _, sign in unseen_in(event.value):
                self.fault(event, *_unseen(sign))
            if len(event.value) > LONGEST:
                self.fault(event, "the text is too long", f"{LONGEST} letters is the limit")
                return
            block = event.style in ("|", ">")  # its text starts a line below
            for below, what, next in unprintable(event.value):
                line = _line(event) + below + block
                self.faults.append(Fault(self.document.file, line, what, next))

    def count(self, event: yaml.Event, read: Sized) -> None:
        """One more entry. Raises Faults when that is more than anybody wrote by hand."""
        if len(read) >= MOST_ENTRIES:
            self.fault(event, "too many entries", f"{MOST_ENTRIES} in one list is the limit")
            raise Faults(self.faults)

    def mapping(self, events: Iterator[yaml.Event], path: Path_) -> dict[str, Any]:
        result: dict[str, Any] = {}
        while not isinstance(key := next(events), yaml.MappingEndEvent):
            self.check(key, path)
            if not isinstance(key, yaml.ScalarEvent):
                self.fault(key, "a key that is not a word", "write key: value")
                raise Faults(self.faults)
            name = key.value
            if name in result:
                self.fault(key, f'"{name}" stands here twice', "keep one of the two")
            self.count(key, result)
            result[name] = self.value(next(events), events, (*path, name))
            self.document.lines[(*path, name)] = _line(key)
        return result

    def sequence(self, events: Iterator[yaml.Event], path: Path_) -> list[Any]:
        result: list[Any] = []
        while not isinstance(event := next(events), yaml.SequenceEndEvent):
            self.count(event, result)
            result.append(self.value(event, events, (*path, len(result))))
        return result
