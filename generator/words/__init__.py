"""The words of pages, by language: headings, rounding, units, answers that are words.

They stand below everything else, since units, items, working and pages all say some of them. Each
language has one file of the same keys; a text of the lessons is translated beside the lesson.
"""

from __future__ import annotations

from collections.abc import Mapping
from functools import lru_cache
from pathlib import Path

LANGUAGES = ("en", "es")
WRITTEN_IN = "en"
"""The language of the curriculum's own files; the others lie beside them."""

Words = Mapping[str, Mapping[str, str]]


@lru_cache(maxsize=len(LANGUAGES))
def words(language: str) -> Words:
    """The words of one of LANGUAGES, by page and name."""
    import tomllib  # what only helps or refuses needs no words

    return tomllib.loads((Path(__file__).parent / f"{language}.toml").read_text("utf-8"))


def answer_word(word: str, language: str) -> str:
    """A word answer as printed: `too-strong` is "too strong", or "demasiado fuerte".

    >>> answer_word("too-strong", "en"), answer_word("never", "es")
    ('too strong', 'nunca')
    """
    return words(language)["answers"].get(word, word.replace("-", " "))


def language_name(said: str) -> str:
    """The English name of a language by its code; any other name stays as it was said.

    >>> language_name("es"), language_name("Polish")
    ('Spanish', 'Polish')
    """
    return words(WRITTEN_IN)["languages"].get(said.lower(), said)


def enumerated(things: list[str], language: str, last: str = "or") -> str:
    """`a, b or c`.

    >>> enumerated(["never", "cannot", "none"], "en")
    'never, cannot or none'
    """
    *most, end = things
    return f"{', '.join(most)} {words(language)['joining'][last]} {end}" if most else end
