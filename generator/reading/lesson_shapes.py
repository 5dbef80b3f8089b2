"""The shapes of lessons and modules."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from generator.reading.fields import Blank, Count, Days, Flag, Id, NameText, Number, Text, Whole
from generator.reading.shapes import Shape


class PointShape(Shape):
    """A point of a lesson."""

    id: Id
    title: Text
    text: Text


class CautionShape(Shape):
    """A caution of a lesson."""

    id: Id
    signal: Literal["danger", "warning", "caution", "notice"]
    title: Text
    happens: Text
    do: Text
    call: Blank = ""
    sources: list[Id] = Field(default=[])


class CheckShape(Shape):
    """A hands-on check."""

    id: Id
    do: Text
    pass_: Text = Field(alias="pass")


class PutRightShape(Shape):
    """A loose idea put right."""

    idea: Text
    right: Text


class NumberShape(Shape):
    """A look-up worked from a relation."""

    relation: Id
    find: NameText
    with_: dict[NameText, Text] = Field(alias="with")
    mark: Number | None = None
    round: Literal["nearest", "down", "up"] = "nearest"


class FigureShape(Shape):
    """A figure of a lesson."""

    figure: Id
    caption: Text
    alt: Text
    with_: dict[NameText, Text] = Field(default={}, alias="with")


class OptionShape(Shape):
    """One of three options."""

    text: Text
    reason: Text
    right: Flag = False


class QuestionShape(Shape):
    """A question: three options, or an order."""

    id: Id
    ask: Text
    must: Flag = False
    options: list[OptionShape] = Field(default=[])
    order: list[Text] = Field(default=[])
    reason: Blank = ""


class LessonShape(Shape):
    """A lesson file."""

    title: Text
    aim: Text
    minutes: Whole
    why: Blank = ""
    points: Annotated[list[PointShape], Field(min_length=1)]
    steps: list[Text] = Field(default=[])
    cautions: list[CautionShape] = Field(default=[])
    checks: list[CheckShape] = Field(default=[])
    put_right: list[PutRightShape] = Field(default=[])
    numbers: dict[NameText, NumberShape] = Field(default={})
    figures: list[FigureShape] = Field(default=[])
    examples: list[Id] = Field(default=[])
    practice: list[Id] = Field(default=[])
    questions: list[QuestionShape] = Field(default=[])
    sources: list[Id] = Field(default=[])
    typed_ok: list[Text] = Field(default=[])


class PaperShape(Shape):
    """What a paper of the module holds."""

    write_in: Count
    choice: Count
    cut: Whole
    tries: Count = 2
    days_between: Days = 1
    practice: Count = 0
    practice_cut: Count = 0
    must: Annotated[list[Id], Field(max_length=5)] = Field(default=[])
    strip: list[Id] = Field(default=[])
    exception: Flag = True


class SkillLineShape(Shape):
    """A line of the sign-off sheet."""

    id: Id
    do: Text
    look: Text
    must: Flag = False


class SignOffShape(Shape):
    """The sign-off sheet."""

    per_rig: Flag = False
    lines: Annotated[list[SkillLineShape], Field(min_length=1, max_length=10)]


class MayShape(Shape):
    """What the result slip says a person may do."""

    passed: Text
    not_yet: Text


class ChangeShape(Shape):
    """What an edition changed, for the re-brief sheet."""

    edition: Whole
    what: Annotated[list[Text], Field(min_length=1, max_length=6)]
    lessons: Annotated[list[Id], Field(min_length=1)]


class ModuleShape(Shape):
    """module.yaml."""

    title: Text
    short: Text
    edition: Whole
    wording: Blank = ""
    aim: Text
    requires: list[Id] = Field(default=[])
    grants: Id | None = None
    covers: Blank = ""
    changed: ChangeShape | None = None
    lessons: Annotated[list[Id], Field(min_length=1)]
    may: MayShape
    paper: PaperShape
    signoff: SignOffShape
