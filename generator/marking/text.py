"""The characters of a written answer, made plain before anything is read from them."""

from __future__ import annotations

import re
import unicodedata

LONGEST = 200  # characters; nobody writes a longer answer on a line of a paper

_SAME = {
    **dict.fromkeys("‐‑‒–—―−﹣－", "-"),
    **dict.fromkeys("‘’‛′´`ʼ", "'"),
    **dict.fromkeys("“”„″", '"'),
    **dict.fromkeys("⁄∕", "/"),
    **dict.fromkeys("∶：", ":"),
    **dict.fromkeys("≈∼≅", "~"),
    "％": "%",
    "º": "°",
}
# 12 000: a space between groups of three. Not 1 280/300, which is a mixed number.
_SPACED = re.compile(r"(?<![\d.,/:'-])([1-9]\d{0,2})((?: \d{3})+)(?!\d|\s*/|\s+\d|[.,]\d{3}\b)")
_IN_PROSE = re.compile(r"\bin (?=(?:total|all|the|there|your|my)\b)", re.IGNORECASE)


def clean(text: str) -> str:
    """`text` with one kind of space, dash, quote and digit, and fractions spelled out.

    >>> clean("3¼ – 12 000")
    '3 1/4 - 12000'
    """
    letters: list[str] = []
    for letter in text:
        letters.append(_plain(letter, letters[-1][-1:] if letters else ""))
    spaced = " ".join("".join(letters).split())
    return _IN_PROSE.sub("", _SPACED.sub(lambda m: m[0].replace(" ", ""), _unquoted(spaced)))


def _plain(letter: str, before: str) -> str:
    if letter.isascii():
        return letter if letter.isprintable() else " "
    if letter in _SAME:
        return _SAME[letter]
    made_of = unicodedata.decomposition(letter)
    if made_of.startswith("<fraction>"):
        spelled = unicodedata.normalize("NFKC", letter).replace("⁄", "/")
        return (" " if before.isdigit() else "") + spelled + " "
    if letter.isdecimal():
        return str(unicodedata.decimal(letter))
    return " " if letter.isspace() or unicodedata.category(letter)[0] in "CZ" else letter


def _unquoted(text: str) -> str:
    """`text` without quotation marks round the whole of it."""
    quoted = len(text) > 2 and text[0] == text[-1] and text[0] in "'\""
    return text[1:-1].strip() if quoted else text.replace("''", '"')


def fold(text: str) -> str:
    """`text` in small letters without accents, apostrophes and signs, for comparing words.

    >>> fold("¡Ya está!  It's   DONE.")
    'ya esta its done'
    """
    bare = unicodedata.normalize("NFD", text.casefold().replace("∞", " infinite "))
    kept = "".join(c for c in bare if not unicodedata.combining(c) and c not in "'’")
    return " ".join(re.findall(r"[^\W_]+", kept))
