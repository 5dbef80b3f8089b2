"""The characters of a written answer, made plain before anything is read from them."""

from __future__ import annotations

import re
import unicodedata

LONGEST = 200  # characters; nobody writes a longer answer on a line of a paper

_SAME = {
    **dict.fromkeys("‐‑‒–—―−﹣➖", "-"),
    **dict.fromkeys("‘’‛′´`ʼʹ", "'"),
    **dict.fromkeys("“”„″˝", '"'),
    **dict.fromkeys("⁄∕", "/"),
    **dict.fromkeys("→⇒➜", "="),
    **dict.fromkeys("×✕", "x"),
    **dict.fromkeys("·⋅∙", "*"),
    "∶": ":",
    "٪": "%",
    "≈": "~",
    "∼": "~",
    "≅": "~",
    "º": "°",
}
_FULL_WIDTH = range(0xFF01, 0xFF5F)  # the same signs as ASCII, 0xFEE0 further up
_RAISED = str.maketrans("⁰¹²³⁴⁵⁶⁷⁸⁹⁻⁺₀₁₂₃₄₅₆₇₈₉", "0123456789-+0123456789")
_RAISED_FRACTION = re.compile(r"([⁰¹²³⁴-⁹]+)\s*[/⁄∕]\s*([₀-₉\d]+)")
_EXPONENT = re.compile(r"[⁺⁻]?[⁰¹²³⁴-⁹]+")
# 12 000: a space between groups of three. Not 1 280/300, which is a mixed number.
_SPACED = re.compile(r"(?<![\d.,/:'-])([1-9]\d{0,2})((?: \d{3})+)(?!\d|\s*/|\s+\d|[.,]\d{3}\b)")
_IN_PROSE = re.compile(
    r"\bin (?=(?:total|all|the|there|your|my)\b)|\brounded(?: (?:up|down|off))?\b", re.IGNORECASE
)
_BRACKETED = re.compile(r"\b(?:(dB) ?\(A\)|oz ?\(weight\))", re.IGNORECASE)  # parts of a unit
_ARROW = re.compile(r"[=-]+>")
# control characters, line ends, soft hyphens, joiners and marks of direction
_UNPRINTED = frozenset(("Cc", "Cf", "Zl", "Zp"))
_BETWEEN_DIGITS = re.compile(r"\d *\0[\0 ]*\d")
_TURNED = frozenset("\u202d\u202e")


def trouble(text: str) -> str:
    """Why nothing should be read from `text` at all, "" when there is no such reason.

    Signs that nobody sees may join two numbers, or show them in another order.

    >>> trouble("3 1/4"), trouble("3\\u200f4")
    ('', 'something that is not printed stands between two digits')
    """
    if len(text) > LONGEST:
        return "too long to be one answer"
    if _TURNED & set(text):
        return "a sign turns the order of the characters"
    if not text.isprintable() and _BETWEEN_DIGITS.search("".join(map(_nulled, text))):
        return "something that is not printed stands between two digits"
    return ""


def _nulled(letter: str) -> str:
    """A null for what is not printed, a tab too: it may have parted two cells of a table."""
    return "\0" if unicodedata.category(letter) in _UNPRINTED else letter


def _is_blank(letter: str) -> bool:
    """Whether nothing is printed there; a sign that no font has is something."""
    return letter.isspace() or unicodedata.category(letter) in _UNPRINTED


def clean(text: str) -> str:
    """`text` with one kind of space, dash, quote and digit, and fractions spelled out.

    >>> clean("3¼ – 12 000"), clean("1.2×10⁴"), clean("3 ¹⁄₄")
    ('3 1/4 - 12000', '1.2x10^4', '3 1/4')
    """
    if not text.isascii():
        text = _plain_letters(unicodedata.normalize("NFC", text))
    spaced = " ".join("".join(" " if _is_blank(c) else c for c in text).split())
    told = _BRACKETED.sub(lambda m: "dBA" if m[1] else "ozwt", _ARROW.sub("=", _unquoted(spaced)))
    return _IN_PROSE.sub("", _SPACED.sub(lambda m: m[0].replace(" ", ""), told))


def _plain_letters(text: str) -> str:
    """`text` in ASCII as far as its signs and digits go."""
    fractions = _RAISED_FRACTION.sub(lambda m: f" {m[1]}/{m[2]}".translate(_RAISED), text)
    powers = _EXPONENT.sub(lambda m: "^" + m[0].translate(_RAISED), fractions)
    letters: list[str] = []
    for letter in powers:
        letters.append(_plain(letter, letters[-1][-1:] if letters else ""))
    return "".join(letters)


def _plain(letter: str, before: str) -> str:
    if letter.isascii():
        return letter
    if letter in _SAME:
        return _SAME[letter]
    if ord(letter) in _FULL_WIDTH:
        return chr(ord(letter) - 0xFEE0)
    made_of = unicodedata.decomposition(letter)
    if made_of.startswith("<fraction>"):
        spelled = unicodedata.normalize("NFKC", letter).replace("⁄", "/")
        return (" " if before.isdigit() else "") + spelled + " "
    if letter.isdecimal():
        return str(unicodedata.decimal(letter))
    return " " if _is_blank(letter) else letter


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


def listed(texts: str, between: str = " ") -> frozenset[str]:
    """The words (or phrases, with another sign `between`) of a list kept as one text."""
    return frozenset(texts.split(between))
