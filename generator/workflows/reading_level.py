"""How hard the lessons are to read: what is worth a look, and a line for each module.

Only paragraphs are given a grade; a few words, or a formula, have none worth naming. Every sentence
is counted, shorter ones being asked of cautions and of what is done first in an emergency.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from pathlib import PurePosixPath
from statistics import median

from generator.errors import Fault
from generator.maths.exact import decimal_text
from generator.reading.level import measured, sentences, words_of
from generator.reading.nodes import Document
from generator.reading.prose import Passage, is_lesson, passages

HARDEST, MIDDLE = 8, 6
"""Grades: of one paragraph, and of the median paragraph of a lesson."""

LONGEST = {"first-action": 8, "caution": 11, "line": 19, "paragraph": 19}
"""Words of one sentence, by where it stands."""

_FEW = 8  # words; a paragraph of fewer has no grade worth naming
_NAMES = {"first-action": "a first action", "caution": "a caution"}
_SHORTER = "split it, or use shorter words"


@dataclass(frozen=True)
class ModuleLevel:
    """The reading level of a module: grades of its paragraphs, words of its sentences."""

    module: str
    paragraphs: int
    median: Fraction
    hardest: Fraction
    sentences: int
    longest: int
    warnings: int


def reading_warnings(documents: Mapping[str, Document]) -> Iterator[Fault]:
    """What is harder to read than it should be, with file and line."""
    for document in documents.values():
        if is_lesson(document):
            yield from _lesson_warnings(document)


def _lesson_warnings(document: Document) -> Iterator[Fault]:
    graded: list[Fraction] = []
    for passage in passages(document):
        yield from _long_sentences(document.file, passage)
        grade = _grade(passage)
        if grade is None:
            continue
        graded.append(grade)
        if grade > HARDEST:
            what = f"this paragraph reads at grade {_one_place(grade)}; {HARDEST} is the most"
            yield Fault(document.file, passage.line, what, _SHORTER)
    if graded and (middle := median(graded)) > MIDDLE:
        what = f"the median paragraph reads at grade {_one_place(middle)}; {MIDDLE} is the most"
        yield Fault(document.file, 1, what, _SHORTER)


def _long_sentences(file: str, passage: Passage) -> Iterator[Fault]:
    most = LONGEST[passage.kind]
    for sentence in sentences(passage.read):
        words = words_of(sentence)
        if len(words) > most:
            where = _NAMES.get(passage.kind, "a sentence")
            what = f"{where} of {len(words)} words; {most} are the most"
            yield Fault(file, passage.line, what, f'split "{" ".join(words[:5])} …"')


def _grade(passage: Passage) -> Fraction | None:
    if passage.kind != "paragraph" or " = " in passage.text:
        return None
    found = measured(passage.read)
    return found.grade if found and found.words >= _FEW else None


def levels(documents: Mapping[str, Document]) -> list[ModuleLevel]:
    """The reading level of every module, in the order of their names."""
    by_module: dict[str, list[Document]] = {}
    for document in documents.values():
        if is_lesson(document):
            by_module.setdefault(PurePosixPath(document.file).parent.name, []).append(document)
    return [_level(name, lessons) for name, lessons in sorted(by_module.items())]


def _level(name: str, lessons: Sequence[Document]) -> ModuleLevel:
    read = [passage for lesson in lessons for passage in passages(lesson)]
    grades = [grade for passage in read if (grade := _grade(passage)) is not None]
    lengths = [len(words_of(s)) for passage in read for s in sentences(passage.read)]
    return ModuleLevel(
        module=name,
        paragraphs=len(grades),
        median=median(grades) if grades else Fraction(0),
        hardest=max(grades, default=Fraction(0)),
        sentences=len(lengths),
        longest=max(lengths, default=0),
        warnings=sum(len(list(_lesson_warnings(lesson))) for lesson in lessons),
    )


def _one_place(grade: Fraction) -> str:
    return decimal_text(grade, 1, trim=False)
