"""Marking letters: one of three options, or things put in order."""

from __future__ import annotations

import re

from generator.marking.finding import Finding, ask_trainer, told
from generator.marking.reader import Reading, read_answer
from generator.marking.text import clean
from generator.maths.units import NONE, parse_unit
from generator.model.item import LETTERS, Item, Option
from generator.words import WRITTEN_IN

_BEFORE = re.compile(
    r"^(?:(?:the |my |la |el )?(?:answer|ans|option|letter|choice|respuesta|opci[oó]n|letra)\b"
    r"(?: is| es)?[\s:=]*)+|^(?:la|el) (?=[a-j]\b)",
    re.IGNORECASE,
)
_LETTER = re.compile(r"[\s(\[]*([a-z])\b[\s)\].:,=-]*(.*)", re.IGNORECASE)
_BETWEEN = re.compile(r"\b(?:then|and|luego|y)\b|[^\w]+", re.IGNORECASE)


def find_chosen(item: Item, written: str, language: str = WRITTEN_IN) -> Finding:
    """What became of an answer that chooses: a letter, the option's text, or both."""
    text = _BEFORE.sub("", clean(written))
    chosen = (
        _by_text(item, text)
        or _by_letter(item, text, language)
        or _by_meaning(item, text, language)
    )
    if not chosen:
        return ask_trainer("it does not name one option")
    if chosen.right:
        return Finding("right")
    tells = (slip.tell for slip in item.slips if slip.id == chosen.slip)
    tell = " ".join(filter(None, (next(tells, ""), chosen.reason)))
    return Finding("slip" if chosen.slip else "wrong", chosen.slip, tell)


def _by_text(item: Item, text: str) -> Option | None:
    """The one option with this text."""
    same = [option for option in item.options if _bare(option.text) == _bare(text)]
    return same[0] if len(same) == 1 else None


def _bare(text: str) -> str:
    return clean(text).casefold().strip(" .,;:!?()[]")


def _by_letter(item: Item, text: str, language: str) -> Option | None:
    """The option of a letter, if whatever follows is that same option's text or number."""
    found = _LETTER.fullmatch(text)
    place = LETTERS.find(found[1].upper()) if found else -1
    if not found or not 0 <= place < len(item.options):
        return None
    option, rest = item.options[place], found[2]
    if not _bare(rest) or (_by_text(item, rest) or _by_meaning(item, rest, language)) is option:
        return option
    return None


def _by_meaning(item: Item, text: str, language: str) -> Option | None:
    """The one option with this number or word, whichever way it is written."""
    own = _reading(item, text, language)
    if _LETTER.fullmatch(text) or (own.value is None and not own.word):
        return None
    same = [option for option in item.options if _is_same(own, _reading(item, option.text))]
    return same[0] if len(same) == 1 else None


def _is_same(own: Reading, option: Reading) -> bool:
    if own.word or option.word:
        return own.word == option.word
    bare = not own.unit_given and own.plain is not None and own.plain == option.plain
    return bare or (option.value is not None and option.value in (own.value, own.custom))


def _reading(item: Item, text: str, language: str = WRITTEN_IN) -> Reading:
    wanted = parse_unit(item.answer.unit) if item.answer.unit else NONE
    return read_answer(text, wanted, item.words, language=language)


def find_ordered(item: Item, written: str, language: str = WRITTEN_IN) -> Finding:
    """What became of an answer that puts things in order, such as "BCA" or "b, c, a"."""
    letters = _BETWEEN.sub("", clean(written)).upper()
    if sorted(letters) != sorted(item.order):
        return ask_trainer(f"it needs {len(item.order)} letters, each of them once")
    pairs = enumerate(zip(item.order, letters, strict=True), start=1)
    wrong = next(((place, right, own) for place, (right, own) in pairs if right != own), None)
    if wrong is None:
        return Finding("right")
    place, right, own = wrong
    things = {"right": _thing(item, right), "own": _thing(item, own)}
    return Finding("wrong", tell=told(language, "place", place=place, **things))


def _thing(item: Item, letter: str) -> str:
    """A letter and what it stands for."""
    place = LETTERS.find(letter)
    known = 0 <= place < len(item.options)
    return f"{letter} ({item.options[place].text.rstrip('.')})" if known else letter
