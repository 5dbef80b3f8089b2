"""The shapes of rig-card.yaml and of first-day.yaml."""

from __future__ import annotations

from typing import Annotated

from pydantic import Field

from generator.reading.fields import Flag, Id, NameText, Text
from generator.reading.shapes import Shape


class SaidShape(Shape):
    """The same words in two languages."""

    en: Text
    es: Text


class EmergencyShape(Shape):
    """A line of the emergency card."""

    id: Id
    title: SaidShape
    do: SaidShape
    sources: Annotated[list[Id], Field(min_length=1)]


class MeetingShape(Shape):
    """Families that one must never meet."""

    one: Id
    other: Id
    letters: Text


class CardShape(Shape):
    """rig-card.yaml."""

    spanish_read: Flag
    emergencies: Annotated[list[EmergencyShape], Field(min_length=1)]
    letters: dict[Text, SaidShape]
    families: dict[Id, SaidShape]
    never: Annotated[list[MeetingShape], Field(min_length=1)]


class LineShape(SaidShape):
    """A line of the leaflet."""

    blank: Flag = False


class PictureShape(Shape):
    """A figure by name, with what a person who can't see it is told."""

    figure: Id
    alt: Text
    with_: dict[NameText, Text] = Field(default={}, alias="with")


class LeafletPageShape(Shape):
    """A page of the leaflet."""

    title: SaidShape
    pictures: Annotated[list[PictureShape], Field(max_length=2)] = Field(default=[])
    wear: list[Id] = Field(default=[])
    lines: Annotated[list[LineShape], Field(max_length=6)] = Field(default=[])


class LeafletShape(Shape):
    """first-day.yaml: eight pages, so that two sheets fold into it."""

    pages: Annotated[list[LeafletPageShape], Field(min_length=8, max_length=8)]
