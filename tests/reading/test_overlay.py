"""Overlays: texts in another language laid over a file, held to its ids, look-ups and numbers."""

from __future__ import annotations

import pytest

from generator.reading.nodes import Document, parse_text
from generator.reading.overlay import Overlay, overlaid, read_overlay

LESSON = """\
title: Ratios
aim: You can tell 1 to 4 from a quarter.
minutes: 25
why: |
  First.

  Second.
steps: [Look, Pour]
points:
  - {id: total, title: Count, text: "At {shop.wash.house} it is 5 gal."}
figures:
  - {figure: tank}
questions:
  - id: how-much
    ask: How much is 1 to 4?
    options:
      - {text: A fifth, right: yes, reason: Five parts.}
      - {text: A quarter, reason: No.}
      - {text: A half, reason: No.}
  - id: order
    ask: Put in order.
    order: [Water, Stock, Soap]
    reason: Water first.
"""
TRANSLATED = """\
questions:
  how-much:
    of: DIGEST
    ask: ¿Cuánto es 1 a 4?
    options:
      - {text: Un quinto, reason: Cinco partes.}
      - {text: Un cuarto, reason: No.}
      - {text: La mitad, reason: No.}
"""


def laid(overlay: str, original: str = LESSON) -> tuple[Document, Overlay]:
    document = parse_text(original, "x.yaml")
    return document, read_overlay(document, parse_text(overlay, "x.es.yaml"), "es")


def digest_of(path: tuple[str | int, ...], original: str = LESSON) -> str:
    return read_overlay(parse_text(original, "x.yaml"), None, "es").units[path].digest


FRESH = TRANSLATED.replace("DIGEST", digest_of(("questions", 0)))


def test_texts_are_laid_over_by_id_and_nothing_else_changes() -> None:
    document, overlay = laid(FRESH)
    assert overlay.faults == []
    new = overlaid(document, overlay, "es")
    question = new.data["questions"][0]
    assert question["ask"] == "¿Cuánto es 1 a 4?"
    assert question["options"][0]["text"] == "Un quinto"
    assert question["options"][0]["right"] == "yes"
    assert new.data["questions"][1] == document.data["questions"][1]
    assert document.data["questions"][0]["ask"] == "How much is 1 to 4?"
    assert new.language(("questions", 0, "options")) == "es"
    assert new.language(("questions", 1)) == new.language(("why",)) == "en"


@pytest.mark.parametrize("of", ["aaaaaa", ""])
def test_what_changed_since_is_not_printed(of: str) -> None:
    document, overlay = laid(TRANSLATED.replace("of: DIGEST", f"of: {of}" if of else ""))
    assert overlay.units["questions", 0].stale
    assert overlaid(document, overlay, "es").data == document.data


def test_an_edit_of_the_original_makes_a_translation_stale_and_a_move_does_not() -> None:
    edited = LESSON.replace("Five parts.", "Five parts in all.")
    assert laid(FRESH, edited)[1].units["questions", 0].stale
    moved = LESSON.replace("questions:\n", "questions:\n  - {id: new, ask: New?}\n")
    assert not laid(FRESH, moved)[1].units["questions", 1].stale


def test_half_a_question_is_not_printed_but_some_of_a_lessons_own_texts_are() -> None:
    half = FRESH.replace("    ask: ¿Cuánto es 1 a 4?\n", "")
    document, overlay = laid(half)
    assert overlaid(document, overlay, "es").data == document.data
    title = "of: DIGEST\ntitle: Proporciones\n"
    fresh = title.replace("DIGEST", laid(title)[1].units[()].digest)
    for original in (LESSON, LESSON.replace("Pour]", "Pour low]")):  # the steps are another text
        document, overlay = laid(fresh, original)
        assert overlaid(document, overlay, "es").data["title"] == "Proporciones"


def test_counts_say_what_is_there_and_what_is_missing() -> None:
    _, overlay = laid(FRESH)
    assert (overlay.used, overlay.total) == (7, 19)


FAULTS = {
    "an id that is not there": ("questions:\n  other: {ask: x}", 2, 'no "other"'),
    "a key that is not there": ("titel: x", 1, '"titel" is not in the original'),
    "a number": ("minutes: 30", 1, '"minutes" is no text'),
    "another shape": ("points: x", 1, "does not mirror"),
    "a list of another length": ("steps: [Mire]", 1, "1 entries here, 2"),
    "a look-up left out": ("points:\n  total: {text: 'A 1% son 5 gal.'}", 2, "{shop.wash.house}"),
    "a number changed": (
        "points:\n  total: {text: 'A {shop.wash.house} son 6 gal.'}", 2, "the number 6",
    ),
    "a number added": ("aim: Sabe 1 a 4, y 2.", 1, "the number 2"),
    "bleach or lye": ("title: La lejía", 1, "bleach here and lye there"),
    "of: where no text is": ("figures:\n  - {of: abc}", 2, "of: stands where no text is"),
}  # fmt: skip


@pytest.mark.parametrize("name", FAULTS)
def test_a_wrong_overlay_is_a_fault_with_its_line(name: str) -> None:
    text, line, says = FAULTS[name]
    faults = laid(text)[1].faults
    assert faults
    assert all(fault.file == "x.es.yaml" for fault in faults)
    assert any(says in fault.what and fault.line == line for fault in faults), faults


def test_entries_of_a_file_of_problems_are_units() -> None:
    problems = "one: {ask: 'Give {x}.', slips: {up: {name: n, tell: Down.}}}\ntwo: {ask: Two?}\n"
    said = "one: {ask: 'Dé {x}.', slips: {up: {tell: Abajo.}}}"
    _, overlay = laid(said, problems)
    assert overlay.faults == []
    unit = overlay.units["one",]
    assert set(unit.texts) == {("one", "ask"), ("one", "slips", "up", "tell")}
    assert unit.said.keys() == unit.texts.keys()
    assert not overlay.units["two",].said
