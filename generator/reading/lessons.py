"""Lesson files to Lessons: every look-up filled in, every question whole."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from functools import partial

from generator.maths import exact
from generator.maths.amounts import amount_text
from generator.model.course import (
    Caution,
    Check,
    Choice,
    FigureRequest,
    Lesson,
    Point,
    PutRight,
    Question,
    Source,
)
from generator.model.handout import CardWords
from generator.model.relation import Relation
from generator.model.stated import Stated
from generator.reading.gather import Gathered
from generator.reading.lesson_shapes import FigureShape, LessonShape, NumberShape, QuestionShape
from generator.reading.lookups import ABSENT, Setting, Table, filled, in_each, looked_up
from generator.reading.nodes import Document, Path_
from generator.reading.relations import relation_named
from generator.reading.stated import stated_in
from generator.reading.validate import validated
from generator.solving.answer import work
from generator.words import answer_word

OPTIONS = 3
CHART = "families"
"""The figure that is drawn from the never-mix chart of the rig card."""


class LessonReader:
    """Reads lessons against the shop's settings, the relations and the sources."""

    def __init__(
        self,
        gathered: Gathered,
        table: Table,
        relations: dict[str, Relation],
        sources: dict[str, Source],
        card: CardWords | None = None,
    ) -> None:
        self.gathered, self.table = gathered, table
        self.relations, self.sources = relations, sources
        self.chart = card.chart if card else {}
        self.stated: list[Stated] = []  # of every lesson read

    def read(self, document: Document, module: str, name: str) -> Lesson | None:
        """The lesson of one document; its faults are gathered."""
        with self.gathered.at(document, ()):
            shape = validated(LessonShape, document, (), document.data)
            self.gathered.place("lesson", f"{module}/{name}", document, ())
            one = _One(self, document, module, name, shape)
            self.stated += stated_in(module, name, shape, document, one.table)
            return one.lesson()
        return None


