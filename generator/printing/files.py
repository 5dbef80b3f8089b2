"""What the pages made from the record share: names that may hold anything, and names of files."""

from __future__ import annotations

import hashlib
import re
import unicodedata

from generator.reading.unseen import is_unseen

LONGEST = 40


def one_line(text: str) -> str:
    """The text on one line, without signs that nobody sees or that turn others round.

    >>> one_line("two\\nlines\\u202e")
    'two lines'
    """
    plain = "".join(" " if sign.isspace() else "" if is_unseen(sign) else sign for sign in text)
    return " ".join(plain.split())


def file_stem(name: str) -> str:
    """A name as part of a file's name, on any system; different names never give the same.

    >>> file_stem("Juno")
    'Juno'
    """
    stem = re.sub(r"[^\w]+", "-", unicodedata.normalize("NFC", name)).strip("-_")[:LONGEST]
    if stem == name and stem.isascii():
        return stem
    digest = hashlib.sha256(name.encode("utf-8", "surrogatepass")).hexdigest()[:6]
    return f"{stem or 'person'}-{digest}"
