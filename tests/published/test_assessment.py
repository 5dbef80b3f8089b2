"""Pass rules, intervals and item analysis against figures from elsewhere.

The tables of chances and most intervals were computed apart, with scipy, from the stated inputs;
6 of 32 is published R output. Wuensch's ten people and the example of formula 21 are published.
Bock and Lieberman 1970 (LSAT section 6) are given as patterns whose sums give the published
shares; what is compared with them was computed.
"""

from __future__ import annotations

from fractions import Fraction
from itertools import product

import pytest

from generator.maths.exact import half_up
from generator.papers.analysis import kr20, kr21, mean, point_biserial, variance, wilson
from generator.papers.chances import Limits, Must, Rule, all_tries, either, one_try, shortest

F = Fraction
KNOWN = ("0.50", "0.60", "0.70", "0.80", "0.85", "0.90", "0.95", "0.97")
PASSES = """
5 4   .1875 .3370 .5282 .7373 .8352 .9185 .9774 .9915
5 5   .0312 .0778 .1681 .3277 .4437 .5905 .7738 .8587
10 8  .0547 .1673 .3828 .6778 .8202 .9298 .9885 .9972
10 9  .0107 .0464 .1493 .3758 .5443 .7361 .9139 .9655
15 12 .0176 .0905 .2969 .6482 .8227 .9444 .9945 .9992
15 13 .0037 .0271 .1268 .3980 .6042 .8159 .9638 .9906
18 16 .0007 .0082 .0600 .2713 .4797 .7338 .9419 .9843
20 16 .0059 .0510 .2375 .6296 .8298 .9568 .9974 .9997
20 17 .0013 .0160 .1071 .4114 .6477 .8670 .9841 .9973
20 18 .0002 .0036 .0355 .2061 .4049 .6769 .9245 .9790
24 21 .0001 .0035 .0424 .2639 .5049 .7857 .9702 .9947
25 22 .0001 .0024 .0332 .2340 .4711 .7636 .9659 .9938
30 27 .0000 .0003 .0093 .1227 .3217 .6474 .9392 .9881
"""


def printed(chance: Fraction, figure: str) -> None:
    """The chance is the printed figure, to the last digit of it."""
    digits = len(figure.split(".")[1])
    assert abs(chance - F(figure)) <= F(1, 2 * 10**digits), (float(chance), figure)


@pytest.mark.parametrize("row", PASSES.strip().splitlines(), ids=lambda row: row[:5])
def test_the_chance_to_pass_is_the_binomial_one(row: str) -> None:
    items, cut, *figures = row.split()
    for knows, figure in zip(KNOWN, figures, strict=True):
        printed(one_try(Rule(int(items), 0, int(cut)), F(knows)), figure)


@pytest.mark.parametrize(
    ("low", "high", "false_pass", "false_fail", "items", "cut"),
    [
        (60, 90, 10, 10, 15, 12),
        (60, 90, 5, 5, 24, 19),
        (70, 95, 10, 10, 16, 14),
        (70, 95, 5, 10, 19, 17),
        (70, 95, 5, 5, 24, 21),
        (70, 90, 10, 10, 25, 21),
        (70, 90, 5, 5, 41, 34),
        (80, 95, 10, 10, 32, 29),
        (80, 95, 5, 5, 50, 45),
    ],
)
def test_the_smallest_design(
    low: int, high: int, false_pass: int, false_fail: int, items: int, cut: int
) -> None:
    limits = Limits(*(F(percent, 100) for percent in (low, false_pass, high, false_fail)))
    assert shortest((Rule(n, 0, 0) for n in range(1, 60)), limits) == Rule(items, 0, cut)


def test_no_sheet_of_thirty_separates_80_from_95_but_fifty_do() -> None:
    limits = Limits(F(80, 100), F(5, 100), F(95, 100), F(5, 100))
    assert shortest((Rule(n, 0, 0) for n in range(1, 31)), limits) is None
    printed(one_try(Rule(50, 0, 45), F("0.80")), "0.048")
    printed(1 - one_try(Rule(50, 0, 45), F("0.95")), "0.038")


