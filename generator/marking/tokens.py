"""A written answer as numbers, units, words and signs."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, replace

from generator.marking import numbers
from generator.marking.number_words import Piece
from generator.marking.numbers import Written, read_number
from generator.marking.parts import in_fractions
from generator.marking.spelled import in_digits
from generator.marking.text import clean, fold
from generator.marking.unit_words import MOST_WORDS, unit_of
from generator.maths.units import Unit, parse_unit, same_kind
from generator.words import WRITTEN_IN

_TOKEN = re.compile(
    rf"\s*(?:(?P<number>{numbers.PATTERN})"
    r"|(?P<word>(?:ft|feet|foot|pies?|in|pulg|yd|cm|m)\^?[23](?![\w.,]|/\d)"
    r"|[^\W\d_]+(?:'[^\W\d_]+)*)(?:\.(?!\d))?"
    r"|(?P<sign>\S))",
    re.IGNORECASE,
)
_UNIT_SIGNS = frozenset("$%°'\"#")
_GAL = parse_unit("gal")


@dataclass(frozen=True)
class Token:
    """A piece of an answer; `text` is folded for words, as written for the rest."""

    text: str
    number: Written | None = None
    unit: Unit | None = None


def tokens(text: str, wanted: Unit, language: str = WRITTEN_IN) -> list[Token]:
    """`text` cut up, every run of words that names a unit being one token.

    Raises Refusal for a number or a unit without one clear sense.
    """
    spelled = in_digits(list(_pieces(text)), language == "es")
    pieces = in_fractions(spelled, same_kind(wanted, _GAL))
    found: list[Token] = []
    start = 0
    while start < len(pieces):
        token, used = _token(pieces, start, wanted)
        found.append(token)
        start += used
    return found


def _pieces(text: str) -> Iterator[Piece]:
    """The pieces of a text, "number", "word" and "sign"."""
    for match in _TOKEN.finditer(clean(text)):
        kind = match.lastgroup or "sign"
        yield kind, match[kind]


def _token(pieces: list[Piece], start: int, wanted: Unit) -> tuple[Token, int]:
    """The token that begins at `start`, and how many pieces it takes."""
    kind, piece = pieces[start]
    if kind in ("number", "part"):
        if piece[0] in ".," and any(before == "number" for before, _ in pieces[:start]):
            raise numbers.unreadable(f'the sign before "{piece}" has two meanings')
        return Token(piece, number=replace(read_number(piece), part=kind == "part")), 1
    if kind == "word" or piece in _UNIT_SIGNS:
        for length in range(_unit_length(pieces, start), 0, -1):
            words = [text for _, text in pieces[start : start + length]]
            unit = unit_of(words, wanted)
            if unit:
                return Token(" ".join(words), unit=unit), length
    return Token(fold(piece) or piece, None), 1


def _unit_length(pieces: list[Piece], start: int) -> int:
    """How many pieces from `start` on could belong to the name of one unit."""
    length = 0
    for kind, piece in pieces[start : start + MOST_WORDS]:
        if kind in ("number", "part") or (kind == "sign" and piece not in _UNIT_SIGNS | {"/", "-"}):
            break
        length += 1
    return length
