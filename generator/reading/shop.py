"""shop.yaml to the Shop."""

from __future__ import annotations

from fractions import Fraction

from generator.model.shop import (
    Head,
    HeadSetting,
    Lapse,
    Limits,
    Rig,
    Rules,
    Shop,
    StockTest,
    Wash,
)
from generator.reading.gather import Gathered
from generator.reading.nodes import Document
from generator.reading.shop_shapes import HeadShape, RigShape, RulesShape, ShopShape, WashShape
from generator.reading.validate import validated

MOST_MARKS = 5
"""Fill marks of a tank: more lines than this on a card and people read the wrong one."""
MOST_SETTINGS, LONGEST_MARKS = 12, 12
"""Settings of a head, and the signs that a box of the card has room for."""


def read_shop(document: Document, gathered: Gathered) -> Shop:
    """The shop in a document. Raises Faults when its shape is wrong; gathers what can't be."""
    shape = validated(ShopShape, document, (), document.data)
    _check_numbers(shape, document, gathered)
    return Shop(
        name=shape.name,
        page=shape.page,
        language=shape.language,
        stock=tuple(shape.stock),
        jug_mark_gal=shape.jug_mark_gal,
        washes=tuple(Wash(id=name, **dict(wash)) for name, wash in shape.washes.items()),
        rigs=tuple(_rig(name, rig) for name, rig in shape.rigs.items()),
        ladders=tuple(shape.ladders),
        rules=_rules(shape.rules),
        limits=Limits(**dict(shape.limits)),
        stock_tests=tuple(StockTest(**dict(test)) for test in shape.stock_tests),
        settled=tuple(shape.settled.items()),
        copy_to=shape.copy_to,
        spanish_checked=shape.spanish_checked,
    )


def _rig(name: str, shape: RigShape) -> Rig:
    return Rig(id=name, **dict(shape) | {"head": _head(shape.head) if shape.head else None})


def _head(shape: HeadShape) -> Head:
    return Head(shape.measured, tuple(HeadSetting(**dict(each)) for each in shape.settings))


def _rules(shape: RulesShape) -> Rules:
    return Rules(shape.renewal_days, shape.grace_days, shape.away_days, Lapse(**dict(shape.lapse)))


def _check_numbers(shape: ShopShape, document: Document, gathered: Gathered) -> None:
    if shape.jug_mark_gal <= 0:
        gathered.add(document, ("jug_mark_gal",), "the jug's mark is not above 0", "write 1/4")
    for place, stock in enumerate(shape.stock):
        if not 0 < stock <= 20:
            gathered.add(document, ("stock", place), "a stock outside 0 to 20%", "check the figure")
    for place, test in enumerate(shape.stock_tests):
        if not 0 < test.tested <= test.new or test.days <= 0:
            what = "stock does not grow stronger, and some days must have passed"
            gathered.add(document, ("stock_tests", place), what, "check the three numbers")
    for name, wash in shape.washes.items():
        if not 0 < wash.strength <= max(shape.stock):
            what = f"{name} is stronger than any stock, or not above 0"
            gathered.add(document, ("washes", name, "strength"), what, "check the figure")
        _check_dwell(name, wash, document, gathered)
    for name, value in dict(shape.limits).items():
        if value <= 0 and name not in ("mix_reserve", "hose_slack", "overlap"):
            gathered.add(
                document, ("limits", name), f"{name} is not above 0", "set your own figure"
            )
    for name, rig in shape.rigs.items():
        _check_rig(name, rig, document, gathered)


def _check_dwell(name: str, wash: WashShape, document: Document, gathered: Gathered) -> None:
    if (wash.dwell_from is None) != (wash.dwell_to is None):
        what = f"{name} has only one end of its dwell time"
        gathered.add(document, ("washes", name), what, "write dwell_from and dwell_to")
    elif wash.dwell_from and wash.dwell_to and not 0 < wash.dwell_from < wash.dwell_to:
        what = f"{name}: the shortest dwell is not below the longest"
        gathered.add(document, ("washes", name, "dwell_to"), what, "check the two times")


def _check_rig(name: str, rig: RigShape, document: Document, gathered: Gathered) -> None:
    numbers = {n: v for n, v in dict(rig).items() if isinstance(v, Fraction)}
    for field, value in numbers.items():
        if value < 0 or (value == 0 and field != "reserve_gal"):
            where = ("rigs", name, field)
            gathered.add(document, where, f"{field} is not above 0", "measure it again")
    if rig.reserve_gal >= rig.tank_gal:
        where = ("rigs", name, "reserve_gal")
        gathered.add(document, where, "the reserve is the whole tank", "write a smaller reserve")
    if len(rig.fill_marks) > MOST_MARKS or any(mark <= 0 for mark in rig.fill_marks):
        what = f"fill_marks should be 1 to {MOST_MARKS} marks above 0"
        gathered.add(document, ("rigs", name, "fill_marks"), what, "write those used most")
    if rig.head:
        _check_head(name, rig.head, document, gathered)


def _check_head(name: str, head: HeadShape, document: Document, gathered: Gathered) -> None:
    where = ("rigs", name, "head")
    if not head.measured:
        what = "the head has no day on which it was measured"
        gathered.add(document, where, what, "write measured: 2026-04-20")
    if len(head.settings) > MOST_SETTINGS:
        what = f"{len(head.settings)} settings of a head"
        gathered.add(document, where, what, f"keep the {MOST_SETTINGS} used most")
    seen: set[str] = set()
    for place, each in enumerate(head.settings):
        at = (*where, "settings", place)
        if each.stock <= 0 or each.water <= 0 or each.soap < 0:
            what = "stock and water must both have run out, or it is no draw-down"
            gathered.add(document, at, what, "measure again: one unit for all three legs")
        if len(each.marks) > LONGEST_MARKS:
            what = f'"{each.marks}" has more than {LONGEST_MARKS} signs'
            gathered.add(document, at, what, "write marks such as 3-8-1: stock, water, soap")
        if each.marks in seen:
            gathered.add(document, at, f'"{each.marks}" stands there twice', "keep one of the two")
        seen.add(each.marks)
