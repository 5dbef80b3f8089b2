"""Every number that a lesson states, by module and lesson, with what it rests on."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import groupby

from markupsafe import Markup, escape

from generator.model.course import Lesson, Module, Source
from generator.model.shop import Shop
from generator.model.stated import Stated
from generator.printing.environment import render


@dataclass(frozen=True)
class Line:
    """A sentence with its numbers bold; `typed` are those that rest on sources alone."""

    stated: Stated
    sentence: Markup
    typed: tuple[str, ...]


@dataclass(frozen=True)
class Figures:
    """The lines of one lesson."""

    lesson: Lesson
    lines: tuple[Line, ...]


def safety_figures_html(
    shop: Shop,
    modules: Mapping[str, Module],
    stated: Sequence[Stated],
    sources: Mapping[str, Source],
) -> str:
    """The list as HTML: a table a module, then the sources it names."""
    of_modules = [(module, list(_of_module(module, stated))) for module in modules.values()]
    cited = [sources[id_] for id_ in dict.fromkeys(_cited(of_modules))]
    named = [source for source in cited if source.is_published]
    place = {source.id: n for n, source in enumerate(named, 1)}

    def short(ids: Sequence[str]) -> str:
        """`3, 7 copy, worked`: numbers of the list at the end, or how it was found."""
        told = (_short(sources[id_], place.get(id_)) for id_ in ids)
        return ", ".join(dict.fromkeys(told))

    return render(
        "safety_figures.html",
        shop,
        of_modules=[(module, figures) for module, figures in of_modules if figures],
        count=len(stated),
        named=list(enumerate(named, 1)),
        worded=[source for source in cited if not source.is_published],
        short=short,
    )


def _short(source: Source, number: int | None) -> str:
    if number is None:
        return source.read
    return f"{number} copy" if source.read == "copy" else str(number)


def _of_module(module: Module, stated: Sequence[Stated]) -> Iterator[Figures]:
    own = [each for each in stated if each.module == module.id]
    by_lesson = {name: list(of) for name, of in groupby(own, key=lambda each: each.lesson)}
    for lesson in module.lessons:
        if lines := tuple(map(_line, by_lesson.get(lesson.id, ()))):
            yield Figures(lesson, lines)


def _cited(of_modules: Sequence[tuple[Module, list[Figures]]]) -> Iterator[str]:
    for _, figures in of_modules:
        for each in figures:
            yield from each.lesson.sources
            for line in each.lines:
                yield from line.stated.sources


def _line(stated: Stated) -> Line:
    known = ", ".join(origin.number for origin in stated.origins)
    typed = tuple(number for number in stated.numbers if not _holds(known, number))
    return Line(stated, _bold(stated.sentence, stated.numbers), typed)


def _holds(text: str, number: str) -> bool:
    return _any_of([number]).search(text) is not None


def _any_of(numbers: Sequence[str]) -> re.Pattern[str]:
    """Finds each of the numbers, whole: neither "5 ft" in "25 ft" nor "2 g" in "2 gal"."""
    longest_first = sorted(numbers, key=len, reverse=True)
    return re.compile(rf"(?<![\w.,/])({'|'.join(map(re.escape, longest_first))})(?!\w)")


def _bold(sentence: str, numbers: Sequence[str]) -> Markup:
    """The sentence with every number bold."""
    pieces = _any_of(numbers).split(sentence)
    return Markup("").join(
        Markup("<b>{}</b>").format(piece) if n % 2 else escape(piece)
        for n, piece in enumerate(pieces)
    )
