"""Numbers typed into lessons that shop.yaml holds: named with their look-up, and facts let be."""

from __future__ import annotations

import pytest

from generator.errors import Fault
from generator.model.course import Curriculum
from generator.reading.nodes import parse_text
from generator.reading.stated import stated
from generator.workflows.typed_numbers import typed_warnings

TYPED = {  # a text: the look-up it should have been (the demo shop's numbers)
    "The water tank of Rig 1 holds 275 gal.": "shop.rig-1.tank_gal",
    "Rig 1's tank holds 275 gallons.": "shop.rig-1.tank_gal",
    "Our stock arrives at 12.5%.": "shop.stock.1",
    "People stay 25 feet away.": "shop.limit.people_ft",
    "Keep a clear zone of 25 ft.": "shop.limit.people_ft",
    "House wash is 1%.": "shop.wash.house",
    "House wash takes 1.5 fl oz of soap for each gallon.": "shop.wash.house.soap",
    "A house wash dwells 5 minutes.": "shop.wash.house.dwell_from",
    "The machine makes 3,000 psi.": "shop.rig-1.machine_psi",
    "The machine gives 5 1/2 gallons a minute.": "shop.rig-1.machine_gpm",
    "Lanes overlap by 30%.": "shop.limit.overlap",
    "No spray in a wind above 12 mph.": "shop.limit.wind_mph",
    "The 20-inch hood.": "shop.rig-1.cleaner_in",
}
FACTS = [
    "Flush the eye at least 15 minutes.",  # 15 minutes is also how long the engine cools
    "NIOSH calls 10 ppm immediately dangerous.",
    "Water weighs 8.34 lb a gallon.",
    "1% is 10,000 ppm.",
    "Put 3 in the van.",
    "Rig 2 has a tank, and 275 gal is not its size.",
    "The tank holds {shop.rig-1.tank_gal}.",
    "A sample of 2.75 gal from the tank.",
]


def warned(curriculum: Curriculum, text: str, *allowed: str) -> list[Fault]:
    ok = "".join(f"typed_ok: [{each!r}]\n" for each in allowed)
    document = parse_text(f'title: t\nwhy: "{text}"\npoints: []\n{ok}', "c/modules/m/l.yaml")
    return list(typed_warnings(curriculum.shop, {document.file: document}))


@pytest.mark.parametrize("text", TYPED)
def test_a_typed_number_of_the_shop_is_named_with_its_look_up(
    text: str, curriculum: Curriculum
) -> None:
    (warning,) = warned(curriculum, text)
    assert (warning.file, warning.line) == ("c/modules/m/l.yaml", 2)
    assert f"{{{TYPED[text]}}}" in warning.next


@pytest.mark.parametrize("text", FACTS)
def test_a_fact_is_let_be(text: str, curriculum: Curriculum) -> None:
    assert warned(curriculum, text) == []


def test_a_lesson_may_keep_a_number(curriculum: Curriculum) -> None:
    assert warned(curriculum, "Our stock arrives at 12.5%.", "12.5%") == []
    assert warned(curriculum, "The 20-inch hood.", "20 inch") == []


def test_numbers_are_read_as_lessons_write_them() -> None:
    read = [(unit, value) for _, unit, value in stated("3,000 psi, 2 1/2 gal, 1/4 gal and 5 $.")]
    assert [(unit, float(value)) for unit, value in read] == [
        ("psi", 3000.0),
        ("gal", 2.5),
        ("gal", 0.25),
    ]
