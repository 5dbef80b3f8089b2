"""`X.es.yaml` beside `X.yaml`: the texts of a file in another language, and nothing but texts.

An overlay mirrors the file. What has an id stands under it (a list of questions becomes names with
values); a list without ids keeps its order and length. Each thing with an id, and the file itself,
says with `of:` which wording it translates: a digest of the original texts. A translation whose
original has changed since is not printed; the original is, until somebody looks at it again.
"""

from __future__ import annotations

import hashlib
import json
import re
from collections import Counter
from collections.abc import Iterator
from copy import deepcopy
from dataclasses import dataclass, field, replace
from typing import Any

from generator.errors import Fault, nearest
from generator.reading.lookups import BRACED
from generator.reading.nodes import Document, Path_
from generator.reading.texts import NO_WORDS, is_text, texts
from generator.words import WRITTEN_IN

_NUMBER = re.compile(r"\d+(?:[.,/:]\d+)*")
_NEVER = {"es": re.compile(r"\blej[ií]as?\b", re.IGNORECASE)}
_INSTEAD = {"es": "write cloro (hipoclorito) for bleach and sosa cáustica for lye"}


@dataclass
class TranslationUnit:
    """Texts that are translated together: of one thing with an id, or of the file itself.

    Both mappings go from the path in the original, whose first `depth` steps lead to the thing;
    `of` and `path` are the overlay's own.
    """

    depth: int
    texts: dict[Path_, str] = field(default_factory=dict)
    said: dict[Path_, str] = field(default_factory=dict)
    of: str = ""
    path: Path_ = ()

    @property
    def digest(self) -> str:
        """Six hex digits over the original texts, in their order; of a file's own, those said."""
        whole = self.depth or not self.said
        inside = {
            p[self.depth :]: text for p, text in self.texts.items() if whole or p in self.said
        }
        listed = [["/".join(map(str, path)), text] for path, text in inside.items()]
        canonical = json.dumps(listed, ensure_ascii=False)
        return hashlib.sha256(canonical.encode()).hexdigest()[:6]

    @property
    def stale(self) -> bool:
        """Whether the original has changed since, as far as the overlay says."""
        return bool(self.said) and self.of != self.digest

    @property
    def complete(self) -> bool:
        """Whether every text is translated, from the wording as it is now."""
        return self.said.keys() == self.texts.keys() and not self.stale


@dataclass
class Overlay:
    """A file's units by their paths in the original, with what the overlay says of each."""

    units: dict[Path_, TranslationUnit]
    faults: list[Fault] = field(default_factory=list)

    @property
    def total(self) -> int:
        """Texts that can be translated."""
        return sum(len(unit.texts) for unit in self.units.values())

    @property
    def used(self) -> int:
        """Texts that are printed in the other language."""
        return sum(len(unit.said) for path, unit in self.units.items() if self.is_used(path))

    def is_used(self, path: Path_) -> bool:
        """Whether a unit is printed: whole things only; of a file's own texts, what there is."""
        unit = self.units[path]
        return bool(unit.said) and not unit.stale and (unit.complete or not path)


def read_overlay(document: Document, overlay: Document | None, language: str) -> Overlay:
    """What an overlay says of a document; with no overlay, everything is missing."""
    found = Overlay(units_of(document.data))
    if overlay is not None:
        _Placing(document, overlay, language, found).node(document.data, overlay.data, (), ())
    return found


def overlaid(document: Document, overlay: Overlay, language: str) -> Document:
    """The document with the texts of the overlay in their places."""
    data = deepcopy(document.data)
    languages = dict.fromkeys(overlay.units, WRITTEN_IN)
    for path, unit in overlay.units.items():
        if overlay.is_used(path):
            languages[path] = language
            for place, text in unit.said.items():
                _put(data, place, text)
    return replace(document, data=data, languages=languages)


def units_of(data: Any) -> dict[Path_, TranslationUnit]:
    """The units of a file's data, in its order; those without a text are left out."""
    units: dict[Path_, TranslationUnit] = {}
    for path, text, unit in texts(data):
        units.setdefault(unit, TranslationUnit(len(unit))).texts[path] = text
    return units


