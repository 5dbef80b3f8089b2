"""Spanish: the same numbers from the same seed, the key in the shop's language, what is missing."""

from __future__ import annotations

import re
import shutil
from dataclasses import replace
from html import unescape
from pathlib import Path

import pytest

from generator.items.build import draw_item, question_item
from generator.model.course import Curriculum
from generator.model.item import Item
from generator.printing.key import key_html
from generator.printing.paper import paper_html
from generator.printing.pdf import Printer
from generator.reading.curriculum import read_all, read_curriculum
from generator.records.papers_kept import find_paper
from generator.workflows.booklet import html_of
from generator.workflows.drawing import draw_paper
from generator.workflows.grade import Graded, keep, mark
from generator.workflows.paper import Order, issue
from generator.workflows.place import Place, starter
from generator.workflows.record import history
from generator.workflows.reword import reworded, untranslated
from generator.workflows.strip import strip
from generator.workflows.translation import translation_findings, translation_lines

SEED = "3c" * 16


@pytest.fixture(scope="module")
def spanish() -> Curriculum:
    return read_curriculum(starter(), "es")


def figures(text: str) -> list[str]:
    return sorted(re.findall(r"\d[\d.,/]*\d|\d", text))


def same_numbers(one: Item, other: Item) -> None:
    assert one.given == other.given
    assert replace(one.answer, text="") == replace(other.answer, text="")
    assert [(o.right, o.slip) for o in one.options] == [(o.right, o.slip) for o in other.options]
    assert [(s.id, s.value, s.word) for s in one.slips] == [
        (s.id, s.value, s.word) for s in other.slips
    ]
    assert (one.order, one.words, one.must) == (other.order, other.words, other.must)


def test_the_same_seed_gives_the_same_numbers(curriculum: Curriculum, spanish: Curriculum) -> None:
    for own, other in zip(curriculum.problems, spanish.problems, strict=True):
        for seed in range(12):
            same_numbers(*(draw_item(each, seed, "choose") for each in (own, other)))
    for module in curriculum.modules.values():
        pairs = zip(module.questions, spanish.modules[module.id].questions, strict=True)
        for mine, theirs in pairs:
            same_numbers(question_item(mine, 5), question_item(theirs, 5))


def test_texts_hold_the_same_figures(curriculum: Curriculum, spanish: Curriculum) -> None:
    translated = [p for p in spanish.problems if p.language == "es"]
    assert len(translated) >= 25
    for problem in translated:
        own = curriculum.problem(problem.id)
        assert own
        ours, theirs = draw_item(own, 3), draw_item(problem, 3)
        assert figures(ours.ask) == figures(theirs.ask), problem.id
        assert ours.ask != theirs.ask


def test_a_mixing_paper_is_all_in_spanish(spanish: Curriculum) -> None:
    module = spanish.modules["mixing"]
    for number in range(5):
        seed = f"{number:02x}" * 16
        paper = draw_paper(spanish, module, "Teo", False, "P", seed=seed)
        assert paper.language == "es"
        assert untranslated(paper, spanish) == 0
    html = unescape(paper_html(spanish.shop, [paper], strip(module)))
    assert '<html lang="es">' in html
    assert "Have a fluent reader of your crew check this" in html
    english = re.compile(r"\b(the|stock|water|answer|round|measure|how|you|which|whole)\b", re.I)
    own_words = re.sub(r"<style.*?</style>|<title.*?</title>|\(trade\)|<[^>]*>", "", html)
    rest = own_words.replace("Have a fluent reader of your crew check this.", "")
    assert english.findall(rest) == []


def test_every_must_get_is_in_spanish(spanish: Curriculum) -> None:
    for module in spanish.modules.values():
        for thing in (*module.problems, *module.questions):
            assert thing.language == "es" or not thing.must, thing.id


def test_no_translation_says_a_word_that_is_bleach_here_and_lye_there() -> None:
    for path in starter().rglob("*.es.yaml"):
        assert not re.search(r"lej[ií]a", path.read_text("utf-8"), re.IGNORECASE), path.name


