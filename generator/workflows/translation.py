"""What is translated and what is not: overlays beside the files of a curriculum, held to them."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path, PurePosixPath

from generator.errors import Fault, Faults
from generator.reading.files import plain_files
from generator.reading.nodes import Document, Path_, read_document
from generator.reading.overlay import Overlay, TranslationUnit, read_overlay
from generator.words import LANGUAGES, WRITTEN_IN, language_name

_WHERE = ("modules", "relations")  # the places whose texts are translated


@dataclass(frozen=True)
class Translated:
    """A file, its overlay's name, and what the overlay says of it."""

    document: Document
    beside: str
    overlay: Overlay
    there: bool
    lines: Document

    @property
    def group(self) -> str:
        """The module, or "relations"."""
        return PurePosixPath(self.document.file).parent.name

    @property
    def stale(self) -> list[tuple[Path_, TranslationUnit]]:
        """What has changed since it was translated."""
        return [(path, unit) for path, unit in self.overlay.units.items() if unit.stale]


def translated(
    folder: Path, documents: Mapping[str, Document], language: str
) -> tuple[list[Translated], list[Fault]]:
    """Every file that can be translated, and the faults of the overlays that are there."""
    files: list[Translated] = []
    faults: list[Fault] = []
    for name, document in documents.items():
        if PurePosixPath(name).parts[1] not in _WHERE:
            continue
        beside = name.removesuffix("yaml") + f"{language}.yaml"
        path = folder / PurePosixPath(beside).relative_to(folder.name)
        try:
            said = read_document(path, beside) if path.is_file() else None
        except Faults as broken:
            faults += broken.faults
            continue
        overlay = read_overlay(document, said, language)
        faults += overlay.faults
        files.append(Translated(document, beside, overlay, bool(said), said or document))
    return files, faults + list(_strays(folder, documents, language))


def _strays(folder: Path, documents: Mapping[str, Document], language: str) -> Iterator[Fault]:
    """Overlays that lie beside nothing."""
    for path in plain_files(folder, f".{language}.yaml"):
        name = f"{folder.name}/{path.relative_to(folder).as_posix()}"
        original = name.removesuffix(f"{language}.yaml") + "yaml"
        if original not in documents:
            yield Fault(name, 1, f"it translates {original}, which is not read", "rename or remove")


def translation_findings(
    folder: Path, documents: Mapping[str, Document]
) -> tuple[list[Fault], list[Fault]]:
    """Faults of all overlays, and one warning for each module that is not all translated.

    A language of which there is no overlay at all is not missed.
    """
    faults: list[Fault] = []
    warnings: list[Fault] = []
    for language in LANGUAGES:
        if language != WRITTEN_IN and plain_files(folder, f".{language}.yaml"):
            files, broken = translated(folder, documents, language)
            faults += broken
            warnings += _by_module(files, language)
    return faults, warnings


def _by_module(files: Sequence[Translated], language: str) -> Iterator[Fault]:
    for group in sorted({file.group for file in files}):
        own = [file for file in files if file.group == group]
        total, used = sum(f.overlay.total for f in own), sum(f.overlay.used for f in own)
        stale = sum(len(file.stale) for file in own)
        if used < total:
            old = f", {stale} changed since" if stale else ""
            what = f"{language_name(language)}: {used} of {total} texts of {group}{old}"
            first = next((file.beside for file in own if file.there), own[0].document.file)
            yield Fault(first, 1, what, f"rigprimer check --language {language} lists them")


def translation_lines(
    folder: Path, documents: Mapping[str, Document], language: str | None
) -> Iterator[str]:
    """For the translator: counts of every file, and what must be looked at again, and where."""
    for file in translated(folder, documents, language)[0] if language else ():
        overlay = file.overlay
        if not overlay.total:
            continue
        state = f"{overlay.used} of {overlay.total} texts" if file.there else "no file yet"
        yield f"{file.beside}: {state}"
        for path, unit in overlay.units.items() if file.there else ():
            if note := _note(unit):
                line = file.lines.line(unit.path) if unit.said else 0
                yield f"  {_named(file.document, path)}{f', line {line}' if line else ''}: {note}"


def _note(unit: TranslationUnit) -> str:
    """What is to be done about a unit; "" when nothing is."""
    if unit.complete:
        return ""
    if not unit.said:
        return f"not translated; of: {unit.digest}"
    if unit.stale:
        return f"read it against the original again, then write of: {unit.digest}"
    return f"{len(unit.texts) - len(unit.said)} of its texts are missing"


def _named(document: Document, path: Path_) -> str:
    """A unit as its author knows it: `questions/water-first`."""
    names: list[str] = []
    data = document.data
    for step in path:
        data = data[step]
        names.append(str(data["id"]) if isinstance(step, int) else str(step))
    return "/".join(names) or "the file's own texts"
