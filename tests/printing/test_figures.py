"""Figures: each draws what it is given, says its numbers with units, refuses what it can't draw."""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from itertools import combinations
from pathlib import Path
from xml.etree import ElementTree as ET

import pytest
import yaml
from fontTools.ttLib import TTFont
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.errors import Refusal
from generator.model.course import Curriculum
from generator.printing.figures import FIGURES, draw, families, heat_schedule, pen, van_weights
from generator.printing.figures.pen import label
from generator.solving.answer import work
from generator.words.letters import FONTS, letters_of_font

NUMBERED = [name for name, figure in FIGURES.items() if figure.needs]
FOLDER = Path(__file__).parents[2] / "curriculum"
SVG = "{http://www.w3.org/2000/svg}"

_CARD = yaml.safe_load((FOLDER / "rig-card.yaml").read_text(encoding="utf-8"))
CHART: dict[str, str] = {name: said["en"] for name, said in _CARD["families"].items()}
CHART |= {f"{each['one']}/{each['other']}": each["letters"] for each in _CARD["never"]}

# name, numbers, words that must stand in the drawing
CASES: list[tuple[str, dict[str, str], list[str]]] = [
    (
        "head-parts",
        {"stock": "12.5", "bleach": "3", "water": "6", "soap": "1"},
        ["3 parts stock of 12.5%", "1 part soap", "Stock is 3 of 10 parts", "On the wall: 3.75%"],
    ),
    (
        "head-parts",
        {"stock": "10", "bleach": "2", "water": "8", "soap": "0"},
        ["no soap", "On the wall: 2%"],
    ),
    (
        "drain-down",
        {"gal": "200", "out_gpm": "8", "in_gpm": "5"},
        ["falls 3 gpm", "dry after 66 min"],
    ),
    ("drain-down", {"gal": "90", "out_gpm": "4", "in_gpm": "4"}, ["never runs dry"]),
    ("drain-down", {"gal": "90", "out_gpm": "4", "in_gpm": "6"}, ["never runs dry"]),
    (
        "lanes",
        {"width_ft": "18", "disc_in": "20", "overlap": "0.3"},
        ["18 ft wide", "15 passes, 20 in wide", "washed twice: 30%"],
    ),
    ("lanes", {"width_ft": "1", "disc_in": "20", "overlap": "0.3"}, ["1 pass, 20 in wide"]),
    (
        "stones-windows",
        {"radius_ft": "25", "glass_ft": "10"},
        ["people: 25 ft off", "bare glass: 10 ft off"],
    ),
    ("water-side", {}, ["1 tap", "6 unloader", "9 tip", "dashed: back to the tank"]),
    (
        "batch-bar",
        {"stock": "12.5", "target": "1.2", "total": "30", "amount": "2.88"},
        ["first water, to the 27.12 gal mark", "then 2.88 gal of 12.5% stock"],
    ),
    ("ratio-fraction", {"water_parts": "4"}, ["1 + 4 = 5 parts: 1/5", "1 + 3 = 4 parts: 1/4"]),
    (
        "two-stage",
        {"stock": "12.5", "bleach_gal": "3", "water_gal": "2", "draw_gpm": "0.8",
         "machine_gpm": "8"},
        ["bucket: 7.5%", "0.68%"],
    ),
    (
        "top-up",
        {"have_gal": "20", "have_pct": "1", "want_gal": "50", "want_pct": "3", "stock": "12.5"},
        ["in the tank: 20 gal at 1%", "add water: 19.6 gal", "add 12.5% stock: 10.4 gal"],
    ),
    (  # a sliver of stock on top of a tank, and two slivers
        "batch-bar",
        {"stock": "12.5", "target": "0.1", "total": "275", "amount": "2.2"},
        ["to the 272.8 gal mark", "then 2.2 gal of 12.5% stock"],
    ),
    (
        "top-up",
        {"have_gal": "48", "have_pct": "1", "want_gal": "50", "want_pct": "1.2", "stock": "12"},
        ["add water: 1 gal", "add 12% stock: 1 gal"],
    ),
    ("ageing", {"new": "12.5", "half": "60"}, ["12.5%", "6.25%", "60"]),
    (
        "chemical-side",
        {"stock_gal": "60", "pump_gpm": "7"},
        ["stock 60 gal", "7 gpm", "strainer", "1 valve under the stock tank"],
    ),
    ("start-stop", {}, ["engine outside", "engine on", "engine off", "only now undo"]),
    (
        "tip-sizes",
        {"gpm": "5.5", "psi": "3000", "size": "6.351"},
        ["0° needle", "40°", "size 6.35 fits", "5.5 gpm, 3,000 psi"],
    ),
    (
        "hose-lag",
        {"gal": "2.04", "gpm": "7", "seconds": "17.49"},
        ["still holds 2.04 gal of old mix", "18 s later", "flow 7 gpm"],
    ),
    (
        "hose-route",
        {"truck_ft": "60", "around_ft": "180", "slack": "0.1"},
        ["60 ft + 90 ft = 150 ft", "plus 10% slack: lay 165 ft"],
    ),
    (
        "dilution-card",
        {"tested": "10.4", "target": "1", "total": "50", "mark": "1/4"},
        ["today's test: 10.4%", "higher number:", "too strong", "4 1/2", "3 3/4", "mark, 1/4 gal"],
    ),
    (
        "head-valves",
        {"stock": "12.5", "bleach": "3", "water": "6", "soap": "1"},
        ["stock 12.5%", "6 parts", "1 part", "3.75%", "of 10 parts"],
    ),
    ("head-valves", {"stock": "10", "bleach": "1", "water": "4", "soap": "0"}, ["shut", "2%"]),
    (
        "wall-gable",
        {"around_ft": "170", "height_ft": "10", "base_ft": "30", "rise_ft": "10"},
        ["30 ft × 10 ft ÷ 2", "= 150 sq ft", "170 ft × 10 ft", "= 1,700 sq ft"],
    ),
    (
        "roof-slope",
        {"footprint_sqft": "1800", "rise_in": "6", "area_sqft": "2012.46"},
        ["roof: 2,012 sq ft", "its shadow: 1,800 sq ft", "6 in up"],
    ),
    (
        "dwell-same",
        {"area": "200", "apply": "60", "rinse": "40", "wait": "5", "least": "5", "longest": "10"},
        ["same end", "wet 8.33 min", "wet 10 min", "from 5 min to 10 min"],
    ),
    (
        "dwell-reverse",
        {"area": "120", "apply": "60", "rinse": "40", "wait": "5", "least": "5", "longest": "10"},
        ["rinsed back", "wet 10 min", "wet 5 min"],
    ),
    ("plants", {}, ["before", "during", "after", "leaves never dry"]),
    ("downspout", {}, ["left to dump", "caught", "turned"]),
    ("storm-drain", {}, ["plant cleans it", "nothing in between", "river"]),
    (
        "dam",
        {"width_ft": "4", "length_ft": "10", "deep_in": "3", "gal": "37.4"},
        ["4 ft wide", "10 ft long", "3 in deep", "37.4 gal", "half the box"],
    ),
    ("families", CHART, ["Pool chlorine", "Neutralizer", "One family a day", "GFP"]),
    ("two-strips", {}, ["pH", "chlorine", "Test the tap first."]),
    ("three-places", {}, ["bleach", "fuel", "acid", "people, food"]),
    ("upwind", {}, ["leave upwind and uphill", "gas lies low", "wind"]),
    (
        "closed-van",
        {"stock": "12.5", "van_cuft": "360", "ppm": "1000", "danger_ppm": "10"},
        ["1 cup of stock", "360 cu ft", "1,000 ppm", "10 ppm: dangerous to life"],
    ),
    (
        "eyewash",
        {"minutes": "15", "gpm": "0.4", "gal": "6"},
        ["15 min", "0.4 gpm", "6 gal", "empty after 37 s"],
    ),
    ("cuffs", {}, ["hands low", "hands high", "trousers over the boots"]),
    ("stop-signal", {}, ["both arms up, crossed", "let go", "start again"]),
    (
        "clear-zone",
        {"people_ft": "25", "cone_ft": "10", "cones": "16"},
        ["16 cones", "no farther apart than 10 ft", "people stay 25 ft"],
    ),
    (
        "ladder-triangle",
        {"support_ft": "20.66", "foot_in": "62", "past_ft": "3"},
        ["20.66 ft", "foot out 62 in", "3 ft past", "none past"],
    ),
    (
        "power-line",
        {"line_ft": "10", "ladder_ft": "28"},
        ["keep 10 ft off any line", "28 ft ladder + 10 ft = 38 ft"],
    ),
    (
        "noise-halving",
        {"dba": "85", "minutes": "480", "step": "3"},
        ["85 dBA", "8 h", "100 dBA", "15 min", "3 dBA more: half the time"],
    ),
    ("heat-schedule", {"shift": "8"}, ["1.6 h", "4.8 h", "day 5", "new to the heat"]),
    (
        "van-weights",
        {"gvwr_lb": "9000", "empty_lb": "6400", "water_gal": "100", "stock_gal": "30",
         "sg": "1.17", "crew_lb": "400"},
        ["plate: 9,000 lb at most", "1,073 lb", "left to load", "stock, 30 gal: 293 lb"],
    ),
    (
        "van-weights",
        {"gvwr_lb": "7000", "empty_lb": "6400", "water_gal": "100", "stock_gal": "30",
         "sg": "1.17", "crew_lb": "400"},
        ["overloaded by", "927 lb"],
    ),
    (
        "fan-width",
        {"angle": "40", "near_in": "12", "near_width_in": "8.735", "far_in": "24",
         "far_width_in": "17.47"},
        ["tip 12 in from the wall", "fan 8.74 in wide", "tip 24 in", "fan 17.47 in wide"],
    ),
    ("ladder-buckle", {}, ["buckle between", "top three rungs:", "past a rail:"]),
]  # fmt: skip

