"""Numbers with units in texts, and the sentences of a lesson that state them."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from contextlib import suppress
from fractions import Fraction
from functools import partial

from generator.errors import Refusal
from generator.maths import exact
from generator.maths.units import parse_unit, spoken
from generator.model.stated import Origin, Stated
from generator.reading.lesson_shapes import LessonShape
from generator.reading.level import sentences
from generator.reading.lookups import Table, filled, looked_up, names_in
from generator.reading.nodes import Document, Path_
from generator.reading.tables import TABLE, cells

_STATED = re.compile(
    r"(?<![\w.,/:{])(\d+ \d+/\d+|\d+/\d+|\d{1,3}(?:,\d{3})+|\d+(?:\.\d+)?)[ -]?"
    r"(%|°F|fl oz/gal|sq ft/gal|fl oz|sq ft|[A-Za-z]+(?![A-Za-z₀-₉]))"  # not the H of 4 H₂O
)
_EACH = re.compile(r"(fl oz|sq ft)(?: of \w+)? (?:a|per|to the|for each|each) gal(?:lon)?\b")
_FLOWS = re.compile(r"gal(?:lons)? (?:a|per|each) min(?:ute)?\b")
_PLACE = re.compile(r" (?:\d|(?:the|a|an|all|any|each|one|every)\b)")  # 3 in 10, 3 in the van
_DIGIT_OR_LOOK_UP = re.compile(r"[\d{]")
_LOOSE = re.compile(r' (?=[.,;:!?])|(?<=^["“(]) ')  # a blank that bold letters left behind


def stated(text: str) -> Iterator[tuple[str, str, Fraction]]:
    """Each number with a unit in a text: as written, the unit's own name, the value."""
    plain = _FLOWS.sub("gpm", _EACH.sub(r"\1/gal", text))
    for found in _STATED.finditer(plain):
        if found[2] == "in" and _PLACE.match(plain, found.end()):
            continue
        unit = spoken(found[2], parse_unit("gal"))
        if unit is None:
            continue
        try:
            yield found[0], unit.text, exact.number(found[1].replace(",", ""))
        except Refusal:  # such as 1/0
            continue


def sayings(text: str) -> Iterator[str]:
    """The sentences of a text in Markdown, without its signs; a table is one.

    >>> list(sayings("Wait **5 min**. Go.\\n\\n| At | Wait |\\n|---|---|\\n| 120 °F | 5 min |"))
    ['Wait 5 min.', 'Go.', 'At, Wait: 120 °F, 5 min.']
    """
    for n, piece in enumerate(TABLE.split(text)):
        found = _as_sentence(piece) if n % 2 else sentences(piece)
        yield from (_LOOSE.sub("", saying) for saying in found)


def _as_sentence(table: str) -> list[str]:
    """The one sentence of a table, its empty cells passed over; none of an empty table."""
    rows = [", ".join(filter(None, row)) for row in cells(table)]
    return [f"{rows[0]}: {'; '.join(rows[1:]).rstrip('.')}."] if rows else []


def stated_in(
    module: str, lesson: str, shape: LessonShape, document: Document, table: Table
) -> Iterator[Stated]:
    """Every sentence of the points, steps and cautions that states a number.

    `table` holds the numbers of the lesson too; what can't be looked up is left to others to tell.
    """
    relations = {name: number.relation for name, number in shape.numbers.items()}
    for path, kind, title, text, sources in _texts(shape):
        language = document.language(path)
        fill = partial(filled, table=table, language=language)
        for raw in _may_state(text):
            with suppress(Refusal):
                heading, said = fill(title), fill(raw)
                numbers = tuple(dict.fromkeys(written for written, _, _ in stated(said)))
                if numbers:
                    origins = tuple(_origins(raw, table, relations, language))
                    where = module, lesson, kind, heading
                    yield Stated(*where, said, numbers, origins, tuple(sources))


def _may_state(text: str) -> Iterator[str]:
    """The sentences of a text with a digit or a look-up; most texts have none and stay whole."""
    return filter(_DIGIT_OR_LOOK_UP.search, sayings(text) if _DIGIT_OR_LOOK_UP.search(text) else ())


def _texts(shape: LessonShape) -> Iterator[tuple[Path_, str, str, str, Sequence[str]]]:
    """Path, kind, title, text and own sources of all that may state a number."""
    for n, caution in enumerate(shape.cautions):
        for text in (caution.title, caution.happens, caution.do, caution.call):
            yield ("cautions", n), caution.signal, caution.title, text, caution.sources
    for n, point in enumerate(shape.points):
        yield ("points", n, "text"), "point", point.title, point.text, ()
    for n, step in enumerate(shape.steps):
        yield ("steps", n), "step", "", step, ()


def _origins(text: str, table: Table, relations: dict[str, str], language: str) -> Iterator[Origin]:
    """What each look-up of a text stands for: a setting of the shop, or a relation."""
    for name in names_in(text):
        found = looked_up(name, table)
        if found.values and (name in relations or name.startswith("shop.")):
            yield Origin(found.said(language), relations.get(name, name))
