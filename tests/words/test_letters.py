"""The letters of the font: what needs no look at it is in it, and what it lacks is told."""

from __future__ import annotations

import pytest

from generator.words import letters


def test_the_usual_letters_are_all_in_the_font() -> None:
    assert set(letters._USUAL) - letters.letters_of_font() <= {"\t", "\n"}


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("Mézclelo: 3 ½ gal → 60 °F", []),
        ("Careful ☃ and ⚠ twice ☃", ["☃", "⚠"]),
        ("水", ["水"]),
    ],
)
def test_what_the_font_lacks_is_told_once(text: str, expected: list[str]) -> None:
    assert letters.lacking(text) == sorted(expected)