class _One:
    """One lesson under way: its own table holds its `numbers:` too."""

    def __init__(
        self, reader: LessonReader, document: Document, module: str, name: str, shape: LessonShape
    ) -> None:
        self.reader, self.document, self.module, self.name = reader, document, module, name
        self.shape = shape
        self.table = dict(reader.table) | self.numbers()

    def lesson(self) -> Lesson:
        shape, text = self.shape, self.text
        return Lesson(
            id=self.name,
            title=text(("title",), shape.title),
            aim=text(("aim",), shape.aim),
            minutes=shape.minutes,
            why=text(("why",), shape.why),
            points=tuple(
                Point(p.id, text(("points", n), p.title), text(("points", n, "text"), p.text))
                for n, p in enumerate(shape.points)
            ),
            steps=tuple(text(("steps", n), s) for n, s in enumerate(shape.steps)),
            cautions=self.cautions(),
            checks=tuple(
                Check(c.id, text(("checks", n), c.do), text(("checks", n), c.pass_))
                for n, c in enumerate(shape.checks)
            ),
            put_right=tuple(
                PutRight(text(("put_right", n), p.idea), text(("put_right", n), p.right))
                for n, p in enumerate(shape.put_right)
            ),
            figures=tuple(f for n, s in enumerate(shape.figures) if (f := self.figure(n, s))),
            examples=tuple(shape.examples),
            practice=tuple(shape.practice),
            questions=tuple(q for n, s in enumerate(shape.questions) if (q := self.question(n, s))),
            sources=self.known_sources(("sources",), shape.sources),
        )

    def text(self, path: Path_, text: str) -> str:
        with self.reader.gathered.at(self.document, path):
            return filled(text, self.table, language=self.document.language(path))
        return text

    def numbers(self) -> dict[str, Setting]:
        read: dict[str, Setting] = {}
        for name, shape in self.shape.numbers.items():
            with self.reader.gathered.at(self.document, ("numbers", name)):
                read[name] = self.number(shape, {**self.reader.table, **read})
        return read

    def number(self, shape: NumberShape, table: Table) -> Setting:
        relation = relation_named(shape.relation, self.reader.relations)
        given = self.values(shape.with_, table)
        if given is None:
            return ABSENT
        outcome = work(relation, given, shape.find)
        unit, value = relation.quantities[shape.find].unit, outcome.value
        if value is None:
            return in_each((), unit, lambda language: answer_word(outcome.word, language))
        if shape.mark:
            value = exact.rounded(value, shape.mark, shape.round)
        text = partial(amount_text, value, unit, shape.mark)
        return in_each((value,), unit, lambda language: text(language=language))

    def values(self, texts: dict[str, str], table: Table) -> dict[str, Fraction] | None:
        """The numbers of a `with:`, or None when one is about a rig the shop does not have."""
        values = {name: self.value(text, table) for name, text in texts.items()}
        if None in values.values():
            return None
        return {name: value for name, value in values.items() if value is not None}

    def value(self, text: str, table: Table) -> Fraction | None:
        if text not in table and not text.startswith("shop."):
            return exact.number(text)
        found = looked_up(text, table)
        return None if found.absent else found.one(text)

    def cautions(self) -> tuple[Caution, ...]:
        read: list[Caution] = []
        for place, shape in enumerate(self.shape.cautions):
            path: Path_ = ("cautions", place)
            title, happens, do, call = (
                self.text(path, t) for t in (shape.title, shape.happens, shape.do, shape.call)
            )
            sources = self.known_sources((*path, "sources"), shape.sources)
            read.append(Caution(shape.id, shape.signal, title, happens, do, call, sources))
        return tuple(read)

    def known_sources(self, path: Path_, ids: list[str]) -> tuple[str, ...]:
        self.reader.gathered.check_sources(self.document, path, ids, self.reader.sources)
        return tuple(ids)

    def figure(self, place: int, shape: FigureShape) -> FigureRequest | None:
        path: Path_ = ("figures", place)
        with self.reader.gathered.at(self.document, path):
            numbers = self.values(shape.with_, self.table)
            if numbers is None:
                return None
            caption, alt = self.text(path, shape.caption), self.text(path, shape.alt)
            self.reader.gathered.place(
                "figure", f"{self.module}/{self.name}/{place}", self.document, path
            )
            chart = self.reader.chart if shape.figure == CHART else {}
            return FigureRequest(shape.figure, caption, alt, {**numbers, **chart})
        return None

    def question(self, place: int, shape: QuestionShape) -> Question | None:
        path: Path_ = ("questions", place)
        for what, next in _question_faults(shape):
            self.reader.gathered.add(self.document, path, f"{shape.id}: {what}", next)
        texts: Callable[[str], str] = lambda text: self.text(path, text)  # noqa: E731
        self.reader.gathered.place("question", shape.id, self.document, path)
        return Question(
            id=shape.id,
            module=self.module,
            lesson=self.name,
            ask=texts(shape.ask),
            options=tuple(Choice(texts(o.text), o.right, texts(o.reason)) for o in shape.options),
            order=tuple(texts(thing) for thing in shape.order),
            reason=texts(shape.reason),
            must=shape.must,
            language=self.document.language(path),
        )


def _question_faults(shape: QuestionShape) -> list[tuple[str, str]]:
    if shape.order:
        if shape.options:
            return [("a question has options or an order", "keep one of the two")]
        if not 3 <= len(shape.order) <= 7 or len(set(shape.order)) != len(shape.order):
            return [("an order needs 3 to 7 different things", "add or remove some")]
        return [] if shape.reason else [("the order has no reason", "add reason:")]
    faults: list[tuple[str, str]] = []
    if len(shape.options) != OPTIONS:
        faults.append((f"{len(shape.options)} options", f"write {OPTIONS}"))
    if sum(option.right for option in shape.options) != 1:
        faults.append(("not exactly one option is right", "mark one with right: yes"))
    if len({option.text for option in shape.options}) != len(shape.options):
        faults.append(("two options say the same", "change one of them"))
    return faults
