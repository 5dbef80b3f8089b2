"""How pages are made: one Jinja2 environment, Markdown, dates, units, drawings.

Only our own templates are templates. Curriculum text is data: it is Markdown without HTML, and
braces in it mean nothing here.
"""

from __future__ import annotations

import re
from base64 import b64encode
from collections.abc import Callable, Sequence
from datetime import date
from fractions import Fraction
from functools import lru_cache, partial
from pathlib import Path
from typing import Any

from jinja2 import Environment, FileSystemLoader, StrictUndefined
from markdown_it import MarkdownIt
from markdown_it.renderer import RendererHTML
from markdown_it.token import Token
from markdown_it.utils import EnvType, OptionsDict
from markupsafe import Markup

from generator.maths.amounts import amount_text
from generator.maths.units import UNIT_NAMES, parse_unit, shown
from generator.model.item import LETTERS
from generator.model.shop import Shop
from generator.printing.files import one_line
from generator.words import LANGUAGES, WRITTEN_IN, answer_word, enumerated, language_name, words

HERE = Path(__file__).parent
_SIZES = {"letter": "letter", "a4": "A4"}
_HALVES = {"letter": "5.5in 8.5in", "a4": "A5"}
_UNITS = {shown(parse_unit(name), say) for name in UNIT_NAMES for say in LANGUAGES}
_WORDED = sorted(filter(re.compile(r"[^\W\d_]+(?: [^\W\d_]+)*").fullmatch, _UNITS))
_BEFORE_UNIT = re.compile(rf"(?<=\d) (?=(?:{'|'.join(_WORDED)})\b|%|\d+/\d)")


def render(
    template: str, shop: Shop, *, landscape: bool = False, half: bool = False, **data: Any
) -> str:
    """The template filled in, for the shop's page size or half of it, two of which fold from one.

    `data` must hold every name the template uses; a missing one is an error, never a blank.
    """
    size = _HALVES[shop.page] if half else _SIZES[shop.page] + (" landscape" if landscape else "")
    data = {"language": shop.language} | data
    page = _environment(data["language"]).get_template(template)
    return page.render(shop=shop, size=size, half=half, **data)


@lru_cache(maxsize=len(LANGUAGES))
def _environment(language: str) -> Environment:
    """The templates of one language; `w` holds its words."""
    made = Environment(
        loader=FileSystemLoader(HERE / "templates"),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )
    made.filters.update(md=block, inline=inline, language_name=language_name)
    for name, said in _SAID.items():
        made.filters[name] = partial(said, language=language)
    made.globals.update(letters=LETTERS, one_line=one_line, w=words(language))
    return made


@lru_cache(maxsize=1)
def _markdown() -> MarkdownIt:
    """CommonMark and tables, without HTML, and without what would lead out of the page.

    Headings have an order that is the page's own.
    """
    made = MarkdownIt("commonmark", {"html": False}).enable("table")
    made.disable(["heading", "lheading", "link", "autolink", "image", "reference"])
    made.add_render_rule("th_open", _column_head)
    return made


def _column_head(
    renderer: RendererHTML, tokens: Sequence[Token], at: int, options: OptionsDict, env: EnvType
) -> str:
    """Readers for the blind need to know which cells a head belongs to."""
    tokens[at].attrSet("scope", "col")
    return renderer.renderToken(tokens, at, options, env)


def block(text: str) -> Markup:
    """Markdown as paragraphs, lists and tables."""
    return Markup(_markdown().render(_kept_together(text)))


def inline(text: str) -> Markup:
    """Markdown within a line: emphasis, but no paragraphs."""
    return Markup(_markdown().renderInline(_kept_together(text)))


def _kept_together(text: str) -> str:
    """No line ends between a number and its unit, or within 3 1/4."""
    return _BEFORE_UNIT.sub("\u00a0", text)


def day(iso: str, language: str = WRITTEN_IN) -> str:
    """An ISO date for readers; any other text stays as it is.

    >>> day("2026-05-04")
    'May 4, 2026'
    """
    try:
        when = date.fromisoformat(iso)
    except ValueError:
        return iso
    months = words(language)["months"]
    return months["day"].format(month=months[str(when.month)], day=when.day, year=when.year)


def unit_words(unit: str, language: str = WRITTEN_IN) -> str:
    """The unit as printed; "" where a plain number or a word is the answer."""
    return shown(parse_unit(unit), language) if unit else ""


def amount(value: Fraction, unit: str, language: str = WRITTEN_IN) -> str:
    """A number with its unit."""
    return amount_text(value, parse_unit(unit or "1"), language=language)


def joined(things: Sequence[str], last: str = "or", language: str = WRITTEN_IN) -> str:
    """`a, b or c`."""
    return enumerated(list(things), language, last)


def answers(names: Sequence[str], language: str = WRITTEN_IN) -> str:
    """Word answers by their names, as printed: `never, cannot or too strong`."""
    return enumerated([answer_word(name, language) for name in names], language)


_SAID: dict[str, Callable[..., str]]
_SAID = {"day": day, "unit": unit_words, "joined": joined, "answers": answers}


def picture(svg: str) -> str:
    """A drawing as the address of an image; equal drawings are kept once."""
    return "data:image/svg+xml;base64," + b64encode(svg.encode()).decode()
