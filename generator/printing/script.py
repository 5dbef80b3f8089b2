"""The read-aloud script: what the trainer says, word for word, and nothing that helps."""

from __future__ import annotations

import re
from collections.abc import Sequence
from functools import lru_cache

from generator.maths.units import UNIT_NAMES, parse_unit, shown
from generator.model.item import Item
from generator.model.paper import Paper
from generator.model.shop import Shop
from generator.printing.environment import answers, render, unit_words
from generator.words import words


def script_html(shop: Shop, papers: Sequence[Paper]) -> str:
    """The scripts of the papers as HTML, in their order; no answer stands on them."""
    language = papers[0].language if papers else shop.language
    return render(
        "script.html",
        shop,
        papers=papers,
        language=language,
        aloud=lambda text: aloud(text, language),
        write=lambda item: what_to_write(item, language),
    )


def aloud(text: str, language: str) -> str:
    """The text with its units, fractions and prices as they are said.

    >>> aloud("Fill 3 1/4 gal at 4 gpm.", "en")
    'Fill 3 and 1/4 gallons at 4 gallons a minute.'
    """
    said = words(language)["script"]
    text = re.sub(r"(?<=\d) (?=\d+/\d)", f" {said['and']} ", text)
    text = re.sub(r"\$ ?(\d[\d,.]*\d|\d)", rf"\1 {words(language)['aloud']['usd']}", text)
    return _after_number(language).sub(lambda found: _said(found, language), text)


def _said(found: re.Match[str], language: str) -> str:
    before, number, joint, unit, each = found.groups()
    single = number == "1" or joint == "-" or ("/" in number and not before)
    joint = "-" if joint == "-" else " "
    per = f" {words(language)['script']['per']} {_unit(each, language, one=True)}" if each else ""
    return f"{before or ''}{number}{joint}{_unit(unit, language, one=single)}{per}"


def _unit(printed: str, language: str, one: bool) -> str:
    name, said = _names(language)[printed], words(language)
    return said["aloud_one"].get(name, said["aloud"][name]) if one else said["aloud"][name]


_NO_INCH = r"(?<!\d in(?= (?:the|an?|place|your|our|this|all(?! over))\b))"
"""After a number "in" is an inch, but not in "1 in the heat"."""


@lru_cache(maxsize=4)
def _names(language: str) -> dict[str, str]:
    """Units by the way pages print them, of those that are said otherwise."""
    spoken = words(language)["aloud"]
    pairs = {shown(parse_unit(name), language): name for name in UNIT_NAMES if name in spoken}
    singles = {
        shown(parse_unit(name), language, one=True): name for name in UNIT_NAMES if name in spoken
    }
    return pairs | singles


@lru_cache(maxsize=4)
def _after_number(language: str) -> re.Pattern[str]:
    """A number with a unit behind it: `30 gal`, `3/4 in`, `12.5%`, `5-gal`."""
    units = "|".join(sorted(map(re.escape, _names(language)), key=len, reverse=True))
    joined = re.escape(words(language)["script"]["and"])
    return re.compile(
        rf"(?<![\w/.,])(\b{joined} )?(\d[\d.,/]*)([ \u00a0-]?)({units})(?:/({units}))?"
        rf"(?![\w/]){_NO_INCH}"
    )


def what_to_write(item: Item, language: str) -> str:
    """What the person is told to write down for the item."""
    said = words(language)["script"]
    if item.form != "write":
        return said["letter"] if item.form == "choose" else said["letters"]
    unit = item.answer.unit
    name = words(language)["aloud"].get(unit, unit_words(unit, language))
    told = said["unit"].format(unit=name) if name else said["number"]
    if not item.unit_printed:
        told = said["number_and_unit"]
    if not item.words:
        return told
    return f"{told} {said['or_word'].format(words=answers(item.words, language))}"
