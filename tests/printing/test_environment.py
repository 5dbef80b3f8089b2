"""Markdown, dates, numbers with units, and templates that refuse to guess."""

from __future__ import annotations

from types import ModuleType

import pytest
from jinja2 import UndefinedError

from generator.printing import environment
from generator.printing.environment import block, day, inline, joined, render


@pytest.mark.parametrize(
    ("text", "html"),
    [
        ("a **b** *c*", "<p>a <strong>b</strong> <em>c</em></p>\n"),
        ("<b>bold</b> & <script>", "<p>&lt;b&gt;bold&lt;/b&gt; &amp; &lt;script&gt;</p>\n"),
        ("{{ shop.name }} {% x %}", "<p>{{ shop.name }} {% x %}</p>\n"),
        ("# no heading", "<p># no heading</p>\n"),
        ("![x](http://a.example/x.png)", "<p>![x](http://a.example/x.png)</p>\n"),
        ("![x [y] z](x.png)", "<p>![x [y] z](x.png)</p>\n"),
        ("![x]\n\n[x]: file:///etc/passwd", "<p>![x]</p>\n<p>[x]: file:///etc/passwd</p>\n"),
        ("[a](http://a.example)", "<p>[a](http://a.example)</p>\n"),
        ("<http://a.example>", "<p>&lt;http://a.example&gt;</p>\n"),
        ("&#106;avascript: &lt;b&gt;", "<p>javascript: &lt;b&gt;</p>\n"),
        (
            '`"><img src=x onerror=y>`',
            "<p><code>&quot;&gt;&lt;img src=x onerror=y&gt;</code></p>\n",
        ),
        ("```js\n<script>\n```", '<pre><code class="language-js">&lt;script&gt;\n</code></pre>\n'),
        ("over\n---", "<p>over</p>\n<hr />\n"),
    ],
)
def test_markdown(text: str, html: str) -> None:
    assert block(text) == html


def test_heads_of_markdown_tables_say_their_scope() -> None:
    html = block("| Tap | gpm |\n|---|---|\n| one | 5 |")

    assert html.count('<th scope="col">') == 2


def test_a_script_address_is_no_link() -> None:
    assert "<a" not in block("[x](javascript:alert(1))")


@pytest.mark.parametrize(
    ("text", "kept"),
    [
        ("3 gal", "3\u00a0gal"),
        ("3 1/4 gal", "3\u00a01/4\u00a0gal"),
        ("within 5 %.", "within 5\u00a0%."),
        ("20 fl oz", "20\u00a0fl oz"),
        ("5 minutes", "5 minutes"),
        ("rig 2 has 2 doors", "rig 2 has 2 doors"),
    ],
)
def test_a_number_keeps_its_unit(text: str, kept: str) -> None:
    assert inline(text) == kept


@pytest.mark.parametrize(
    ("iso", "read"),
    [("2026-05-04", "May 4, 2026"), ("2027-12-31", "Dec 31, 2027"), ("soon", "soon"), ("", "")],
)
def test_day(iso: str, read: str) -> None:
    assert day(iso) == read


def test_joined() -> None:
    assert [joined(["a"]), joined(["a", "b"]), joined(["a", "b", "c"], "and")] == [
        "a",
        "a or b",
        "a, b and c",
    ]


def test_a_template_never_prints_a_blank_for_what_is_missing(samples: ModuleType) -> None:
    with pytest.raises(UndefinedError, match="board"):
        render("board.html", samples.SHOP)


def test_every_template_is_used() -> None:
    """A template that nothing names any more should go."""
    folder = environment.HERE
    code = "".join(path.read_text("utf-8") for path in folder.glob("*.py"))
    pages = {path.name: path.read_text("utf-8") for path in (folder / "templates").iterdir()}

    unused = [name for name in pages if f'"{name}"' not in code + "".join(pages.values())]

    assert unused == []
