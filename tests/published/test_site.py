"""Sums of the site: hose, water to count on, calls and looks, against other ways to reach them."""

from __future__ import annotations

from fractions import Fraction

import pytest

from generator.model.course import Curriculum
from generator.solving.answer import work

F = Fraction


# relation, what is asked, the numbers, the word: the edge belongs to the word.
WORDS = """
hose-lay | truck_ft | hose_ft=100 around_ft=240 slack=1/4 | cannot
hose-lay | truck_ft | hose_ft=132 around_ft=240 slack=1/10 | cannot
water-left | left_gal | tank_gal=100 reserve_gal=10 first_gal=55 second_gal=40 | refill-first
water-left | left_gal | tank_gal=100 reserve_gal=10 first_gal=50 second_gal=40 | refill-first
check-in | left_min | every_min=30 first_min=20 second_min=15 | call-now
check-in | left_min | every_min=30 first_min=20 second_min=10 | call-now
next-look | next_gal | now_gal=40 out_gpm=5.5 in_gpm=1 minutes=10 | dry
"""


@pytest.mark.parametrize("line", WORDS.strip().splitlines())
def test_a_word_is_the_answer(curriculum: Curriculum, line: str) -> None:
    name, find, numbers, word = map(str.strip, line.split("|"))
    pairs = (pair.split("=") for pair in numbers.split())
    given = {quantity: F(value) for quantity, value in pairs}
    assert work(curriculum.relations[name], given, find).word == word


@pytest.mark.parametrize("truck", range(20, 121, 20))
@pytest.mark.parametrize("each", [25, 50])
def test_the_fewest_lengths_that_reach(curriculum: Curriculum, truck: int, each: int) -> None:
    run = {"truck_ft": F(truck), "around_ft": F(170), "slack": F(1, 10)}
    hose = work(curriculum.relations["hose-lay"], run, "hose_ft").value
    lengths = work(curriculum.relations["hose-lengths"], run | {"each_ft": F(each)}, "lengths")
    assert hose is not None
    assert lengths.value == next(n for n in range(1, 100) if n * each >= hose)


@pytest.mark.parametrize("tap", ["1", "2.5", "3.9"])
def test_looks_in_a_row_end_where_the_tank_runs_dry(curriculum: Curriculum, tap: str) -> None:
    # Ten minutes at a time, until less than ten are left: the rest is what run-dry says.
    flows = {"out_gpm": F("5.5"), "in_gpm": F(tap)}
    gallons, minutes = F(250), F(0)
    dry = work(curriculum.relations["run-dry"], flows | {"gal": gallons}, "minutes").value
    assert dry is not None
    while (step := min(F(10), dry - minutes - 1)) > 0:
        given = flows | {"now_gal": gallons, "minutes": step}
        found = work(curriculum.relations["next-look"], given, "next_gal").value
        assert found is not None
        gallons, minutes = found, minutes + step
    assert gallons == F("5.5") - F(tap)  # one minute is left
