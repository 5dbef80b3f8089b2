"""Noise, heat, gases, eye flush and ladders against published figures."""

from __future__ import annotations

from fractions import Fraction
from math import acos, degrees, log2

import pytest

from generator.model.course import Curriculum
from generator.solving.answer import work

F = Fraction


def test_half_the_osha_dose_is_the_action_level(curriculum: Curriculum) -> None:
    # OSHA 29 CFR 1910.95 (copy): 85 dBA for 8 hours is half a dose.
    allowed = work(curriculum.relations["noise-osha"], {"dba": F(85)}, "hours").value
    assert allowed == 16
    assert F(8) / allowed == F(1, 2)


@pytest.mark.parametrize("dba", range(80, 131))
def test_noise_tables_follow_their_exchange_rate(curriculum: Curriculum, dba: int) -> None:
    # OSHA T = 8/2**((L - 90)/5); NIOSH T = 8/2**((L - 85)/3).
    for name, limit, step in (("noise-osha", 90, 5), ("noise-niosh", 85, 3)):
        hours = work(curriculum.relations[name], {"dba": F(dba)}, "hours").value
        assert hours is not None
        assert log2(float(hours) / 8) == pytest.approx(-(dba - limit) / step, abs=1e-9)


@pytest.mark.parametrize(
    ("dba", "hours"), [(85, 8), (88, 4), (91, 2), (94, 1), (97, F(1, 2)), (100, F(1, 4))]
)
def test_each_row_of_the_niosh_table_is_a_whole_dose(
    curriculum: Curriculum, dba: int, hours: Fraction
) -> None:
    # NIOSH, noise exposure limit (copy): each row of its table is 100 % of a day.
    rows = {"level": (F(dba),), "hours": (F(hours),)}
    assert work(curriculum.relations["noise-dose"], rows, "dose").value == 100


def test_doses_of_a_day_add_up(curriculum: Curriculum) -> None:
    # Trade arithmetic, re-computed: 2 h at 94 dBA and 1 h at 91 dBA are 250 % of a day.
    rows = {"level": (F(94), F(91)), "hours": (F(2), F(1))}
    assert work(curriculum.relations["noise-dose"], rows, "dose").value == 250


def test_carbon_monoxide_over_a_day(curriculum: Curriculum) -> None:
    # Trade arithmetic, re-computed; the 200 ppm ceiling is NIOSH 1972 (seen).
    relation = curriculum.relations["co-average"]
    rows = {"level": (F(120), F(40)), "hours": (F(1), F(3))}
    assert work(relation, rows, "average").value == 30
    peak = {"level": (F(201), F(10)), "hours": (F(1, 60), F(7))}
    assert work(relation, peak, "average").word == "over-ceiling"


def test_chlorine_of_a_closed_van_from_the_gas_law(curriculum: Curriculum) -> None:
    # Ideal gas at 25 °C and 1 atm with the constants of scipy, the molar mass of molmass.
    constants = pytest.importorskip("scipy.constants")
    molmass = pytest.importorskip("molmass")
    pint = pytest.importorskip("pint")
    cup = pint.UnitRegistry().Quantity(1, "cup").to("mL").magnitude
    grams = cup * 0.125  # trade percent is grams in 100 mL
    moles = grams / molmass.Formula("Cl2").mass
    liters = moles * constants.R * (273.15 + 25) / constants.atm * 1000
    given = {"stock": F("12.5"), "amount": F(8), "van": F("353.1467")}
    relation = curriculum.relations["closed-van"]
    for find, expected in (("grams", grams), ("liters", liters), ("ppm", liters * 100)):
        value = work(relation, given, find).value
        assert value is not None
        assert float(value) == pytest.approx(expected, rel=1e-3), find


def test_the_short_rule_of_the_closed_van(curriculum: Curriculum) -> None:
    # The short rule rounds the gas of an ounce of 1 % in a cubic foot to 3,600 ppm.
    given = {"amount": F(1), "van": F(1)}
    full = work(curriculum.relations["closed-van"], {"stock": F(1), **given}, "ppm").value
    short = work(curriculum.relations["van-gas"], {"percent": F(1), **given}, "ppm").value
    assert short == 3600
    assert full is not None
    assert float(full) == pytest.approx(3600, rel=1e-3)


def test_a_quarter_of_the_support_length_is_the_test_angle(curriculum: Curriculum) -> None:
    # OSHA 29 CFR 1926.1053(a)(1)(ii) (copy) tests ladders at 75 1/2 degrees from level.
    foot = work(curriculum.relations["ladder-foot"], {"working_ft": F(20)}, "foot_ft").value
    assert foot == 5
    assert degrees(acos(float(foot) / 20)) == pytest.approx(75.5, abs=0.05)


def test_support_length_of_a_twenty_foot_eave(curriculum: Curriculum) -> None:
    # Computed: height² = length² − (length/4)², so 20 ft of ladder reaches 19.36 ft up.
    foot = work(curriculum.relations["ladder-foot"], {"working_ft": F(20)}, "foot_ft").value
    assert foot is not None
    assert (400 - float(foot) ** 2) ** 0.5 == pytest.approx(19.36, abs=0.01)
    eave = work(curriculum.relations["ladder-foot"], {"working_ft": F("20.656")}, "foot_ft").value
    assert eave is not None
    assert (20.656**2 - float(eave) ** 2) ** 0.5 == pytest.approx(20, abs=0.001)
