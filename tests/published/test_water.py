"""Flow, pressure and weight against published figures, and against a hydraulic library."""

from __future__ import annotations

from fractions import Fraction
from math import pi
from pathlib import Path

import pytest

from generator.maths.exact import half_up
from generator.maths.units import convert, parse_unit
from generator.model.course import Curriculum
from generator.solving.answer import work

F = Fraction


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


@pytest.mark.filterwarnings("ignore")  # the library's own imports warn
def test_hose_loss_agrees_with_smooth_pipe_by_darcy(curriculum: Curriculum) -> None:
    # Drawn tube (1.5 micrometers rough) at 20 °C: smooth pipe is near C = 150, and takes about
    # 11 % less than C = 140.
    fluids = pytest.importorskip("fluids")
    foot, inch, gallon, pascal = 0.3048, 0.0254, 0.003785411784, 6894.757293
    for gpm, c, inside, feet, _, _ in HOSES[:4]:
        diameter = float(F(inside)) * inch
        speed = float(F(gpm)) * gallon / 60 / (pi / 4 * diameter**2)
        reynolds = fluids.Reynolds(V=speed, D=diameter, rho=998.2, mu=1.0016e-3)
        factor = fluids.friction_factor(Re=reynolds, eD=1.5e-6 / diameter)
        psi = factor * feet * foot / diameter * 998.2 * speed**2 / 2 / pascal
        if c == 150:
            assert loss(curriculum, gpm, c, inside, feet) == pytest.approx(psi, rel=0.02)
        else:
            share = psi / loss(curriculum, gpm, c, inside, feet)
            assert share == pytest.approx(0.89, abs=0.01)


def test_a_loss_turned_round_gives_the_hose_back(curriculum: Curriculum) -> None:
    relation = curriculum.relations["hose-loss"]
    given = {"gpm": F("5.5"), "c": F(150), "inside_in": F(3, 8), "length_ft": F(200)}
    psi = work(relation, given, "psi").value
    assert psi is not None
    for find in given:
        others = {name: value for name, value in given.items() if name != find} | {"psi": psi}
        found = work(relation, others, find).value
        assert found is not None
        assert float(found) == pytest.approx(float(given[find]), rel=1e-12), find


def test_a_soft_hose_is_judged_from_its_own_loss(curriculum: Curriculum) -> None:
    # The trade's example: 5 gpm, 200 ft of half-inch hose, C = 150, 20 ft up: 57.58 psi.
    per_100 = F(loss(curriculum, "5", 150, "0.5", 100))
    given = {"per_100": per_100, "length_ft": F(200), "lift_ft": F(20)}
    relation = curriculum.relations["soft-hose"]
    need = work(relation, given, "need").value
    assert need is not None
    assert half_up(need, F("0.01")) == F("57.58")
    words = {40: "too-thin", 48: "too-thin", 50: "ground-only", 57: "ground-only", 58: "will-do"}
    for pump, word in words.items():
        assert work(relation, given | {"pump_psi": F(pump)}, "verdict").word == word


# A word where there is no number: relation, what is asked, what is given, the word.
WORDS = [
    ("run-dry", "minutes", {"gal": "200", "out_gpm": "5", "in_gpm": "5"}, "never"),
    (
        "run-dry-duty",
        "minutes",
        {"gal": "100", "out_gpm": "8", "duty": "50", "in_gpm": "4"},
        "never",
    ),
    (
        "two-machines",
        "minutes",
        {"gal": "300", "first_gpm": "3", "second_gpm": "3", "in_gpm": "6"},
        "never",
    ),
    ("wait-first", "wait", {"job": "50", "out_gpm": "8", "in_gpm": "5", "now": "150"}, "start-now"),
    (
        "wait-first",
        "wait",
        {"job": "90", "out_gpm": "8", "in_gpm": "5", "now": "150", "full": "269"},
        "cannot",
    ),
    (
        "battery-time",
        "hours",
        {"ah": "100", "charge": "50", "floor": "50", "amps": "14"},
        "charge-first",
    ),
    ("filter-loss", "loss", {"good_gpm": "5", "now_gpm": "6"}, "none"),
]