# name, numbers, what the refusal must name
UNDRAWABLE: list[tuple[str, dict[str, str], str]] = [
    ("head-parts", {"stock": "12.5", "bleach": "0", "water": "6", "soap": "1"}, "bleach is 0"),
    ("head-parts", {"stock": "12.5", "bleach": "1", "water": "6", "soap": "-1"}, "soap is -1"),
    ("drain-down", {"gal": "-5", "out_gpm": "8", "in_gpm": "5"}, "gal is -5"),
    ("lanes", {"width_ft": "18", "disc_in": "20", "overlap": "1"}, "overlap is 1"),
    ("lanes", {"width_ft": "900", "disc_in": "16", "overlap": "0.5"}, "it takes"),
    ("batch-bar", {"stock": "10", "target": "2", "total": "5", "amount": "6"}, "amount is more"),
    ("ratio-fraction", {"water_parts": "1.5"}, "water_parts is 3/2"),
    ("ratio-fraction", {"water_parts": "21"}, "water_parts is 21"),
    (
        "top-up",
        {"have_gal": "20", "have_pct": "6", "want_gal": "30", "want_pct": "1", "stock": "10"},
        "too strong",
    ),
    (
        "top-up",
        {"have_gal": "20", "have_pct": "1", "want_gal": "21", "want_pct": "5", "stock": "10"},
        "even all stock",
    ),
    ("ageing", {"new": "12.5", "half": "0"}, "half is 0"),
    ("tip-sizes", {"gpm": "500", "psi": "10", "size": "10000"}, "size is 10000"),
    (
        "dilution-card",
        {"tested": "6.5", "target": "1", "total": "50", "mark": "1/4"},
        "from 7 to 13",
    ),
    (
        "dilution-card",
        {"tested": "12", "target": "0.1", "total": "5", "mark": "1/4"},
        "a column has no gallons",
    ),
    ("head-valves", {"stock": "12.5", "bleach": "1", "water": "60", "soap": "0"}, "a hair"),
    ("head-valves", {"stock": "12.5", "bleach": "1", "water": "6", "soap": "-2"}, "soap is -2"),
    ("roof-slope", {"footprint_sqft": "10", "rise_in": "6", "area_sqft": "9"}, "smaller than"),
    ("roof-slope", {"footprint_sqft": "10", "rise_in": "40", "area_sqft": "90"}, "rise_in is 40"),
    ("eyewash", {"minutes": "90", "gpm": "0.4", "gal": "36"}, "too many jugs"),
    ("clear-zone", {"people_ft": "25", "cone_ft": "10", "cones": "15.7"}, "cones is 157/10"),
    ("clear-zone", {"people_ft": "25", "cone_ft": "1", "cones": "158"}, "cones is 158"),
    ("ladder-triangle", {"support_ft": "4", "foot_in": "50", "past_ft": "3"}, "farther out"),
    (
        "fan-width",
        {"angle": "40", "near_in": "12", "near_width_in": "9", "far_in": "12", "far_width_in": "9"},
        "near_in is not less",
    ),
    ("power-line", {"line_ft": "-10", "ladder_ft": "28"}, "line_ft is -10"),
]


