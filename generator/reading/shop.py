"""shop.yaml to the Shop."""

from __future__ import annotations

from fractions import Fraction

from generator.model.shop import Lapse, Limits, Rig, Rules, Shop, StockTest, Wash
from generator.reading.gather import Gathered
from generator.reading.nodes import Document
from generator.reading.shop_shapes import RigShape, RulesShape, ShopShape, WashShape
from generator.reading.validate import validated

MOST_MARKS = 5
"""Fill marks of a tank: more lines than this on a card and people read the wrong one."""


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
        rigs=tuple(Rig(id=name, **dict(rig)) for name, rig in shape.rigs.items()),
        ladders=tuple(shape.ladders),
        rules=_rules(shape.rules),
        limits=Limits(**dict(shape.limits)),
        stock_tests=tuple(StockTest(**dict(test)) for test in shape.stock_tests),
        settled=tuple(shape.settled.items()),
        copy_to=shape.copy_to,
        spanish_checked=shape.spanish_checked,
    )


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
