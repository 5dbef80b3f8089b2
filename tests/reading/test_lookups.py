"""Look-ups in texts: found, offered when mistyped, left out when the shop has no such thing."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest

from generator.errors import Refusal
from generator.model.course import Curriculum
from generator.model.shop import Shop
from generator.reading.lookups import ABSENT, filled, looked_up, rig_values, settings


@pytest.fixture(scope="module")
def shop(curriculum: Curriculum) -> Shop:
    return curriculum.shop


@pytest.fixture(scope="module")
def small(shop: Shop) -> Shop:
    """The same with one rig and one stock."""
    return replace(shop, rigs=shop.rigs[:1], stock=shop.stock[:1])


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("{shop.name}", "Larkspur Bend Exterior Cleaning"),
        ("Stock at {shop.stock.1}.", "Stock at 12.5%."),
        ("{shop.stock}", "12.5% or 10%"),
        ("{ shop.wash.roof }", "3%"),
        ("{shop.rig-1.tank_gal} and {shop.rig-2.tank_gal}", "275 gal and 100 gal"),
        ("{shop.rig-1.usable_gal}", "250 gal"),
        ("{shop.ladders}", "24 ft, 28 ft or 32 ft"),
        ("{shop.rig-2.name}", "Rig 2"),
        ("no look-up, 50 % of it", "no look-up, 50 % of it"),
    ],
)
def test_a_look_up_prints_with_its_unit(text: str, expected: str, shop: Shop) -> None:
    assert filled(text, settings(shop)) == expected


@pytest.mark.parametrize(
    ("name", "offered"),
    [
        ("shop.nam", "shop.name"),
        ("shop.wash.hause", "shop.wash.house"),
        ("shop.rig-1.tank_gall", "shop.rig-1.tank_gal"),
        ("shop.rig-9.tank_gallons", "shop.rig-2.tank_gal"),
        ("shop.wash.hause.coverage", "shop.wash.house.coverage"),
    ],
)
def test_an_unknown_name_offers_the_nearest(name: str, offered: str, shop: Shop) -> None:
    with pytest.raises(Refusal) as raised:
        filled(f"see {{{name}}}", settings(shop))
    assert raised.value.what == f'"{{{name}}}" is not a known look-up'
    assert raised.value.next == f'did you mean "{offered}"?'


@pytest.mark.parametrize("text", ["{1 + 1}", "{shop.name.upper()}", "{shop.name!r}", "{}"])
def test_a_look_up_is_never_an_expression(text: str, shop: Shop) -> None:
    with pytest.raises(Refusal, match="is not a known look-up"):
        filled(text, settings(shop))


def test_a_line_about_what_the_shop_does_not_have_is_left_out(shop: Shop, small: Shop) -> None:
    text = "first {shop.stock.1}\nsecond {shop.stock.2}\nand {shop.rig-2.tank_gal}\nlast"
    assert filled(text, settings(small)) == "first 12.5%\nlast"
    assert filled(text, settings(shop)) == "first 12.5%\nsecond 10%\nand 100 gal\nlast"


def test_what_the_owner_has_not_measured_is_left_out(shop: Shop) -> None:
    bare = replace(shop.washes[0], coverage=None, dwell_from=None, dwell_to=None)
    light = replace(shop.rigs[0], gvwr_lb=None)
    table = settings(replace(shop, washes=(bare,), rigs=(light,), stock_tests=()))
    for name in ("wash.house.coverage", "wash.house.dwell_to", "rig-1.gvwr_lb", "stock_half"):
        assert looked_up(f"shop.{name}", table) is ABSENT


def test_what_another_rig_could_not_have_either_is_a_fault(small: Shop) -> None:
    assert looked_up("shop.rig-2.tank_gal", settings(small)) is ABSENT
    with pytest.raises(Refusal):
        looked_up("shop.rig-2.colour", settings(small))


def test_names_left_for_later_are_kept(shop: Shop) -> None:
    text = filled("{total} at {shop.wash.house}", settings(shop), frozenset({"total"}))
    assert text == "{total} at 1%"


def test_the_numbers_of_a_rig_have_units_and_the_usable_gallons(shop: Shop) -> None:
    values = rig_values(shop.rigs[1])
    assert values["usable_gal"].values == (Fraction(90),)
    assert values["machine_psi"].text == "2,500 psi"
    assert values["hose_in"].text == "3/8 in"
