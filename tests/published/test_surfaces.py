"""Work on the ground: fans, jets, lanes and clear zones against figures and libraries."""

from __future__ import annotations

from fractions import Fraction
from math import atan, ceil, degrees, pi, sqrt

import pytest

from generator.model.course import Curriculum
from generator.solving.answer import work

F = Fraction


def worked(curriculum: Curriculum, relation: str, find: str, **given: Fraction | int) -> Fraction:
    numbers = {name: F(value) for name, value in given.items()}
    value = work(curriculum.relations[relation], numbers, find).value
    assert value is not None
    return value


@pytest.mark.parametrize("psi", [100, 500, 1000, 2500, 3000, 4000])
def test_a_jet_is_as_fast_as_its_pressure_makes_it(curriculum: Curriculum, psi: int) -> None:
    # Bernoulli: half of density times speed squared is the pressure. Water at 15 °C is
    # 999.1 kg/m3 (IAPWS-95); the trade's two rounded factors are within 0.2 %.
    pint = pytest.importorskip("pint")
    unit = pint.UnitRegistry()
    speed = ((2 * psi * unit.psi / (999.1 * unit.kg / unit.m**3)) ** 0.5).to("mph").magnitude
    assert float(worked(curriculum, "jet-speed", "mph", psi=psi)) == pytest.approx(speed, rel=2e-3)


@pytest.mark.parametrize("angle", [15, 25, 40])
def test_a_wide_fan_is_as_fast_as_a_narrow_one(curriculum: Curriculum, angle: int) -> None:
    plain = worked(curriculum, "jet-speed", "mph", psi=3000)
    assert worked(curriculum, "jet-speed", "mph", psi=3000, angle=angle) == plain


def test_four_times_the_pressure_is_twice_the_speed(curriculum: Curriculum) -> None:
    slow = worked(curriculum, "jet-speed", "mph", psi=900)
    assert abs(worked(curriculum, "jet-speed", "mph", psi=3600) / slow - 2) < F(1, 10**30)


@pytest.mark.parametrize("angle", [15, 25, 40])
@pytest.mark.parametrize("standoff", [6, 12, 24, 48])
def test_a_fan_is_a_triangle(curriculum: Curriculum, angle: int, standoff: int) -> None:
    width = worked(curriculum, "fan-width", "width_in", angle=angle, standoff_in=standoff)
    assert degrees(2 * atan(float(width) / 2 / standoff)) == pytest.approx(angle, abs=1e-9)
    # Half of it is what must lie between the aim and the glass.
    back = worked(curriculum, "glass-standoff", "standoff_in", angle=angle, aim_in=width / 2)
    assert abs(back - standoff) < F(1, 10**25)


@pytest.mark.parametrize("jets", [1, 2, 3, 4])
def test_jets_share_the_flow_of_one_nozzle(curriculum: Curriculum, jets: int) -> None:
    # The nozzle rule itself is held against charts in the table of the water relations.
    each = worked(curriculum, "cleaner-jets", "size", gpm=8, jets=jets, psi=3500)
    whole = worked(curriculum, "nozzle", "size", gpm=8, psi=3500)
    assert abs(each * jets - whole) < F(1, 10**25)
    assert float(whole) == pytest.approx(8 * sqrt(4000 / 3500))


@pytest.mark.parametrize("jets", [2, 3, 4])
def test_jets_of_the_whole_size_drop_the_pressure(curriculum: Curriculum, jets: int) -> None:
    # A jet of the machine's own size at 4,000 psi; n of them: one nth of the flow, 1/n² of it.
    assert worked(curriculum, "cleaner-jets", "psi", gpm=8, jets=jets, size=8) == F(4000, jets**2)


@pytest.mark.parametrize("width", range(4, 40))
@pytest.mark.parametrize("overlap", [F(1, 5), F(3, 10), F(1, 3), F(1, 2)])
def test_passes_cover_the_drive_and_one_fewer_does_not(
    curriculum: Curriculum, width: int, overlap: Fraction
) -> None:
    passes = worked(curriculum, "passes", "passes", width_ft=width, disc_in=20, overlap=overlap)
    covered = [20 + (n - 1) * 20 * (1 - overlap) for n in (passes - 1, passes)]
    assert covered[0] < 12 * width <= covered[1]


@pytest.mark.parametrize("radius", [10, 25, 40])
@pytest.mark.parametrize("spacing", [5, 10, 15])
def test_no_two_cones_of_a_ring_are_too_far_apart(
    curriculum: Curriculum, radius: int, spacing: int
) -> None:
    cones = worked(curriculum, "cones", "cones", radius_ft=radius, spacing_ft=spacing)
    assert cones == ceil(2 * pi * radius / spacing)
    assert 2 * pi * radius / cones <= spacing < 2 * pi * radius / (cones - 1)


@pytest.mark.parametrize("length", range(20, 130, 7))
def test_cones_along_a_walk_counted_one_by_one(curriculum: Curriculum, length: int) -> None:
    row = 1
    while (row - 1) * 8 < length:
        row += 1
    cones = worked(curriculum, "cones-walk", "cones", length_ft=length, spacing_ft=8)
    assert cones == 2 * row


@pytest.mark.parametrize("zone", [40, 50])
def test_a_zone_with_no_room_inside_cannot_be_worked(curriculum: Curriculum, zone: int) -> None:
    given = {"zone_ft": F(zone), "people_ft": F(25), "wall_ft": F(120)}
    assert work(curriculum.relations["zone-set-ups"], given, "set_ups").word == "cannot"
