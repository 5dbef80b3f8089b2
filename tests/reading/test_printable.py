"""What no page could show is told with its line: odd letters, pictures, what is too wide."""

from __future__ import annotations

import pytest

from generator.errors import Faults
from generator.reading.nodes import parse_text

WIDE = f"| {' | '.join(['manganese'] * 6)} |\n  |{'---|' * 6}\n  | a | b | c | d | e | f |"


@pytest.mark.parametrize(
    ("text", "line", "says"),
    [
        ("a: fine\nb: Snow ☃\n", 2, 'has no "☃" (U+2603)'),
        ("a: |\n  One.\n\n  Two ☃.\n", 4, 'has no "☃"'),
        ('a: "\\u2603"\n', 1, 'has no "☃"'),
        ('a:\n  - "![The valve](valve.png)"\n', 2, "a picture from a file"),
        (f"a: {'x' * 41}\n", 1, "is a word of 41 letters"),
        (f"a: |\n  Three metals.\n\n  {WIDE}\n", 4, "the table is wider than a page (60 letters"),
    ],
)
def test_it_is_told_with_its_line(text: str, line: int, says: str) -> None:
    with pytest.raises(Faults) as faults:
        parse_text(text, "lesson.yaml")

    (fault,) = faults.value.faults
    assert (fault.file, fault.line) == ("lesson.yaml", line)
    assert says in fault.what


@pytest.mark.parametrize(
    "text",
    [
        f"a: {'x' * 40}",
        "a: 60*gpm/(turns*0.0408*inside_in*inside_in*length_ft)*9*9*9*9*9*9*9",
        "a: Stop! [a link](there)",
        f"a: |\n  | {' | '.join(['{shop.limit.people_ft}'] * 6)} |\n  |{'---|' * 6}",
        "a: |\n  | Wash | On the wall |\n  |---|---|\n  | House, walls and all that is low | 1% |",
    ],
)
def test_the_rest_may_stand(text: str) -> None:
    parse_text(text, "lesson.yaml")
