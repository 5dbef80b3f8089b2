"""Flow, pressure and weight against published figures, and against a hydraulic library."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest

from generator.maths.exact import half_up
from generator.maths.units import convert, parse_unit
from generator.model.course import Curriculum
from generator.solving.answer import work

TABLE = "published_water.txt"
F = Fraction


def test_a_published_figure_comes_out(curriculum: Curriculum, published: Any) -> None:
    value = work(curriculum.relations[published.relation], published.given, published.find).value
    assert value is not None
    assert abs(value - published.published) <= published.within, published.source


# gpm, C, inside diameter in inches, feet of hose; the last three columns are the pressure lost
# by the sprinkler form of Hazen and Williams (NFPA 13), and by a network run, in psi.
HOSES = [
    ("5.5", 140, "0.375", 200, 269.1, 268.6),
    ("8", 140, "0.5", 200, 132.6, 132.4),
    ("8", 150, "0.625", 100, 19.69, 19.65),
    ("10", 150, "0.75", 100, 12.24, 12.22),
    ("100", 120, "2.067", 100, 9.396, 9.418),
]


def loss(curriculum: Curriculum, gpm: str, c: int, inside: str, feet: int) -> float:
    given = {"gpm": F(gpm), "c": F(c), "inside_in": F(inside), "length_ft": F(feet)}
    value = work(curriculum.relations["hose-loss"], given, "psi").value
    assert value is not None
    return float(value)


@pytest.mark.parametrize(("gpm", "c", "inside", "feet", "nfpa", "network"), HOSES)
def test_hose_loss_is_that_of_the_sprinkler_form(
    curriculum: Curriculum, gpm: str, c: int, inside: str, feet: int, nfpa: float, network: float
) -> None:
    found = loss(curriculum, gpm, c, inside, feet)
    assert found == pytest.approx(nfpa, rel=5e-4)
    assert found == pytest.approx(network, rel=5e-3)


@pytest.mark.filterwarnings("ignore")  # the library's own imports warn
def test_hose_loss_agrees_with_a_network_run(curriculum: Curriculum, tmp_path: Path) -> None:
    wntr = pytest.importorskip("wntr")
    foot, inch, gallon = 0.3048, 0.0254, 0.003785411784
    for gpm, c, inside, feet, _, _ in HOSES:
        network = wntr.network.WaterNetworkModel()
        network.add_reservoir("tap", base_head=2000)
        network.add_junction("end", base_demand=float(F(gpm)) * gallon / 60, elevation=0)
        network.add_pipe(
            "hose", "tap", "end", length=feet * foot, diameter=float(F(inside)) * inch, roughness=c
        )
        network.options.hydraulic.headloss = "H-W"
        results = wntr.sim.WNTRSimulator(network).run_sim()
        head = 2000 - float(results.node["head"]["end"].iloc[0])
        psi = head / foot * 0.433527504  # feet of water at 4 °C
        assert loss(curriculum, gpm, c, inside, feet) == pytest.approx(psi, rel=5e-3)


# Feet of water and psi: Pennsylvania DEP, Basic Math (2020), and a statistics text for
# environmental work, examples 2.57 to 2.60 (copies). Each is printed to the places shown.
HEADS = [("25", "58", "1"), ("40", "92.4", "0.1"), ("45", "104", "1"), ("15", "34.6", "0.1")]


@pytest.mark.parametrize(("psi", "printed", "mark"), HEADS)
def test_head_of_water(psi: str, printed: str, mark: str) -> None:
    # A foot of water presses with its weight, 62.4 lb on a square foot.
    foot_of_water = convert(F("62.4"), parse_unit("lbf/ft**2"), parse_unit("psi"))
    assert abs(F(psi) / foot_of_water - F(printed)) <= F(mark)


def test_a_published_head_is_turned_upside_down() -> None:
    # The same text, example 2.61, prints 288.7 psi for 125 ft: it multiplied by 2.31.
    foot_of_water = convert(F("62.4"), parse_unit("lbf/ft**2"), parse_unit("psi"))
    assert half_up(125 * foot_of_water, F("0.1")) == F("54.2")
    assert abs(125 / F("0.433") - F("288.7")) < F("0.1")


def test_kick_of_real_machines_is_ideal_momentum(curriculum: Curriculum) -> None:
    # rho*Q*sqrt(2P/rho) at 998.2 kg/m3 gives 0.05262 lbf/(gpm*psi**0.5): computed, no source.
    given = {"gpm": F(8), "psi": F(3000)}
    found = work(curriculum.relations["kick"], given, "lbf").value
    assert found is not None
    gallon, psi_in_pascal, pound_in_newton = 0.003785411784, 6894.757293, 4.4482216153
    flow, pressure = 8 * gallon / 60, 3000 * psi_in_pascal
    ideal = flow * (2 * pressure * 998.2) ** 0.5 / pound_in_newton
    assert float(found) == pytest.approx(ideal, rel=1e-3)


def test_a_misprinted_chart_row_does_not_come_out(curriculum: Curriculum) -> None:
    # An equipment supplier's chart (seen) pairs 8.5 gpm at 500 psi with size 10.
    size = work(curriculum.relations["nozzle"], {"gpm": F("8.5"), "psi": F(500)}, "size").value
    assert size is not None
    assert size > 24


def test_a_cubic_foot_of_water_weighs_its_gallons(curriculum: Curriculum) -> None:
    # Virginia DWR, aquatic plants page (seen): 62.4 lb and about 7.5 gal a cubic foot.
    gallons = convert(F(1), parse_unit("cuft"), parse_unit("gal"))
    pounds = work(curriculum.relations["weight"], {"gal": gallons, "sg": F(1)}, "lb").value
    assert pounds is not None
    assert half_up(pounds, F("0.1")) == F("62.4")
    assert half_up(gallons, F("0.1")) == F("7.5")
