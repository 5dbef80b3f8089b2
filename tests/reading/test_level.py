"""Reading level: the formula against published values, syllables against a list made by hand."""

from __future__ import annotations

from pathlib import Path

import pytest

from generator.reading.level import (
    flesch_kincaid,
    measured,
    sentences,
    syllables,
    words_of,
)

BY_HAND = Path(__file__).parents[1] / "cases" / "syllables.txt"


def by_hand() -> dict[str, int]:
    """Words with their syllables: `a-cid` has two, `two-stage` stands for itself."""
    lines = [line for line in BY_HAND.read_text("utf-8").splitlines() if line[:1] != "#"]
    counts: dict[str, int] = {}
    for entry in " ".join(lines).split():
        word, _, count = entry.partition("=")
        counts[word.replace("-", "")] = int(count) if count else entry.count("-") + 1
    return counts


# The sentences and values of the published checks: (text, words, sentences, syllables, grade).
PUBLISHED = [
    (
        "The Australian platypus is seemingly a hybrid of a mammal and reptilian creature.",
        (13, 1, 24),
        "11.3",
    ),
    ("The cat sat on the mat.", (6, 1, 6), "-1.4"),  # −1.45 exactly; printed with one decimal
]


@pytest.mark.parametrize(("text", "counts", "grade"), PUBLISHED)
def test_published_sentences_come_out(text: str, counts: tuple[int, int, int], grade: str) -> None:
    found = measured(text)
    assert found
    assert (found.words, found.sentences, found.syllables) == counts
    assert f"{float(found.grade):.1f}" == grade


def test_a_short_published_passage_comes_out() -> None:
    passage = (
        "This sentence, taken as a reading passage unto itself, is being used to prove a point."
    )
    found = measured(passage)
    assert found
    assert (found.words, found.syllables) == (16, 23)
    assert float(flesch_kincaid(16, 1, 23)) == pytest.approx(7.6125, abs=1e-9)


def test_a_long_published_passage_comes_out() -> None:
    # 432 words, 34 sentences, 607 syllables: published as 5.90, from rounded averages.
    assert float(flesch_kincaid(432, 34, 607)) == pytest.approx(5.90, abs=0.05)


def test_syllables_agree_with_the_list_made_by_hand() -> None:
    words = by_hand()
    assert len(words) >= 400
    assert {w: (syllables(w), n) for w, n in words.items() if syllables(w) != n} == {}


@pytest.mark.parametrize(
    ("word", "count"),
    [
        ("12.5", 1),
        ("low-pressure", 3),
        ("Trainer's", 2),
        ("don’t", 1),
        ("degreasing", 3),
        ("CFR", 3),
        ("rinses", 2),
        ("squorfed", 1),  # by rule: in no list
        ("blaxitation", 4),
    ],
)
def test_syllables_of_figures_compounds_and_unknown_words(word: str, count: int) -> None:
    assert syllables(word) == count


def test_sentences_leave_markdown_out_and_keep_figures_whole() -> None:
    text = "**Stop.** Use 12.5% stock, e.g. today's.\nNever `mix`! Why?"
    assert sentences(text) == ["Stop.", "Use 12.5% stock, eg today's.", "Never mix !", "Why?"]


def test_each_line_of_a_list_is_a_sentence() -> None:
    assert len(sentences("- one jug\n- two jugs\n  of mix\n- three")) == 3
    assert len(sentences("1. Water first.\n2. Stock second.")) == 2


def test_words_are_counted_as_a_reader_counts_them() -> None:
    assert words_of("Don't mix low-pressure, 3,000 psi.") == [
        "Don't",
        "mix",
        "low-pressure",
        "3,000",
        "psi",
    ]


def test_a_text_without_words_has_no_level() -> None:
    assert measured("***") is None
    assert measured("") is None
