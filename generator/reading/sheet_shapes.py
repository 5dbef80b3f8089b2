"""The shapes of the files in sheets/."""

from __future__ import annotations

from fractions import Fraction
from typing import Annotated, Any, Literal

from pydantic import BeforeValidator, Discriminator, Field, Tag
from pydantic_core import PydanticCustomError

from generator.errors import nearest
from generator.reading.fields import Id, NameText, Number, Text, Values, Whole
from generator.reading.lesson_shapes import CautionShape
from generator.reading.shapes import Shape


class _BlockShape(Shape):
    title: Text | None = None


class WordsShape(_BlockShape):
    """A text."""

    text: Text


class FieldsShape(_BlockShape):
    """Texts with ___ where people write, as long as the underscores; bare words get a line."""

    fields: Annotated[Values, Field(min_length=1)]


class ChooseShape(_BlockShape):
    """Boxes in a row; `of` is a list, or shop.rigs, shop.washes, shop.stock."""

    choose: Text
    of: Annotated[Values, Field(min_length=1)]


class ChecksShape(_BlockShape):
    """Lines to check."""

    checks: Annotated[list[Text], Field(min_length=1)]
    boxes: Annotated[list[Text], Field(min_length=1, max_length=3)] = Field(default=["OK", "FAIL"])


class ColumnShape(Shape):
    """A column; bare words are short for {head: …}."""

    head: Text
    width: Number = Fraction(1)


def _column(value: Any) -> Any:
    return {"head": value} if isinstance(value, str) else value


class TableShape(_BlockShape):
    """A ruled table with so many empty rows."""

    table: Annotated[
        list[Annotated[ColumnShape, BeforeValidator(_column)]], Field(min_length=1, max_length=12)
    ]
    rows: Whole
    height: Number = Fraction(9)
    first: list[Text] = Field(default=[])


class WriteShape(_BlockShape):
    """A question with lines for the answer."""

    write: Text
    lines: Whole = 2


class SignShape(_BlockShape):
    """Signatures."""

    sign: Annotated[Values, Field(min_length=1)]


class FormulaShape(Shape):
    """A formula of a relation: what to find, from what."""

    relation: Id
    find: NameText
    from_: Annotated[list[NameText], Field(alias="from", min_length=1)]


class FormulasShape(_BlockShape):
    """Formulas of relations."""

    formulas: Annotated[list[FormulaShape], Field(min_length=1)]


class WarnShape(_BlockShape):
    """A caution."""

    caution: CautionShape


class SettledShape(_BlockShape):
    """The questions of shop.yaml under settled:."""

    settled: Literal["all"]


class ReviewsShape(_BlockShape):
    """The review days of a season of so many days."""

    reviews: Whole


class CutShape(_BlockShape):
    """Blocks repeated under each name, to be cut out."""

    cut: Annotated[list[Text], Field(min_length=1)]
    across: Whole = 2
    blocks: Annotated[list[BlockField], Field(min_length=1)]


_KINDS = {
    "text": "WordsShape",
    "fields": "FieldsShape",
    "choose": "ChooseShape",
    "checks": "ChecksShape",
    "table": "TableShape",
    "write": "WriteShape",
    "sign": "SignShape",
    "formulas": "FormulasShape",
    "caution": "WarnShape",
    "settled": "SettledShape",
    "reviews": "ReviewsShape",
    "cut": "CutShape",
}


def _kind(value: Any) -> str:
    found = [kind for kind in _KINDS if isinstance(value, dict) and kind in value]
    return _KINDS[found[0]] if found else "WordsShape"


def _of_one_kind(value: Any) -> Any:
    """A block names its kind by the one key that says what it is."""
    kinds = [kind for kind in _KINDS if isinstance(value, dict) and kind in value]
    if len(kinds) == 1:
        return value
    if kinds:
        what, next = f"a block is both {' and '.join(kinds)}", "make two blocks of it"
    else:
        words = list(value) if isinstance(value, dict) else [str(value)]
        what = f"no block is known by {', '.join(words)}"
        next = nearest(words[0] if words else "", _KINDS)
    raise PydanticCustomError("refusal", "{what}", {"what": what, "next": next})


BlockField = Annotated[
    Annotated[
        Annotated[WordsShape, Tag("WordsShape")]
        | Annotated[FieldsShape, Tag("FieldsShape")]
        | Annotated[ChooseShape, Tag("ChooseShape")]
        | Annotated[ChecksShape, Tag("ChecksShape")]
        | Annotated[TableShape, Tag("TableShape")]
        | Annotated[WriteShape, Tag("WriteShape")]
        | Annotated[SignShape, Tag("SignShape")]
        | Annotated[FormulasShape, Tag("FormulasShape")]
        | Annotated[WarnShape, Tag("WarnShape")]
        | Annotated[SettledShape, Tag("SettledShape")]
        | Annotated[ReviewsShape, Tag("ReviewsShape")]
        | Annotated[CutShape, Tag("CutShape")],
        Discriminator(_kind),
    ],
    BeforeValidator(_of_one_kind),
]


class SheetShape(Shape):
    """A file in sheets/."""

    title: Text
    for_: Text = Field(alias="for")
    page: Literal["upright", "sideways"] = "upright"
    blocks: Annotated[list[BlockField], Field(min_length=1)]
    sources: list[Id] = Field(default=[])


CutShape.model_rebuild()
SheetShape.model_rebuild()
