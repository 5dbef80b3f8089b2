"""Answers in words: never, cannot, too strong, and the words of every day around a number."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from generator.marking.numbers import unreadable
from generator.marking.text import fold


def _each(text: str, between: str = " ") -> frozenset[str]:
    """The words (or phrases, with another sign `between`) of a list kept as one text."""
    return frozenset(text.split(between))


# What people write for a word answer, folded: no accents, apostrophes or capitals.
_SYNONYMS = {
    "never": (
        "never runs out, never run out, never ends, never empties, never runs dry, never goes dry, "
        "will never run out, will never run dry, wont run out, will not run out, doesnt run out, "
        "does not run out, cant run out, cannot run out, can not run out, wont run dry, "
        "will not run dry, doesnt run dry, does not run dry, forever, for ever, infinite, "
        "nunca, jamas, nunca se acaba, no se acaba, no se acabara, no se vacia, no se agota, "
        "para siempre, infinito"
    ),
    "cannot": (
        "can not, cant, impossible, not possible, is not possible, isnt possible, wont work, "
        "will not work, doesnt work, does not work, no se puede, imposible, no es posible"
    ),
    "too-strong": "too strong, demasiado fuerte, muy fuerte",
    "start-now": (
        "now, right now, right away, start right away, no wait, no waiting, dont wait, "
        "do not wait, no need to wait, ya, ahora, empezar ya, empieza ya, sin esperar, no esperar"
    ),
    "none": "none fits, none of them, no ladder, ninguna, ninguno, ninguna escalera",
    "may-go": "can go, good to go, ok to go, puede ir, puede salir",
    "no-placard": "no placard needed, no placards, no placards needed",
    "load-too-heavy": "too heavy, demasiado pesado, demasiada carga",
    "package-too-big": "too big, demasiado grande",
}

# Words that change nothing about a word answer. No negation and no "I": "I can't" is no answer.
_AROUND_WORDS = _each(
    "a an the it its is this that answer ans mix tank water stock be done made get there "
    "reached you we they ever already just only so add will el la es esta mezcla tanque agua "
    "se solo ya"
)

# Words that change nothing about a number. None of them counts, compares, halves or denies.
QUIET = _each(
    "a an the of is are it its that this total all mix mixture batch bleach stock chlorine sh hypo "
    "hypochlorite water soap surfactant solution wash rinse tank jug bucket about around approx "
    "approximately roughly circa ca answer ans result i we you use measure pour put add need "
    "needs needed takes take will last lasts for with to part parts passes pass coats coat jobs "
    "packages jugs cones ladder ladders people size tip nozzle strength strong "
    "de del la el los las es son agua cloro jabon mezcla tanque total unas unos cerca aprox "
    "aproximadamente respuesta medir usar poner echar necesita dura en parte partes pasadas "
    "pasada capas trabajos fuerza"
)

_NO_ANSWER = _each(
    "idk, dk, i dont know, dont know, i do not know, do not know, not sure, no idea, no answer, "
    "blank, skip, skipped, no se, yo no se, no lo se, ni idea, nose",
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
    folded = fold(text)
    meant = {word for word in words if _means(folded, word)}
    if len(meant) > 1:
        raise unreadable(f"it may mean {' or '.join(sorted(meant))}")
    return meant.pop() if meant else ""


def _means(folded: str, word: str) -> bool:
    return any(_around(folded, phrase) <= _AROUND_WORDS for phrase in _phrases(word))


def _phrases(word: str) -> Iterator[str]:
    """The word itself and what people write for it."""
    yield fold(word)
    yield from filter(None, _SYNONYMS.get(word, "").split(", "))


def _around(folded: str, phrase: str) -> set[str]:
    """The words of `folded` besides `phrase`; when it is not in there, a word nobody writes."""
    before, found, after = f" {folded} ".partition(f" {phrase} ")
    return {*before.split(), *after.split()} if found else {"-"}
