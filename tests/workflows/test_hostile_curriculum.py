"""A curriculum that can be read but means harm: its words stay words, and nothing runs for ever."""

from __future__ import annotations

import shutil
from html.parser import HTMLParser
from pathlib import Path

import pytest
import yaml

from generator.errors import Refusal
from generator.printing.key import key_html
from generator.printing.paper import paper_html
from generator.printing.script import script_html
from generator.reading.curriculum import read_curriculum
from generator.workflows.booklet import html_of
from generator.workflows.drawing import draw_paper
from generator.workflows.sheets import products

SMALL = Path(__file__).parents[1] / "cases" / "small"
HARM = (
    """</title></style><script>x()</script>"'><img src=x onerror=y()> `<b>` <!-- """
    "&lt;i&gt; [a](js:x)"
)
INSIDE = ("data:image/svg+xml;", "#")
TEXTS = {"name", "kind", "title", "aim", "why", "text", "ask", "tell", "reason", "passed",
         "not_yet", "do", "look", "label", "convention", "write", "for", "short"}  # fmt: skip


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """A small curriculum to spoil."""
    return Path(shutil.copytree(SMALL, tmp_path / "curriculum"))


def with_harm(node: object) -> object:
    """The data with harm at the end of every text that people read."""
    if isinstance(node, list):
        return [with_harm(each) for each in node]
    if isinstance(node, dict):
        return {
            key: f"{value} {HARM}" if key in TEXTS and isinstance(value, str) else with_harm(value)
            for key, value in node.items()
        }
    return node


class Seen(HTMLParser):
    """What a browser would find in a page."""

    def __init__(self, page: str) -> None:
        super().__init__()
        self.tags: set[str] = set()
        self.attributes: set[str] = set()
        self.addresses: set[str] = set()
        self.text = ""
        self.feed(page)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.add(tag)
        self.attributes |= {name for name, _ in attrs}
        self.addresses |= {value or "" for name, value in attrs if name in ("src", "href")}

    def handle_data(self, data: str) -> None:
        self.text += data


def test_harm_in_every_text_is_printed_as_it_is_written(folder: Path) -> None:
    for path in folder.rglob("*.yaml"):
        data = with_harm(yaml.load(path.read_text("utf-8"), yaml.BaseLoader))
        path.write_text(yaml.dump(data, allow_unicode=True, sort_keys=False), "utf-8")
    curriculum = read_curriculum(folder)
    module = curriculum.modules["mix"]
    paper = draw_paper(curriculum, module, f"Ana {HARM}", False, "K7M-2QF")
    shop = curriculum.shop
    pages = [product.page() for product in products(curriculum).values()]
    pages += [paper_html(shop, [paper]), key_html(shop, [paper]), script_html(shop, [paper])]
    for page in pages:
        seen = Seen(page)
        assert seen.tags.isdisjoint({"script", "i", "iframe", "object", "embed", "base", "form"})
        assert not [name for name in seen.attributes if name.startswith("on")]
        assert [a for a in seen.addresses if not a.startswith(INSIDE)] == []
        assert "<script>x()</script>" in seen.text
        assert HARM not in page
        assert page.count("</title>") == 1


def test_too_few_different_items_are_refused_and_not_sought_for_ever(folder: Path) -> None:
    edits = {
        "modules/mix/problems.yaml": [
            ("shop.stock", "[10]"),
            ("[1, 1.5, 2, 3]", "[2]"),
            ("{from: 5, to: 60, step: 5}", "[10]"),
        ],
        "modules/mix/module.yaml": [("write_in: 1", "write_in: 3")],
        "modules/mix/batch.yaml": [("minutes: 20", "minutes: 20\npractice: [batch-stock]")],
    }
    for name, pairs in edits.items():
        text = (folder / name).read_text("utf-8")
        for old, new in pairs:
            assert old in text
            text = text.replace(old, new, 1)
        (folder / name).write_text(text, "utf-8")
    curriculum = read_curriculum(folder)
    module = curriculum.modules["mix"]
    with pytest.raises(Refusal, match="batch-stock makes too few different items"):
        html_of(curriculum, module)
    with pytest.raises(Refusal, match="batch-stock makes too few different items"):
        draw_paper(curriculum, module, "", True, "K7M-2QF")