def _put(data: Any, path: Path_, text: str) -> None:
    for step in path[:-1]:
        data = data[step]
    data[path[-1]] = text


class _Placing:
    """Walks original and overlay side by side, gathering texts and faults."""

    def __init__(
        self, document: Document, overlay: Document, language: str, found: Overlay
    ) -> None:
        self.document, self.overlay, self.language = document, overlay, language
        self.found = found
        self.unit_at = {place: unit for unit in found.units.values() for place in unit.texts}

    def fault(self, path: Path_, what: str, next: str) -> None:
        self.found.faults.append(self.overlay.fault(path, what, next))

    def node(self, own: Any, said: Any, path: Path_, there: Path_) -> None:
        """`own` stands at `path` of the original, `said` at `there` of the overlay."""
        if isinstance(own, dict) and isinstance(said, dict):
            self.mapping(own, said, path, there)
        elif isinstance(own, list) and isinstance(said, dict):
            self.by_id(own, said, path, there)
        elif isinstance(own, list) and isinstance(said, list):
            self.in_order(own, said, path, there)
        else:
            self.fault(there, "this does not mirror the original", "write it as the original is")

    def mapping(self, own: dict[str, Any], said: Any, path: Path_, there: Path_) -> None:
        for key, value in said.items():
            here = (*there, key)
            if key == "of" and isinstance(value, str):
                self.of(value, path, there)
            elif key not in own:
                known = [k for k in own if is_text(own, k) or isinstance(own[k], dict | list)]
                self.fault(here, f'"{key}" is not in the original', nearest(key, known))
            elif is_text(own, key):
                self.text(own[key], value, (*path, key), here)
            elif isinstance(own[key], dict | list) and key not in NO_WORDS:
                self.node(own[key], value, (*path, key), here)
            else:
                self.fault(here, f'"{key}" is no text', "leave it out: numbers and names are one")

    def by_id(self, own: list[Any], said: dict[str, Any], path: Path_, there: Path_) -> None:
        places = {x["id"]: n for n, x in enumerate(own) if isinstance(x, dict) and "id" in x}
        for name, value in said.items():
            if name in places:
                place = places[name]
                self.node(own[place], value, (*path, place), (*there, name))
            else:
                what = f'there is no "{name}" in the original'
                self.fault((*there, name), what, nearest(name, places))

    def in_order(self, own: list[Any], said: list[Any], path: Path_, there: Path_) -> None:
        if len(own) != len(said):
            what = f"{len(said)} entries here, {len(own)} in the original"
            self.fault(there, what, "write one for each, in the same order")
            return
        for place, (one, other) in enumerate(zip(own, said, strict=True)):
            if isinstance(one, str):
                self.text(one, other, (*path, place), (*there, place))
            else:
                self.node(one, other, (*path, place), (*there, place))

    def of(self, digest: str, path: Path_, there: Path_) -> None:
        unit = self.found.units.get(path)
        if unit is None:
            self.fault(there, "of: stands where no text is", "move it beside the texts")
        else:
            unit.of = digest

    def text(self, own: str, said: Any, path: Path_, there: Path_) -> None:
        unit = self.unit_at.get(path)
        if unit is None or not isinstance(said, str) or not said.strip():
            self.fault(there, "this is no text of the original", "write a text, or leave it out")
            return
        if not unit.said:
            unit.path = there[:-1]
        for what, next in _differences(own, said, self.language):
            self.fault(there, what, next)
        unit.said[path] = said.strip("\n") if "\n" not in own else said


def _differences(own: str, said: str, language: str) -> Iterator[tuple[str, str]]:
    """What a translation may not change: look-ups and numbers; and words it may not use."""
    ours, theirs = Counter(BRACED.findall(own)), Counter(BRACED.findall(said))
    for name in (ours - theirs) | (theirs - ours):
        yield f"{{{name}}} is not in both languages as often", "write the same look-ups"
    left, right = (Counter(_NUMBER.findall(BRACED.sub("", text))) for text in (own, said))
    for number in (left - right) | (right - left):
        yield f"the number {number} is not in both languages as often", "write the same numbers"
    if language in _NEVER and (found := _NEVER[language].search(said)):
        yield f'"{found[0]}" means bleach here and lye there', _INSTEAD[language]