@pytest.mark.parametrize(("name", "find", "given", "word"), WORDS)
def test_a_word_stands_where_no_number_can(
    curriculum: Curriculum, name: str, find: str, given: dict[str, str], word: str
) -> None:
    numbers = {quantity: F(value) for quantity, value in given.items()}
    assert work(curriculum.relations[name], numbers, find).word == word


def test_all_the_time_is_the_plain_run_dry(curriculum: Curriculum) -> None:
    given = {"gal": F(250), "out_gpm": F("5.5"), "in_gpm": F(3)}
    plain = work(curriculum.relations["run-dry"], given, "minutes").value
    held = work(curriculum.relations["run-dry-duty"], given | {"duty": F(100)}, "minutes").value
    assert plain == held == 100


def test_a_wait_is_just_long_enough(curriculum: Curriculum) -> None:
    # After the wait the tank runs dry at the very end of the job.
    given = {"job": F(60), "out_gpm": F("5.5"), "in_gpm": F(2), "now": F(100)}
    wait = work(curriculum.relations["wait-first"], given, "wait").value
    assert wait is not None
    held = {"gal": 100 + 2 * wait, "out_gpm": F("5.5"), "in_gpm": F(2)}
    assert work(curriculum.relations["run-dry"], held, "minutes").value == 60


@pytest.mark.parametrize("inside", ["0.25", "0.375", "0.5", "0.625", "0.75", "1"])
def test_the_crew_rule_for_a_hose_is_near_the_exact_one(
    curriculum: Curriculum, inside: str
) -> None:
    given = {"inside_in": F(inside), "length_ft": F(200)}
    exact = work(curriculum.relations["hose-volume"], given, "gal").value
    rule = work(curriculum.relations["hose-rule"], given, "gal").value
    assert exact is not None
    assert rule is not None
    assert abs(rule / exact - 1) < F(1, 10000)


def test_units_agree_with_a_unit_library(curriculum: Curriculum) -> None:
    pint = pytest.importorskip("pint")
    units = pint.UnitRegistry()
    hose = pi / 4 * (0.625 * units.inch) ** 2 * (200 * units.foot)
    rise, water = 70 * units.delta_degF, 8.34 * units.Btu / units.gallon / units.delta_degF
    heating = 0.5 * units.gallon * water * rise / (3 * units.hp)
    burning = 8 * units.gallon / units.minute * water * 120 * units.delta_degF
    expected = {
        ("hose-volume", "gal", "inside_in=0.625 length_ft=200"): hose.to("gallon"),
        ("bypass-heat", "minutes", "hp=3 gal=0.5 start=70 stop=140"): heating.to("minute"),
        # The trade says 500 where 8.34 × 60 is 500.4.
        ("burner-fuel", "gph", "gpm=8 rise=120 heat_share=0.8"): burning.to("Btu/hour")
        / (0.8 * 138500 * units.Btu / units.gallon),
        ("water-head", "psi", "feet=40"): (40 * units.foot_H2O).to("psi"),
    }
    near = {"burner-fuel": 1e-3, "water-head": 2e-3}
    for (name, find, text), quantity in expected.items():
        given = {key: F(value) for key, value in (pair.split("=") for pair in text.split())}
        value = work(curriculum.relations[name], given, find).value
        assert value is not None
        wanted = quantity.magnitude
        assert float(value) == pytest.approx(wanted, rel=near.get(name, 1e-6)), name


@pytest.mark.parametrize(("psi", "feet"), [("40", "92.4"), ("15", "34.6")])
def test_head_of_water_from_its_weight(curriculum: Curriculum, psi: str, feet: str) -> None:
    # A foot of water presses with its weight, 62.4 lb on a square foot.
    foot_of_water = convert(F("62.4"), parse_unit("lbf/ft**2"), parse_unit("psi"))
    assert abs(F(psi) / foot_of_water - F(feet)) <= F("0.1")
    found = work(curriculum.relations["water-head"], {"psi": F(psi)}, "feet").value
    assert found is not None
    assert abs(found * foot_of_water / F(psi) - 1) < F(1, 1000)


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
