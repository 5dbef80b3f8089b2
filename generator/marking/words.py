"""Answers in words: never, cannot, too strong; and answers that are none."""

from __future__ import annotations

import re
from collections.abc import Sequence
from functools import lru_cache

from generator.marking.numbers import unreadable
from generator.marking.synonyms import SYNONYMS
from generator.marking.text import clean, fold, listed
from generator.words import LANGUAGES, answer_word

# Words that change nothing about a word answer. No negation and no "I": "I can't" is no answer.
_AROUND = listed(
    "a an the it its is this that answer ans mix tank water stock be done made get there reached "
    "you we they ever already just only so add will el la los las es esta este mezcla tanque agua "
    "se solo ya respuesta now here"
)
# What a word answer may speak of, unless the item's own words tell such things apart.
_SCENE = listed(
    "load truck van trailer rig package packages ladder person weight job hose pump carga camion "
    "camioneta remolque paquete paquetes escalera persona peso trabajo manguera bomba"
)
_TOO = re.compile(r"\bto (?=(?:strong|heavy|big|large|thin|much|narrow|small)\b)")

_NO_ANSWER = listed(
    "idk, dk, i dont know, dont know, i do not know, do not know, dont know this one, "
    "i dont know this one, dunno, i dunno, dont no, i dont no, unknown, not sure, im not sure, "
    "i am not sure, no idea, i have no idea, have no idea, no clue, i forgot, forgot, "
    "dont remember, i dont remember, cant remember, i cant remember, no answer, none given, "
    "blank, left blank, empty answer, skip, skipped, skip this, pass, n a, na, nothing written, "
    "no se, yo no se, no lo se, pues no se, no se como, no la se, ni idea, no tengo idea, nose, "
    "no me acuerdo, no recuerdo, se me olvido, quien sabe, sin respuesta, en blanco",
    between=", ",
)


def is_blank(text: str) -> bool:
    """Whether nothing was answered: empty, a dash, a question mark, "don't know".

    >>> is_blank(" -- "), is_blank("No sé"), is_blank("0")
    (True, True, False)
    """
    folded = fold(text)
    return folded in _NO_ANSWER if folded else not any(map(str.isnumeric, text))


def word_answer(text: str, words: Sequence[str]) -> str:
    """Which of the item's own `words` the text means, "" when it means none of them.

    Raises Refusal when it may mean two of them.
    """
    if not words:
        return ""
    said = _TOO.sub("too ", fold(clean(text))).split()
    around = _around(tuple(words))
    meant = {word for word in words if any(_is_said(said, p, around) for p in _phrases(word))}
    exact = [word for word in meant if fold(word).split() == said]
    if len(meant) > 1 and not exact:
        raise unreadable(f"it may mean {' or '.join(sorted(meant))}")
    return exact[0] if exact else meant.pop() if meant else ""


def _is_said(said: Sequence[str], phrase: Sequence[str], around: frozenset[str]) -> bool:
    """Whether `said` is the phrase, apart from words that change nothing."""
    return [word for word in said if word in phrase or word not in around] == phrase


@lru_cache(maxsize=256)
def _around(words: tuple[str, ...]) -> frozenset[str]:
    """The words that change nothing where an item knows `words`."""
    telling = {each for word in words for phrase in _phrases(word) for each in phrase}
    return _AROUND | (_SCENE - telling)


@lru_cache(maxsize=256)
def _phrases(word: str) -> tuple[list[str], ...]:
    """The word itself, as printed too, and what people write for it, each as a list of words."""
    printed = dict.fromkeys(fold(answer_word(word, language)) for language in LANGUAGES)
    return tuple(phrase.split() for phrase in (fold(word), *printed, *SYNONYMS.get(word, ())))
