"""Signs that nobody sees, or that turn others round: what is read must be what is printed."""

from __future__ import annotations

import unicodedata
from collections.abc import Iterator

_UNSEEN = ("Cc", "Cf", "Cs", "Zl", "Zp")
_JOINERS = "\u200c\u200d"  # they shape letters and emoji, and turn nothing round


def is_unseen(sign: str) -> bool:
    """Whether a sign is a control, a mark of direction, half a letter or the like."""
    return unicodedata.category(sign) in _UNSEEN and sign not in _JOINERS


def unseen_in(text: str, allowed: str = "\t") -> Iterator[tuple[int, str]]:
    """The first unseen sign of each line, named U+202E, and how far below the first line it is."""
    if text.replace("\n", "").isprintable():  # nearly always
        return
    for below, line in enumerate(text.split("\n")):
        found = (sign for sign in line if is_unseen(sign) and sign not in allowed)
        if sign := next(found, ""):
            yield below, f"U+{ord(sign):04X}"