def test_short_quizzes_pass_too_many() -> None:
    printed(one_try(Rule(10, 0, 8), F("0.7")), "0.38")
    printed(one_try(Rule(5, 0, 4), F("0.7")), "0.53")
    printed(all_tries(Rule(10, 0, 8, tries=3), F("0.7")), "0.76")
    printed(all_tries(Rule(20, 0, 17, tries=3), F("0.7")), "0.29")


def test_guessing() -> None:
    for cut, guessed, open_ in ((17, "0.411", "0.107"), (18, "0.206", "0.035")):
        printed(one_try(Rule(0, 20, cut), F("0.7")), guessed)
        printed(one_try(Rule(20, 0, cut), F("0.7")), open_)
    printed(one_try(Rule(0, 20, 17), F(0)), "0.00000285")


MIXING = """
14 6 18 18 .009 .018 .063 .121 .274 .473 .059 .003
14 6 18 19 .009 .011 .063 .077 .274 .347 .059 .013
18 6 22 22 .002 .004 .022 .043 .156 .288 .095 .009
20 0 18 18 .004 .007 .036 .070 .206 .370 .076 .006
"""


@pytest.mark.parametrize("row", MIXING.strip().splitlines())
def test_the_recommended_mixing_paper(row: str) -> None:
    write_in, choice, cut, again, *figures = row.split()
    cuts = [Rule(int(write_in), int(choice), int(each)) for each in (cut, again)]
    found = []
    for knows in ("0.60", "0.70", "0.80"):
        tries = [one_try(rule, F(knows)) for rule in cuts]
        found += [tries[0], either(tries)]
    tries = [one_try(rule, F("0.95")) for rule in cuts]
    found += [1 - tries[0], 1 - either(tries)]
    for chance, figure in zip(found, figures, strict=True):
        printed(half_up(chance, F(1, 10_000)), figure)  # the table was rounded in two steps


def test_a_little_easier_or_harder_paper() -> None:
    rule = Rule(20, 0, 18)
    pairs = {"0.90": ".677", "0.93": ".839", "0.87": ".508", "0.91": ".733", "0.89": ".620"}
    for knows, figure in pairs.items():
        printed(one_try(rule, F(knows)), figure)


def test_a_class_at_85_and_at_90() -> None:
    # 5 of 8, and 3 of 8, fail the first try of the mixing paper.
    rule = Rule(18, 6, 22)
    assert round(8 * (1 - one_try(rule, F("0.85")))) == 5
    assert round(8 * (1 - one_try(rule, F("0.90")))) == 3


def test_must_gets_without_asking_again() -> None:
    for knows, items, figure in (
        ("0.98", 3, ".941"),
        ("0.98", 5, ".904"),
        ("0.99", 3, ".970"),
        ("0.99", 5, ".951"),
        ("0.90", 3, ".729"),
    ):
        must = (Must(1, chosen=False),) * items
        printed(one_try(Rule(items, 0, 0, must=must), F(knows), mended=F(0)), figure)
    three = Rule(20, 0, 17, must=(Must(1, chosen=False),) * 3)
    printed(one_try(three, F("0.95"), mended=F(0)), ".850")
    assert one_try(three, F("0.95")) > F("0.97")  # asked aloud, few are lost


def test_all_right_runs() -> None:
    runs = {"0.5": 5, "0.6": 6, "0.7": 9, "0.8": 14, "0.9": 29}
    for knows, items in runs.items():
        assert one_try(Rule(items, 0, items), F(knows)) <= F(5, 100)
        assert one_try(Rule(items - 1, 0, items - 1), F(knows)) > F(5, 100)


@pytest.mark.parametrize(
    ("right", "items", "figure"),
    [
        (10, 10, ".914"),
        (9, 10, ".678"),
        (8, 10, ".383"),
        (20, 20, ".991"),
        (19, 20, ".942"),
        (18, 20, ".821"),
        (17, 20, ".630"),
    ],
)
def test_what_a_score_says_of_80_percent(right: int, items: int, figure: str) -> None:
    # Uniform prior: the chance that p >= .80 is that of at most `right` of one item more at .80.
    printed(1 - one_try(Rule(items + 1, 0, right + 1), F("0.80")), figure)