def words(svg: str) -> list[str]:
    """The lines of text in a drawing; the drawing must be well-formed."""
    root = ET.fromstring(svg)
    return [text.text or "" for text in root.iter(f"{SVG}text")]


def exact(numbers: dict[str, str]) -> dict[str, Fraction | str]:
    if numbers is CHART:
        return dict(numbers)
    return {name: Fraction(value) for name, value in numbers.items()}


@pytest.mark.parametrize(("name", "numbers", "wanted"), CASES)
def test_says_its_numbers(name: str, numbers: dict[str, str], wanted: list[str]) -> None:
    said = " | ".join(words(draw(name, exact(numbers))))

    assert [text for text in wanted if text not in said] == []


@pytest.mark.parametrize(("name", "numbers", "what"), UNDRAWABLE)
def test_refuses_what_it_cannot_draw(name: str, numbers: dict[str, str], what: str) -> None:
    with pytest.raises(Refusal, match=re.escape(what)):
        draw(name, exact(numbers))


def test_every_figure_has_a_case() -> None:
    assert {name for name, *_ in CASES} == set(FIGURES)


@pytest.mark.parametrize("name", sorted(FIGURES.keys() - {"families"}))  # it is drawn from a chart
def test_needs_are_what_it_uses(name: str) -> None:
    """The numbers of a case are exactly the needs, and each of them is missed when left out."""
    numbers = exact(next(numbers for case, numbers, _ in CASES if case == name))

    assert set(numbers) == set(FIGURES[name].needs)
    for left_out in numbers:
        rest = {key: value for key, value in numbers.items() if key != left_out}
        with pytest.raises(Refusal, match=f"lacks {left_out}"):
            draw(name, rest)


