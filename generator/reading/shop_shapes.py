"""The shape of shop.yaml."""

from __future__ import annotations

from fractions import Fraction
from typing import Annotated, Literal

from pydantic import Field

from generator.model.shop import Limits
from generator.reading.fields import Blank, Day, Days, Flag, Id, Number, Share, Text
from generator.reading.shapes import Shape


class WashShape(Shape):
    """A kind of wash in shop.yaml."""

    title: Text
    strength: Number
    soap: Number
    coverage: Number | None = None
    dwell_from: Number | None = None
    dwell_to: Number | None = None


class HeadSettingShape(Shape):
    """A setting of a mixing head, and what each leg gave."""

    marks: Text
    stock: Number
    water: Number
    soap: Number = Fraction(0)


class HeadShape(Shape):
    """The draw-down of a mixing head."""

    measured: Day
    settings: Annotated[list[HeadSettingShape], Field(min_length=1)]


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
    head: HeadShape | None = None


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
    hazard: Flag = True
    equipment: Flag = True
    strength_test: Flag = True
    suspended: Flag = True


class RulesShape(Shape):
    """Clocks of the record, in days, and what lapses a clearance."""

    renewal_days: Days = 365
    grace_days: Days = 14
    away_days: Days = 90
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
    ladders: Annotated[list[Number], Field(min_length=1)] = Field(
        default=[Fraction(24), Fraction(28)]
    )
    limits: LimitsShape = LimitsShape()
    stock_tests: list[StockTestShape] = Field(default=[])
    rules: RulesShape = RulesShape()
    copy_to: Blank = ""
    settled: dict[Text, Blank] = Field(default={})
    spanish_checked: Day = ""
