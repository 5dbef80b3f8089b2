"""Gathering every fault in one run, each with its file and line."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from generator.errors import Fault, Faults, Refusal, nearest
from generator.reading.fields import require_id
from generator.reading.files import shown
from generator.reading.nodes import Document, Path_, read_document
from generator.reading.overlay import overlaid, read_overlay
from generator.words import WRITTEN_IN


class Gathered:
    """The faults found so far, the place of everything that has an id, and every file read."""

    def __init__(self, root: Path) -> None:
        self.root = root
        self.faults: list[Fault] = []
        self.places: dict[tuple[str, str], tuple[str, int]] = {}
        self.documents: dict[str, Document] = {}  # as they are written
        self.language = WRITTEN_IN

    def document(self, path: Path) -> Document | None:
        """The document in a file, in the language wanted; None when its faults were gathered."""
        name = shown(path, self.root)
        with self.all_faults():
            document = self.documents[name] = read_document(path, name)
            beside = path.with_name(f"{path.stem}.{self.language}.yaml")
            return self.translated(document, beside) if beside.is_file() else document
        return None

    def optional(self, path: Path) -> Document | None:
        """`document` of a file that a curriculum may do without."""
        return self.document(path) if path.is_file() else None

    def folder(self, folder: Path) -> Iterator[tuple[Path, Document]]:
        """Every document of a folder that could be read; overlays and what is hidden are none."""
        for path in sorted(folder.glob("*.yaml")):
            if "." not in path.stem and (document := self.document(path)):
                yield path, document

    def translated(self, document: Document, beside: Path) -> Document:
        """The document with the texts of its overlay. Raises Faults."""
        overlay = read_document(beside, shown(beside, self.root))
        found = read_overlay(document, overlay, self.language)
        self.faults += found.faults
        return overlaid(document, found, self.language)

    def place(self, kind: str, name: str, document: Document, path: Path_) -> None:
        """Remember where the thing of that id stands."""
        self.places[kind, name] = (document.file, document.line(path))

    def entries(self, document: Document) -> list[tuple[str, Any]]:
        """The names and values of a file that holds nothing else; a fault if it holds more."""
        if not isinstance(document.data, dict):
            self.add(document, (), "the file should hold names with values", "write name: value")
            return []
        for name in document.data:
            with self.at(document, (name,)):
                require_id(name)
        return list(document.data.items())

    def add(self, document: Document, path: Path_, what: str, next: str) -> None:
        """Gather one fault."""
        self.faults.append(document.fault(path, what, next))

    def check_sources(
        self,
        document: Document,
        path: Path_,
        ids: Iterable[str],
        sources: Collection[str],
        about: str = "",
    ) -> None:
        """Gather each id of a list that sources.yaml does not have; `about` opens the message."""
        for place, source in enumerate(ids):
            if source not in sources:
                what = f'{about}the source "{source}" is not in sources.yaml'
                self.add(document, (*path, place), what, nearest(source, sources))

    @contextmanager
    def at(self, document: Document, path: Path_) -> Iterator[None]:
        """Turn a Refusal inside into a fault at this place, and Faults into faults; go on."""
        try:
            yield
        except Refusal as refusal:
            self.add(document, path, refusal.what, refusal.next)
        except Faults as faults:
            self.faults += faults.faults

    @contextmanager
    def all_faults(self) -> Iterator[None]:
        """Gather the Faults raised inside; go on."""
        try:
            yield
        except Faults as faults:
            self.faults += faults.faults