def test_an_unknown_figure_is_named_with_the_nearest() -> None:
    with pytest.raises(Refusal, match='did you mean "batch-bar"'):
        draw("batch-bars", {})


def test_a_word_is_no_number() -> None:
    with pytest.raises(Refusal, match="water_parts is never"):
        draw("ratio-fraction", {"water_parts": "never"})


@dataclass(frozen=True)
class Words:
    """A line of text, and the box it takes on the sheet: left, top, right, bottom."""

    text: str
    box: tuple[float, float, float, float]

    def hits(self, other: Words) -> bool:
        """Whether the ink of two lines of text would touch."""
        left, top, right, bottom = self.box
        other_left, other_top, other_right, other_bottom = other.box
        across = left < other_right and other_left < right
        return across and top < other_bottom and other_top < bottom


@lru_cache(maxsize=2)
def widths(face: str) -> dict[str, float]:
    """How wide each character is, for type of size 1."""
    with TTFont(FONTS / f"SourceSansPro-{face}.ttf") as font:
        metrics, em = font["hmtx"], font["head"].unitsPerEm
        return {chr(code): metrics[glyph][0] / em for code, glyph in font.getBestCmap().items()}


def lettering(svg: str) -> list[Words]:
    """Every line of text with its box; a capital is 0.66 of the size high, a tail 0.21 deep."""
    found = []
    for text in ET.fromstring(svg).iter(f"{SVG}text"):
        words, size = text.text or "", float(text.attrib["font-size"])
        wide = widths("Semibold" if text.attrib["font-weight"] == "600" else "Regular")
        length = sum(wide[letter] for letter in words) * size
        x, y = float(text.attrib["x"]), float(text.attrib["y"])
        left = x - {"start": 0, "middle": length / 2, "end": length}[text.attrib["text-anchor"]]
        found.append(Words(words, (left, y - 0.66 * size, left + length, y + 0.21 * size)))
    return found


