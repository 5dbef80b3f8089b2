"""What `check` says of wording: hard paragraphs and long sentences, with file and line."""

from __future__ import annotations

from generator.errors import Fault
from generator.reading.curriculum import read_all
from generator.reading.nodes import parse_text
from generator.workflows.place import starter
from generator.workflows.reading_level import levels, reading_warnings

EASY = "Pour the water first. Then pour the stock. Soap goes in last of all."
HARD = (
    "Sodium hypochlorite solutions deteriorate considerably whenever temperatures increase, "
    "particularly inside unventilated compartments containing incompatible chemicals."
)
LONG = "one two three four five six seven eight nine ten eleven twelve thirteen"


def warnings(text: str) -> list[Fault]:
    document = parse_text(text, "curriculum/modules/mixing/x.yaml")
    return list(reading_warnings({document.file: document}))


def lesson(**texts: str) -> str:
    why = texts.get("why", EASY)
    do = texts.get("do", "Leave at once.")
    call = texts.get("call", "Call 911.")
    return f"""\
title: A lesson
aim: You can do it.
why: |
  {EASY}

  {why}
points:
  - {{id: one, title: One, text: "{texts.get("text", EASY)}"}}
cautions:
  - id: danger
    signal: danger
    title: Gas
    happens: It hurts.
    do: {do}
    call: {call}
"""


def test_easy_texts_are_passed_over() -> None:
    assert warnings(lesson()) == []


def test_a_hard_paragraph_is_named_at_its_own_line() -> None:
    (warning,) = warnings(lesson(why=HARD))
    assert (warning.file, warning.line) == ("curriculum/modules/mixing/x.yaml", 6)
    assert "reads at grade" in warning.what


def test_a_lesson_of_hard_paragraphs_is_named_as_a_whole() -> None:
    found = warnings(lesson(why=HARD, text=HARD))
    assert [w.line for w in found if "median" in w.what] == [1]


def test_sentences_have_their_lengths_by_what_they_are_for() -> None:
    eleven = " ".join(LONG.split()[:11])
    assert warnings(lesson(call=f"{eleven}.")) == []
    (caution,) = warnings(lesson(call=f"{LONG}."))
    assert (caution.line, caution.what) == (15, "a caution of 13 words; 11 are the most")
    (action,) = warnings(lesson(do="Leave now and go upwind and uphill and wait there."))
    assert (action.line, "a first action of 10 words" in action.what) == (14, True)
    sentences = [w for w in warnings(lesson(text=f"{LONG} {LONG}.")) if "sentence" in w.what]
    assert [w.line for w in sentences] == [8]
    assert "a sentence of 26 words; 19 are the most" in sentences[0].what


def test_tables_formulas_and_a_few_words_have_no_grade() -> None:
    table = "| Hypochlorite concentration | Recommended |\\n|---|---|\\n| Deteriorated | Never |"
    assert warnings(lesson(text=table)) == []
    assert warnings(lesson(text="Recommended hypochlorite concentration:")) == []
    assert (
        warnings(lesson(text="hypochlorite quantity = desired concentration × volume ÷ it")) == []
    )


def test_the_shipped_course_is_easy_to_read() -> None:
    found = levels(read_all(starter()).documents)
    assert len(found) >= 13
    assert all(each.median <= 5 for each in found)
    assert all(each.hardest <= 10 for each in found)
    assert all(each.longest <= 27 for each in found)
