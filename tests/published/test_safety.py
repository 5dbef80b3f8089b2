"""Noise and ladders against published figures."""

from __future__ import annotations

from fractions import Fraction
from math import acos, degrees, log2
from typing import Any

import pytest

from generator.model.course import Curriculum
from generator.solving.answer import work

TABLE = "published_safety.txt"
F = Fraction


def test_a_published_figure_comes_out(curriculum: Curriculum, published: Any) -> None:
    value = work(curriculum.relations[published.relation], published.given, published.find).value
    assert value is not None
    assert abs(value - published.published) <= published.within, published.source


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