def badly_set(svg: str) -> list[str]:
    """Lines of text that leave the sheet, or run into each other."""
    _, _, width, height = map(float, ET.fromstring(svg).attrib["viewBox"].split())
    lines = lettering(svg)
    out = [
        f"{line.text} leaves the sheet"
        for line in lines
        if line.box[0] < 0 or line.box[1] < 0 or line.box[2] > width or line.box[3] > height
    ]
    pairs = combinations(lines, 2)
    return out + [f"{one.text} runs into {two.text}" for one, two in pairs if one.hits(two)]


@pytest.mark.parametrize(("name", "numbers", "wanted"), CASES)
def test_words_stay_on_the_sheet_and_apart(
    name: str, numbers: dict[str, str], wanted: list[str]
) -> None:
    assert badly_set(draw(name, exact(numbers))) == []


@pytest.mark.parametrize(("name", "numbers", "wanted"), CASES)
def test_is_drawn_in_black_and_grey(name: str, numbers: dict[str, str], wanted: list[str]) -> None:
    colours = set(re.findall(r"#[0-9a-fA-F]{6}\b", draw(name, exact(numbers))))

    assert colours
    assert [each for each in colours if len({each[1:3], each[3:5], each[5:7]}) > 1] == []


@pytest.mark.parametrize(("name", "numbers", "wanted"), CASES)
def test_few_sizes_of_type_and_nothing_small(
    name: str, numbers: dict[str, str], wanted: list[str]
) -> None:
    root = ET.fromstring(draw(name, exact(numbers)))
    sizes = {float(text.attrib["font-size"]) for text in root.iter(f"{SVG}text")}

    assert sizes <= {11, pen.NOTE, pen.HEAD, pen.BIG}
    assert name == "families" or 11 not in sizes


@pytest.mark.parametrize("name", NUMBERED)
@settings(max_examples=15, deadline=None)
@given(data=st.data())
def test_draws_or_refuses_whatever_comes(name: str, data: st.DataObject) -> None:
    """Well-formed SVG whose letters the font has and that is well set, or a Refusal."""
    number = st.fractions(-10, 500, max_denominator=16)
    numbers = {need: data.draw(number, label=need) for need in FIGURES[name].needs}
    try:
        drawn = draw(name, dict(numbers))
    except Refusal:
        return

    assert set("".join(words(drawn))) <= letters_of_font()
    assert badly_set(drawn) == []


@pytest.mark.parametrize("name", NUMBERED)
@settings(max_examples=15, deadline=None)
@given(data=st.data())
def test_stays_well_set_when_a_shop_sets_its_own_numbers(name: str, data: st.DataObject) -> None:
    """Each number of the first case made up to four times larger, or smaller."""
    numbers = exact(next(numbers for case, numbers, _ in CASES if case == name))
    factors = st.sampled_from([Fraction(n, 8) for n in (2, 4, 7, 8, 9, 12, 16, 32)])
    changed = {key: value * data.draw(factors, label=key) for key, value in numbers.items()}
    try:
        drawn = draw(name, dict(changed))
    except Refusal:
        return

    assert badly_set(drawn) == []


def test_every_figure_stands_in_a_lesson_with_words_of_its_own(curriculum: Curriculum) -> None:
    asked = [f for m in curriculum.modules.values() for x in m.lessons for f in x.figures]

    assert {request.figure for request in asked} == set(FIGURES)
    assert [f.figure for f in asked if len(f.alt.split()) < 8 or len(f.caption.split()) < 4] == []


def test_at_most_two_figures_a_lesson_and_none_twice_in_a_module(curriculum: Curriculum) -> None:
    for module in curriculum.modules.values():
        drawn = [(f.figure, f.numbers) for x in module.lessons for f in x.figures]
        assert [x.id for x in module.lessons if len(x.figures) > 2] == []
        assert [figure for n, figure in enumerate(drawn) if figure in drawn[:n]] == []


