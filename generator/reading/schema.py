"""The shapes of the files, as authors write them; every scalar arrives as text.

The declaration is the reference: a field without a default must be there, an unknown one is a
fault.
"""

from __future__ import annotations

from fractions import Fraction
from typing import Annotated, Any, Literal

from pydantic import BaseModel, BeforeValidator, ConfigDict, Discriminator, Field, Tag

from generator.model.shop import Limits
from generator.reading.fields import (
    Blank,
    Day,
    Flag,
    Id,
    NameText,
    Number,
    Share,
    Text,
    Values,
    Whole,
)


class Shape(BaseModel):
    """A mapping with known keys."""

    model_config = ConfigDict(extra="forbid", frozen=True)


class WashShape(Shape):
    """A kind of wash in shop.yaml."""

    title: Text
    strength: Number
    soap: Number
    coverage: Number | None = None
    dwell_from: Number | None = None
    dwell_to: Number | None = None


class RigShape(Shape):
    """A rig in shop.yaml."""

    name: Text
    kind: Text
    tank_gal: Number
    reserve_gal: Number
    machine_gpm: Number
    machine_psi: Number
    stock_tank_gal: Number
    chemical_gpm: Number
    siphon_gpm: Number | None = None
    hose_in: Number = Fraction(3, 8)
    hose_ft: Number = Fraction(200)
    cleaner_in: Number = Fraction(20)
    soft_hose_in: Number | None = None
    soft_hose_ft: Number | None = None
    pump_psi: Number | None = None
    fuel_gal: Number | None = None
    fuel_gph: Number | None = None
    battery_ah: Number | None = None
    pump_a: Number | None = None
    gvwr_lb: Number | None = None
    empty_lb: Number | None = None
    fill_marks: tuple[Number, ...] = ()


class StockTestShape(Shape):
    """A test of the stock, some days after delivery."""

    new: Number
    days: Number
    tested: Number


class LimitsShape(Shape):
    """The owner's distances, times and shares, as in the model."""

    people_ft: Number = Limits.people_ft
    glass_ft: Number = Limits.glass_ft
    cone_ft: Number = Limits.cone_ft
    line_ft: Number = Limits.line_ft
    wind_mph: Number = Limits.wind_mph
    bypass_min: Number = Limits.bypass_min
    look_min: Number = Limits.look_min
    refuel_min: Number = Limits.refuel_min
    water_f: Number = Limits.water_f
    rest_f: Number = Limits.rest_f
    drink_oz: Number = Limits.drink_oz
    drink_most_oz: Number = Limits.drink_most_oz
    overlap: Share = Limits.overlap
    mix_reserve: Share = Limits.mix_reserve
    hose_slack: Share = Limits.hose_slack


class LapseShape(Shape):
    """What takes a clearance away until it is proved again."""

    renewal: Flag = True
    away: Flag = True
    new_edition: Flag = True
    incident: Flag = True
    suspended: Flag = True


class RulesShape(Shape):
    """Clocks of the record, in days, and what lapses a clearance."""

    renewal_days: Whole = 365
    grace_days: Whole = 14
    away_days: Whole = 90
    lapse: LapseShape = LapseShape()


class ShopShape(Shape):
    """shop.yaml."""

    name: Text
    page: Literal["letter", "a4"] = "letter"
    language: Literal["en", "es"] = "en"
    stock: Annotated[list[Number], Field(min_length=1)]
    jug_mark_gal: Number
    washes: dict[Id, WashShape]
    rigs: Annotated[dict[Id, RigShape], Field(min_length=1)]
    ladders: Annotated[list[Number], Field(min_length=1)] = [Fraction(24), Fraction(28)]
    limits: LimitsShape = LimitsShape()
    stock_tests: list[StockTestShape] = []
    rules: RulesShape = RulesShape()
    copy_to: Blank = ""
    settled: dict[Text, Blank] = {}
    spanish_checked: Day = ""


class SourceShape(Shape):
    """An entry of sources.yaml."""

    title: Text
    read: Literal["seen", "copy", "practice", "worked"]


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
    from_: Annotated[list[Text], Field(min_length=1, alias="from")]
    to: Annotated[list[Text], Field(min_length=1)]
    sources: Annotated[list[Id], Field(min_length=1)]


class RelationShape(Shape):
    """An entry of relations/*.yaml."""

    title: Text
    quantities: dict[NameText, QuantityField]
    rows: dict[NameText, QuantityField] = {}
    constants: dict[NameText, Text | ConstantShape] = {}
    equations: Annotated[list[Text], Field(min_length=1)]
    convention: Text
    unless: list[WordShape] = []
    verdict: list[WordShape] = []
    whole: dict[NameText, WholeShape] = {}
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
    keep: list[Text] = []
    mark: Number
    round: Literal["nearest", "down", "up"] = "nearest"
    must: Flag = False
    words: Number = Fraction(0)
    slips: Annotated[dict[Id, SlipShape], Field(min_length=1)]


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
    sources: list[Id] = []


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
    options: list[OptionShape] = []
    order: list[Text] = []
    reason: Blank = ""


class LessonShape(Shape):
    """A lesson file."""

    title: Text
    aim: Text
    minutes: Whole
    why: Blank = ""
    points: Annotated[list[PointShape], Field(min_length=1)]
    steps: list[Text] = []
    cautions: list[CautionShape] = []
    checks: list[CheckShape] = []
    put_right: list[PutRightShape] = []
    numbers: dict[NameText, NumberShape] = {}
    figures: list[FigureShape] = []
    examples: list[Id] = []
    practice: list[Id] = []
    questions: list[QuestionShape] = []
    sources: list[Id] = []
    typed_ok: list[Text] = []


class PaperShape(Shape):
    """What a paper of the module holds."""

    write_in: Whole
    choice: Whole
    cut: Whole
    tries: Whole = 2
    days_between: Whole = 1
    practice: Whole = 0
    must: Annotated[list[Id], Field(max_length=5)] = []
    strip: list[Id] = []
    exception: Flag = True


class LineShape(Shape):
    """A line of the sign-off sheet."""

    id: Id
    do: Text
    look: Text
    must: Flag = False


class SignOffShape(Shape):
    """The sign-off sheet."""

    per_rig: Flag = False
    lines: Annotated[list[LineShape], Field(min_length=1, max_length=10)]


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
    requires: list[Id] = []
    grants: Id | None = None
    covers: Blank = ""
    changed: ChangeShape | None = None
    lessons: Annotated[list[Id], Field(min_length=1)]
    may: MayShape
    paper: PaperShape
    signoff: SignOffShape
