"""The shapes of sources, reactions and relations: what is true anywhere."""

from __future__ import annotations

from typing import Annotated, Any, Literal

from pydantic import BeforeValidator, Field

from generator.reading.fields import Blank, Day, Id, NameText, Number, Text
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
