"""Numbers in words put into digits: thirty-six, dos tercios, three and a half, two point five."""

from __future__ import annotations

from collections.abc import Sequence

from generator.marking.text import fold

Piece = tuple[str, str]
"""The kind of a piece ("number", "part", "word" or "sign") and what it says."""


def _counted(words: str, first: int = 0, step: int = 1) -> dict[str, int]:
    """The words of a list, each worth `step` more; a / stands between words of equal worth."""
    rows = enumerate(words.split())
    return {word: first + place * step for place, row in rows for word in row.split("/")}


_ONES = _counted(
    "zero/cero one/un/uno/una two/dos three/tres four/cuatro five/cinco six/seis seven/siete "
    "eight/ocho nine/nueve ten/diez eleven twelve/doce thirteen/trece fourteen/catorce "
    "fifteen/quince sixteen/dieciseis seventeen/diecisiete eighteen/dieciocho "
    "nineteen/diecinueve"
) | _counted(
    "veintiun/veintiuno/veintiuna veintidos veintitres veinticuatro veinticinco veintiseis "
    "veintisiete veintiocho veintinueve",
    21,
)
_ONCE = "once"  # eleven in Spanish; in English it is no number
_TENS = _counted(
    "twenty/veinte thirty/treinta forty/cuarenta fifty/cincuenta sixty/sesenta "
    "seventy/setenta eighty/ochenta ninety/noventa",
    20,
    10,
)
_HUNDREDS = _counted(
    "cien/ciento doscientos/doscientas trescientos/trescientas cuatrocientos/cuatrocientas "
    "quinientos/quinientas seiscientos/seiscientas setecientos/setecientas "
    "ochocientos/ochocientas novecientos/novecientas",
    100,
    100,
)
_THOUSAND = frozenset({"thousand", "mil"})
_LINKS = frozenset({"and", "y", "-"})  # twenty-five, treinta y cinco, a hundred and five
_POINTS = frozenset({"point", "punto", "coma"})


def in_digits(pieces: Sequence[Piece], spanish: bool = False) -> list[Piece]:
    """The pieces with every whole or decimal number in words as one "number" in digits.

    `spanish` lets "once" be eleven.

    >>> in_digits([("word", each) for each in "treinta y cinco galones".split()])
    [('number', '35'), ('word', 'galones')]
    """
    words = [_word(piece, spanish) for piece in pieces]
    found: list[Piece] = []
    at = 0
    while at < len(pieces):
        text, end = _number(words, at, pieces[at])
        found.append(("number", text) if text else pieces[at])
        at = max(end, at + 1)
    return found


def _word(piece: Piece, spanish: bool) -> str:
    kind, text = piece
    if kind == "sign":
        return text
    word = fold(text) if kind == "word" else ""
    return "eleven" if spanish and word == _ONCE else word


def _number(words: Sequence[str], at: int, piece: Piece) -> tuple[str, int]:
    """The digits of the number that begins at `at` and the place after it, or "" and anything."""
    if piece[0] == "number":
        return _thousands(piece[1], words, at + 1)
    if at and words[at - 1] == "por":  # por ciento
        return "", at
    value, end = _whole(words, at)
    whole = str(value) if end > at else ""
    decimals, after = _decimals(words, end)
    return (f"{whole or 0}.{decimals}", after) if decimals else (whole, end)


def _thousands(digits: str, words: Sequence[str], at: int) -> tuple[str, int]:
    """12 thousand as 12000; "" when no such word follows."""
    if digits.isdecimal() and at < len(words) and words[at] in _THOUSAND:
        return f"{digits}000", at + 1
    return "", at


def _whole(words: Sequence[str], at: int) -> tuple[int, int]:
    """The whole number in words that begins at `at`, and the place after it; `at` for none."""
    total, group, end = 0, -1, at
    while end < len(words):
        link = end > at and words[end] in _LINKS and end + 1 < len(words)
        word = words[end + link]
        if word in _THOUSAND and not total and not link:
            total, group = max(group, 1) * 1000, -1
        elif (more := _with(group, word, total)) is not None:
            group = more
        else:
            break
        end += 1 + link
    return total + max(group, 0), end


def _with(group: int, word: str, total: int) -> int | None:
    """The number below a thousand when `word` comes to it; -1 stands for none as yet.

    None when the word begins another number, or is none.
    """
    if word == "hundred":
        return 100 if group < 0 else group * 100 if 0 < group < 100 else None
    if word in _HUNDREDS:
        return _HUNDREDS[word] if group < 0 else None
    own = _ONES.get(word, _TENS.get(word, -1))
    if own < 0 or (group < 0 and total and not own):
        return None
    if group < 0:
        return own
    room = own and group and group % (10 if own < 10 else 100) == 0 and group % 100 != 10
    return group + own if room else None


def _decimals(words: Sequence[str], at: int) -> tuple[str, int]:
    """The digits after "point" at `at`, said one by one or as one number, and the place after."""
    if at >= len(words) or words[at] not in _POINTS:
        return "", at
    end = at + 1
    while end < len(words) and _ONES.get(words[end], 10) < 10:
        end += 1
    if end > at + 1:
        return "".join(str(_ONES[word]) for word in words[at + 1 : end]), end
    value, end = _whole(words, at + 1)
    return (str(value), end) if 10 <= value < 100 else ("", at)  # punto veinticinco