@pytest.mark.parametrize(
    ("right", "of", "low", "high", "within"),
    [
        (81, 263, 0.2553, 0.3662, 5e-5),
        (15, 148, 0.0624, 0.1605, 5e-5),
        (0, 20, 0.0, 0.1611, 5e-5),
        (1, 29, 0.0061, 0.1718, 5e-5),
        (6, 32, 0.08889545, 0.35309155, 5e-9),  # published R output
        (8, 10, 0.490, 0.943, 5e-4),
        (17, 20, 0.640, 0.948, 5e-4),
        (18, 20, 0.699, 0.972, 5e-4),
        (20, 20, 0.839, 1.0, 5e-4),
    ],
)
def test_wilson_intervals(right: int, of: int, low: float, high: float, within: float) -> None:
    assert wilson(right, of) == pytest.approx((low, high), abs=within)


# Wuensch, KR20.txt (seen): the answers, the shares right and the variance; the rest is computed.
PEOPLE = """
1111110110 1011011101 1111011001 0010001000 0000010010
1110111111 1101110111 1111111101 0101111101 1101101110
"""
WUENSCH = [[int(one) for one in row] for row in PEOPLE.split()]
WITH_ITEM = ".7946 .7946 .2027 .6140 .7095 .4345 .1625 .7946 .0828 .6251"
WITHOUT_IT = ".7059 .7059 .0000 .4736 .5839 .2861 -.0274 .7059 -.1236 .4759"


def test_wuensch_ten_people_on_ten_items() -> None:
    scores = [sum(row) for row in WUENSCH]
    shares = [mean(column) for column in zip(*WUENSCH, strict=True)]
    assert shares == pytest.approx([0.7, 0.7, 0.6, 0.7, 0.6, 0.8, 0.7, 0.7, 0.5, 0.6])
    assert variance(scores) == pytest.approx(5.84)  # published, over all ten
    assert mean(scores) == pytest.approx(6.6)
    assert kr20(WUENSCH) == pytest.approx(0.696347, abs=1e-6)
    assert kr21(10, mean(scores), variance(scores)) == pytest.approx(0.684170, abs=1e-6)


def test_wuensch_point_biserial_with_and_without_the_item() -> None:
    scores = [sum(row) for row in WUENSCH]
    pairs = zip(WITH_ITEM.split(), WITHOUT_IT.split(), strict=True)
    for item, (whole, rest) in enumerate(pairs):
        right = [row[item] for row in WUENSCH]
        others = [score - one for score, one in zip(scores, right, strict=True)]
        assert point_biserial(right, scores) == pytest.approx(float(whole), abs=5e-5)
        assert point_biserial(right, others) == pytest.approx(float(rest), abs=5e-5)


# Bock and Lieberman 1970: 1,000 people on five items, by pattern from 00000 to 11111 (the counts
# from memory; they sum to 1,000 and give the known shares).
LSAT = "3 6 2 11 1 1 3 4 1 8 0 16 0 3 2 15 10 29 14 81 3 28 15 80 16 56 21 173 11 61 28 298"


def test_bock_and_lieberman_thousand_people_on_five_items() -> None:
    patterns = product((0, 1), repeat=5)
    rows = [
        row
        for row, count in zip(patterns, map(int, LSAT.split()), strict=True)
        for _ in range(count)
    ]
    scores = [sum(row) for row in rows]
    assert [scores.count(score) for score in range(6)] == [3, 20, 85, 237, 357, 298]
    shares = [mean(column) for column in zip(*rows, strict=True)]
    assert shares == pytest.approx([0.924, 0.709, 0.553, 0.763, 0.870])
    assert kr20(rows) == pytest.approx(0.2950, abs=5e-5)
    whole = [0.3620, 0.5668, 0.6184, 0.5344, 0.4354]
    rest = [0.1128, 0.1532, 0.1728, 0.1444, 0.1216]
    for item in range(5):
        right = [row[item] for row in rows]
        others = [score - one for score, one in zip(scores, right, strict=True)]
        assert point_biserial(right, scores) == pytest.approx(whole[item], abs=1e-4)
        assert point_biserial(right, others) == pytest.approx(rest[item], abs=1e-4)


def test_the_textbook_example_of_formula_21() -> None:
    found = kr21(50, 43, 25)
    assert found == pytest.approx(0.774694, abs=1e-6)
    assert found == pytest.approx(0.78, abs=0.01)  # as published, rounded in between