FAMILY_WORDS = {
    "bleach": "bleach",
    "acids": "acids",
    "fluoride acids": "fluoride",
    "lye": "lye",
    "peroxide": "peroxide",
    "percarbonate": "peroxide",
    "ammonia": "ammonia",
    "quats": "quats",
    "citrus": "citrus",
    "pool chlorine": "pool",
    "neutralizer": "neutralizer",
    "metal": "metal",
    "aluminum": "metal",
    "fuel": "fuel",
    "glass": "glass",
}


EVERYTHING = {*FAMILY_WORDS.values()} - {"glass"}


def families_in(text: str) -> set[str]:
    """The families that a text names; "fluoride acids" does not name the acids too."""
    found = re.findall("|".join(sorted(FAMILY_WORDS, key=len, reverse=True)), text.lower())
    return {FAMILY_WORDS[word] for word in found}


def chart_in_words(text: str) -> dict[frozenset[str], set[str]]:
    """What a table of the never-mix chart says of each pair, whichever row says it."""
    said: dict[frozenset[str], set[str]] = {}
    for head, cell in re.findall(r"^\| (\*\*.+?) \| (.+) \|$", text, flags=re.MULTILINE):
        (one, *_) = families_in(head.split(":")[0]) or {""}
        for others, what in re.findall(r"(.+?) \*\*([A-Z ]+)\*\*(?: · |$)", cell):
            meant = EVERYTHING if "everything" in others else families_in(others)
            for other in meant - {one}:
                said.setdefault(frozenset((one, other)), set()).update(what.split())
    return said


def test_the_chart_of_families_says_what_its_lesson_says(curriculum: Curriculum) -> None:
    lesson = next(x for x in curriculum.modules["specials"].lessons if x.id == "never-mix")
    told = chart_in_words(next(point.text for point in lesson.points if point.id == "chart"))
    acids = {pair - {"acids"}: what for pair, what in told.items() if "acids" in pair}
    for other, what in acids.items():  # "fluoride acids: all that acids never meet"
        told.setdefault(other | {"fluoride"}, set()).update(what)
    told = {pair: what for pair, what in told.items() if len(pair) == 2 and "" not in pair}

    drawn = {
        frozenset(pair): set(families.letters(*pair, CHART))
        for pair in combinations(_CARD["families"], 2)
        if families.letters(*pair, CHART)
    }
    assert drawn == told


def test_the_chart_of_families_is_the_one_of_the_rig_card(curriculum: Curriculum) -> None:
    lesson = next(x for x in curriculum.modules["specials"].lessons if x.id == "never-mix")

    assert curriculum.handouts.card
    (figure,) = (each for each in lesson.figures if each.figure == "families")
    assert figure.numbers == curriculum.handouts.card.chart


@pytest.mark.parametrize(
    ("chart", "says"),
    [
        ({}, "has 0 families"),
        ({f"f{n}": "Name" for n in range(17)}, "has 17 families"),
        ({"a": "Bleach", "b": "A name so long that " * 4}, "is too long"),
    ],
)
def test_a_chart_that_does_not_fit_is_refused(chart: dict[str, str], says: str) -> None:
    with pytest.raises(Refusal, match=says):
        draw("families", chart)


def test_heat_schedule_says_what_its_relations_say(curriculum: Curriculum) -> None:
    for name, shares in (("heat-new", heat_schedule.NEW), ("heat-returning", heat_schedule.BACK)):
        relation = curriculum.relations[name]
        for day, share in enumerate(shares, 1):
            hours = work(relation, {"shift": Fraction(8), "day": Fraction(day)}, "hours").value
            assert hours in (8 * share, None)  # a word once it is a full shift again


def test_van_weights_weighs_water_as_its_relation_does(curriculum: Curriculum) -> None:
    load = {"water_gal": Fraction(100), "stock_gal": Fraction(30), "sg": Fraction("1.17")}
    known = work(curriculum.relations["liquid-load"], load, "lb").value

    assert known == van_weights.GALLON * (100 + 30 * Fraction("1.17"))


def test_words_are_escaped() -> None:
    """Text from a curriculum may hold what looks like markup."""
    assert ET.fromstring(label(0, 0, 'a < b & "c"')).text == 'a < b & "c"'