def test_the_key_stays_in_the_shops_language(curriculum: Curriculum, spanish: Curriculum) -> None:
    paper = draw_paper(spanish, spanish.modules["mixing"], "Teo", False, "P", seed=SEED)
    key = reworded(paper, curriculum)
    own = draw_paper(curriculum, curriculum.modules["mixing"], "Teo", False, "P", seed=SEED)
    assert [(i.id, i.seed) for i in paper.items] == [(i.id, i.seed) for i in key.items]
    assert key.items == own.items
    html = key_html(curriculum.shop, [key])
    assert '<html lang="en">' in html
    assert "TRAINER ONLY" in html


def test_the_note_goes_once_a_fluent_reader_has_read_it(spanish: Curriculum) -> None:
    shop = replace(spanish.shop, spanish_checked="2026-05-04")
    paper = draw_paper(spanish, spanish.modules["mixing"], "Teo", True, "P", seed=SEED)
    assert "fluent reader" not in paper_html(shop, [paper])


def test_a_paper_in_spanish_is_kept_marked_and_explained_in_spanish(
    shop: Place, curriculum: Curriculum, spanish: Curriculum, printer: Printer
) -> None:
    order = Order("surface-cleaner", ("Teo",), practice=True)
    done = issue(shop, curriculum, order, printer, spanish)
    kept = find_paper(history(shop.records), done.papers[0].code)
    assert kept == done.papers[0]
    assert kept.language == "es"
    answers = [item.order or item.answer.text for item in kept.items]
    result = mark(kept, answers, {})
    assert result.right == len(kept.items)
    marked = keep(shop, curriculum, Graded(result), "Mara", printer)
    assert marked.slip
    assert marked.slip.path.is_file()


def test_a_booklet_says_its_furniture_in_spanish(spanish: Curriculum) -> None:
    html = unescape(html_of(spanish, spanish.modules["surface-cleaner"]))
    for said in ("Contenido", "Por qué importa", "Paso a paso", "PELIGRO", "Respuesta", "Firma"):
        assert said in html, said
    for unsaid in ("Why it matters", "What is inside", "DANGER", "You may hear", "Sign-off"):
        assert unsaid not in html, unsaid


def stale(folder: Path) -> list[str]:
    lines = translation_lines(folder, read_all(folder).documents, "es")
    return [line for line in lines if "read it against the original again" in line]


def test_check_names_what_is_missing_and_what_has_changed(tmp_path: Path) -> None:
    folder = tmp_path / "curriculum"
    shutil.copytree(starter(), folder)
    before = stale(folder)
    path = folder / "modules/mixing/batch.yaml"
    text = path.read_text("utf-8")
    assert "Put in order." in text
    path.write_text(text.replace("Put in order.", "Put these in order.", 1), "utf-8")
    (folder / "modules/mixing/stray.es.yaml").write_text("title: x\n", "utf-8")
    faults, warnings = translation_findings(folder, read_all(folder).documents)
    assert [fault.file for fault in faults] == ["curriculum/modules/mixing/stray.es.yaml"]
    assert [w for w in warnings if "of mixing" in w.what and "changed since" in w.what]
    (line,) = set(stale(folder)) - set(before)
    assert "questions/water-first" in line
    beside, digest = folder / "modules/mixing/batch.es.yaml", line.split()[-1]
    block = re.compile(r"(?m)^(  water-first:\n    of: )\w+")
    said, times = block.subn(rf"\g<1>{digest}", beside.read_text("utf-8"))
    assert times == 1
    beside.write_text(said, "utf-8")
    assert stale(folder) == before


def test_a_shop_without_any_overlay_is_told_nothing(tmp_path: Path) -> None:
    folder = tmp_path / "curriculum"
    shutil.copytree(starter(), folder, ignore=shutil.ignore_patterns("*.es.yaml"))
    assert translation_findings(folder, read_all(folder).documents) == ([], [])
