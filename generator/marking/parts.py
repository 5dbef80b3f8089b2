"""Fractions in words: three and a half, three quarters of a gallon, un cuarto, y medio."""

from __future__ import annotations

import re
from collections.abc import Sequence

from generator.marking.number_words import HALF, PARTS, Piece
from generator.marking.text import fold

_QUARTS = frozenset({"cuarto", "cuartos"})  # quarters, and quarts
_ALONE = frozenset(f"{HALF} quarter cuarto".split())  # no "one" need stand before these
_DIGITS = re.compile(r"\d+\s*/\s*\d+")
_AND = frozenset({"and", "y"})
_A = frozenset({"a", "an"})
_OF = frozenset({"of", "de", *_A})


def in_fractions(pieces: Sequence[Piece], volume: bool = False) -> list[Piece]:
    """The pieces with every fraction in words in digits; one without a whole is a "part".

    `volume` says that "13 cuartos" are quarts.

    >>> in_fractions([("number", "3"), ("word", "and"), ("word", "a"), ("word", "half")])
    [('number', '3 1/2')]
    """
    pieces = _unhyphened(pieces)
    words = [fold(text) if kind == "word" else "" for kind, text in pieces]
    found: list[Piece] = []
    at = 0
    while at < len(pieces):
        piece, end = (
            _mixed(pieces, words, at) or _part(pieces, words, at, volume) or (pieces[at], at + 1)
        )
        found.append(piece)
        at = _past_of(words, end) if "/" in piece[1] and piece[0] != "sign" else end
    return found


def _unhyphened(pieces: Sequence[Piece]) -> list[Piece]:
    """The pieces without the hyphen of three-quarters."""
    around = zip([("", ""), *pieces], pieces, [*pieces[1:], ("", "")], strict=False)
    return [
        piece
        for before, piece, after in around
        if not (piece[1] == "-" and before[0] == "number" and fold(after[1]) in PARTS)
    ]


def _mixed(pieces: Sequence[Piece], words: Sequence[str], at: int) -> tuple[Piece, int] | None:
    """A whole number, "and" and a part: "3 1/2"."""
    if not _is_whole(pieces[at]) or _at(words, at + 1) not in _AND:
        return None
    part = _part(pieces, words, at + 2) or _fraction(pieces, at + 2)
    return (("number", f"{pieces[at][1]} {part[0][1]}"), part[1]) if part else None


def _part(
    pieces: Sequence[Piece], words: Sequence[str], at: int, volume: bool = False
) -> tuple[Piece, int] | None:
    """A part and the place after it: three quarters, a half, quarter."""
    word, after = _at(words, at), _at(words, at + 1)
    if word in _ALONE and not (volume and word in _QUARTS and at and pieces[at - 1][0] == "number"):
        return ("part", f"1/{PARTS[word]}"), at + 1
    if word in _A and after in PARTS:
        return ("part", f"1/{PARTS[after]}"), at + 2
    if at >= len(pieces) or after not in PARTS or not _is_whole(pieces[at]):
        return None
    top, bottom = int(pieces[at][1]), PARTS[after]
    quarts = volume and after in _QUARTS
    if quarts and _at(words, at + 2) != "de":
        return None  # 13 cuartos are quarts; 13 cuartos de galón are quarters, and the same
    return (("part", f"{top}/{bottom}"), at + 2) if 0 < top < bottom or quarts else None


def _fraction(pieces: Sequence[Piece], at: int) -> tuple[Piece, int] | None:
    """A part in digits: two and 1/2."""
    found = at < len(pieces) and pieces[at][0] == "number" and _DIGITS.fullmatch(pieces[at][1])
    return (pieces[at], at + 1) if found else None


def _past_of(words: Sequence[str], at: int) -> int:
    """The place after "of a" at `at`, if a word follows: half a gallon, 1/4 of a cup."""
    end = at
    while _at(words, end) in _OF:
        end += 1
    return end if _at(words, end) else at


def _at(words: Sequence[str], place: int) -> str:
    return words[place] if place < len(words) else ""


def _is_whole(piece: Piece) -> bool:
    return piece[0] == "number" and piece[1].isdecimal() and len(piece[1]) < 6
