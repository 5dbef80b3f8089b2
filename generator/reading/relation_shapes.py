"""The shapes of sources, reactions, relations and problems: what is true, and what is drawn."""

from __future__ import annotations

from fractions import Fraction
from typing import Annotated, Any, Literal

from pydantic import BeforeValidator, Discriminator, Field, Tag

from generator.reading.fields import Blank, Day, Flag, Id, NameText, Number, Text, Values
from generator.reading.shapes import Shape


class SourceShape(Shape):
    """An entry of sources.yaml."""

    title: Text
    read: Literal["seen", "copy", "practice", "worked"]
    checked: Day = ""  # wanted for what was published


class QuantityShape(Shape):
    """A quantity of a relation; a bare unit is short for {unit: …}."""

    unit: Text
    label: Text
    from_: Number | None = Field(default=None, alias="from")
    to: Number | None = None
    default: Text | None = None


class WordShape(Shape):
    """A word that replaces the number."""

    word: Id
    tell: Blank = ""
    when: Text | None = None


class WholeShape(Shape):
    """Rounding up to whole units, or to the next size owned."""

    up: Text
    else_: Id = Field(default="none", alias="else")


def _quantity(value: Any) -> Any:
    return {"unit": value, "label": "_"} if isinstance(value, str) else value


QuantityField = Annotated[QuantityShape, BeforeValidator(_quantity)]


class ConstantShape(Shape):
    """A constant worked out from chemistry: a molar mass, or what a reaction gives."""

    molar: Text | None = None
    reaction: Id | None = None
    get: Text | None = None
    from_: Text | None = Field(default=None, alias="from")


class ReactionShape(Shape):
    """An entry of reactions.yaml."""

    title: Text
    from_: Annotated[list[Text], Field(min_length=1, max_length=8, alias="from")]
    to: Annotated[list[Text], Field(min_length=1, max_length=8)]
    sources: Annotated[list[Id], Field(min_length=1)]


class RelationShape(Shape):
    """An entry of relations/*.yaml."""

    title: Text
    quantities: dict[NameText, QuantityField]
    rows: dict[NameText, QuantityField] = Field(default={})
    constants: dict[NameText, Text | ConstantShape] = Field(default={})
    equations: Annotated[list[Text], Field(min_length=1)]
    convention: Text
    unless: list[WordShape] = Field(default=[])
    verdict: list[WordShape] = Field(default=[])
    whole: dict[NameText, WholeShape] = Field(default={})
    examples: Annotated[list[dict[str, Any]], Field(min_length=1)]
    sources: Annotated[list[Id], Field(min_length=1)]


class RangeShape(Shape):
    """A draw from evenly spaced values."""

    from_: Number = Field(alias="from")
    to: Number
    step: Number


def _form(value: Any) -> str:
    """Which form was written, so that a mistake in one is not also called a mistake in another."""
    if isinstance(value, dict):
        return "RangeShape"
    rows = isinstance(value, list) and value and all(isinstance(row, dict) for row in value)
    return "rows" if rows else "list[Text]"


Spread = Annotated[
    Annotated[RangeShape, Tag("RangeShape")] | Annotated[Values, Tag("list[Text]")],
    Discriminator(_form),
]
Draw = Annotated[
    Annotated[RangeShape, Tag("RangeShape")]
    | Annotated[Values, Tag("list[Text]")]
    | Annotated[list[dict[NameText, Spread]], Tag("rows")],
    Discriminator(_form),
]


class SlipShape(Shape):
    """A wrong way."""

    name: Text
    tell: Text
    gives: Text | None = None
    word: Id | None = None


class ProblemShape(Shape):
    """An entry of problems.yaml."""

    relation: Id
    find: NameText
    lesson: Id | None = None
    level: Literal["crew", "chief", "owner"] = "crew"
    ask: Text
    draw: dict[NameText, Draw]
    keep: list[Text] = Field(default=[])
    mark: Number
    round: Literal["nearest", "down", "up"] = "nearest"
    must: Flag = False
    words: Number = Fraction(0)
    slips: Annotated[dict[Id, SlipShape], Field(min_length=1)]
