"""The shapes of problems: what is drawn, asked and gone wrong with."""

from __future__ import annotations

from fractions import Fraction
from typing import Annotated, Any, Literal

from pydantic import Discriminator, Field, Tag

from generator.reading.fields import Flag, Id, NameText, Number, Text, Values
from generator.reading.shapes import Shape


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
