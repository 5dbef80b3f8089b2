"""Numbers in words put into digits: thirty-six, treinta y seis, two point five, 12 thousand."""

from __future__ import annotations

from collections.abc import Sequence

from generator.marking.number_words import HUNDREDS, ONES, PARTS, TENS, Piece
from generator.marking.numbers import unreadable
from generator.marking.text import fold

_ONCE = "once"  # eleven in Spanish; in English it is no number
_THOUSAND = frozenset({"thousand", "mil"})
_LINKS = frozenset({"and", "y", "-"})  # twenty-five, treinta y cinco, a hundred and five
_POINTS = frozenset({"point", "punto", "coma"})


def in_digits(pieces: Sequence[Piece], spanish: bool = False) -> list[Piece]:
    """The pieces with every whole or decimal number in words as one "number" in digits.

    `spanish` lets "once" be eleven. Raises Refusal where a number has two senses.

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
        if link and _is_part(words, end + 1):
            break  # fifty and one half
        word = words[end + link]
        if word in _THOUSAND and not total and not link:
            total, group = max(group, 1) * 1000, -1
        elif (more := _with(group, word, total)) is not None:
            group = more
        else:
            break
        end += 1 + link
    return total + max(group, 0), end


def _is_part(words: Sequence[str], at: int) -> bool:
    """Whether one half, or three-quarters, begins at `at`. Raises Refusal for 40 y 3 cuartos."""
    part = " ".join(words[at + 1 : at + 3]).removeprefix("- ").partition(" ")[0]
    if ONES.get(words[at], 10) >= PARTS.get(part, 0):
        return False
    if part == "cuartos":
        raise unreadable(f'"{words[at]} cuartos" may be quarts or quarters')
    return True


def _with(group: int, word: str, total: int) -> int | None:
    """The number below a thousand when `word` comes to it; -1 stands for none as yet.

    None when the word begins another number, or is none.
    """
    if word == "hundred":
        return 100 if group < 0 else group * 100 if 0 < group < 100 else None
    if word in HUNDREDS:
        return HUNDREDS[word] if group < 0 else None
    own = ONES.get(word, TENS.get(word, -1))
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
    while end < len(words) and ONES.get(words[end], 10) < 10:
        end += 1
    if end > at + 1:
        return "".join(str(ONES[word]) for word in words[at + 1 : end]), end
    value, end = _whole(words, at + 1)
    return (str(value), end) if 10 <= value < 100 else ("", at)  # punto veinticinco
