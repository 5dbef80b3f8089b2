"""rig-card.yaml and first-day.yaml: the few words that are always printed in two languages."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

from generator.errors import nearest
from generator.maths import exact
from generator.model.course import FigureRequest
from generator.model.handout import (
    CardWords,
    Emergency,
    Handouts,
    LeafletPage,
    Line,
    Meeting,
    Said,
)
from generator.reading.handout_shapes import CardShape, LeafletShape, PictureShape, SaidShape
from generator.reading.lookups import filled, looked_up
from generator.reading.nodes import Document, Path_
from generator.reading.sheets import SheetReader
from generator.reading.validate import validated

MOST_WORDS = 8
"""Of a first action: nobody reads more in the first minute."""


def read_handouts(folder: Path, reader: SheetReader) -> Handouts:
    """The words of the two files, as far as they are there; their faults are gathered."""
    card: CardWords | None = None
    leaflet: tuple[LeafletPage, ...] = ()
    if document := reader.gathered.optional(folder / "rig-card.yaml"):
        with reader.gathered.at(document, ()):
            card = _card(document, reader)
    if document := reader.gathered.optional(folder / "first-day.yaml"):
        with reader.gathered.at(document, ()):
            leaflet = _leaflet(document, reader)
    return Handouts(card, leaflet)


def _card(document: Document, reader: SheetReader) -> CardWords:
    shape = validated(CardShape, document, (), document.data)
    for n, each in enumerate(shape.emergencies):
        path: Path_ = ("emergencies", n)
        reader.check_sources(document, (*path, "sources"), each.sources)
        for words in (each.do.en, each.do.es):
            if len(words.split()) > MOST_WORDS:
                what = f'"{words}" has more than {MOST_WORDS} words'
                reader.gathered.add(document, (*path, "do"), what, "say the first thing only")
    _check_chart(shape, document, reader)
    return CardWords(
        emergencies=tuple(
            Emergency(e.id, _said(e.title), _said(e.do), tuple(e.sources))
            for e in shape.emergencies
        ),
        families={name: _said(words) for name, words in shape.families.items()},
        letters={letter: _said(words) for letter, words in shape.letters.items()},
        meetings=tuple(Meeting(m.one, m.other, m.letters) for m in shape.never),
        spanish_read=shape.spanish_read,
    )


def _check_chart(shape: CardShape, document: Document, reader: SheetReader) -> None:
    seen: set[frozenset[str]] = set()
    for n, each in enumerate(shape.never):
        path: Path_ = ("never", n)
        for name in (each.one, each.other):
            if name not in shape.families:
                what = f'"{name}" is no family of the chart'
                reader.gathered.add(document, path, what, nearest(name, shape.families))
        for letter in each.letters.split():
            if letter not in shape.letters:
                what = f'the letter "{letter}" is not explained'
                reader.gathered.add(document, path, what, nearest(letter, shape.letters))
        pair = frozenset((each.one, each.other))
        if pair in seen:
            what = f"{each.one} and {each.other} stand there twice"
            reader.gathered.add(document, path, what, "keep one of the two")
        seen.add(pair)


def _leaflet(document: Document, reader: SheetReader) -> tuple[LeafletPage, ...]:
    shape = validated(LeafletShape, document, (), document.data)
    pages = []
    for n, page in enumerate(shape.pages):
        lines = tuple(Line(_said(x), x.blank) for x in page.lines)
        pictures: list[FigureRequest] = []
        for place, each in enumerate(page.pictures):
            with reader.gathered.at(document, ("pages", n, "pictures", place)):
                pictures.append(_picture(each, reader))
        reader.gathered.place("leaflet", str(n), document, ("pages", n))
        pages.append(LeafletPage(_said(page.title), lines, tuple(pictures), tuple(page.wear)))
    return tuple(pages)


def _picture(shape: PictureShape, reader: SheetReader) -> FigureRequest:
    numbers = {name: _number(text, reader) for name, text in shape.with_.items()}
    return FigureRequest(shape.figure, "", filled(shape.alt, reader.table), dict(numbers))


def _number(text: str, reader: SheetReader) -> Fraction:
    """A number, or one of the shop's. Raises Refusal."""
    if not text.startswith("shop."):
        return exact.number(text)
    return looked_up(text, reader.table).one(text)


def _said(shape: SaidShape) -> Said:
    return Said(shape.en, shape.es)
