"""The rig card: every amount from its relation, never too strong, two pages, few words."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from datetime import date
from fractions import Fraction
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from generator.errors import Refusal
from generator.maths.exact import down
from generator.model.course import Curriculum
from generator.model.handout import COLUMNS, CardWords
from generator.model.shop import Head, HeadSetting, Rig, Shop, Wash
from generator.printing.rig_card import HeadCell, RigCard, Row, rig_card, rig_card_html
from generator.solving.answer import work

F = Fraction
DAY = date(2026, 4, 1)


@pytest.fixture(scope="session")
def words(curriculum: Curriculum) -> CardWords:
    """The words of the back."""
    assert curriculum.handouts.card
    return curriculum.handouts.card


@pytest.fixture(scope="session")
def laid_out(
    curriculum: Curriculum, words: CardWords, lay_out: Callable[[str], Any]
) -> Callable[[Shop], Any]:
    """The card of a shop's first rig as pages."""

    def of(shop: Shop) -> Any:
        card = rig_card(shop, shop.rigs[0], curriculum.relations)
        return lay_out(rig_card_html(shop, card, words, curriculum.sources, DAY))

    return of


def strength(curriculum: Curriculum, tested: Fraction, row: Row, stock: Fraction) -> Fraction:
    """What so much stock makes at the fill mark, in percent, by the relation itself."""
    given = {"stock": tested, "amount": stock, "total": row.mark}
    value = work(curriculum.relations["batch"], given, "target").value
    assert value is not None
    return value


def check(curriculum: Curriculum, shop: Shop, card: RigCard) -> None:
    """Every promise of a card, cell by cell."""
    batch, water_first = curriculum.relations["batch"], curriculum.relations["water-first"]
    for row in card.rows:
        soap = work(
            curriculum.relations["soap"], {"oz_per_gal": row.wash.soap, "gal": row.mark}, "oz"
        ).value
        assert soap is not None
        assert soap - 1 < row.soap <= soap
        for column, cell in zip(card.columns, row.cells, strict=True):
            given = {"stock": column, "target": row.wash.strength, "total": row.mark}
            exact = work(batch, given, "amount").value
            if cell is None:
                short = exact is None or exact < shop.jug_mark_gal
                drowned = {"total": row.mark, "amount": exact or F(0), "soap": row.soap}
                assert short or work(water_first, drowned, "water").value is None
                continue
            assert exact is not None
            assert cell.stock == down(exact, shop.jug_mark_gal)
            assert strength(curriculum, column, row, cell.stock) <= row.wash.strength
            assert cell.water >= 0
            assert cell.water + cell.stock == row.line_b
            assert row.line_b + F(row.soap, 128) <= row.mark


def test_the_cards_of_the_shop_come_from_the_relations(curriculum: Curriculum) -> None:
    for rig in curriculum.shop.rigs:
        card = rig_card(curriculum.shop, rig, curriculum.relations)
        assert len(card.rows) == len(curriculum.shop.washes) * len(rig.fill_marks)
        check(curriculum, curriculum.shop, card)


def test_a_cell_worked_by_hand(curriculum: Curriculum) -> None:
    shop = curriculum.shop
    rig = replace(shop.rigs[0], fill_marks=(F(50),))
    wash = Wash("house", "House wash", F(1), F("1.5"))
    card = rig_card(replace(shop, washes=(wash,)), rig, curriculum.relations)
    (row,) = card.rows
    cell = row.cells[card.columns.index(F(11))]

    assert cell is not None
    assert (cell.stock, row.soap) == (F("4.5"), 75)  # 50 ÷ 11 = 4.545 gal; 75 fl oz = 0.586 gal
    assert (cell.water, row.line_b) == (F("44.75"), F("49.25"))


def quarters(low: str, high: str) -> st.SearchStrategy[Fraction]:
    return st.integers(int(F(low) * 4), int(F(high) * 4)).map(lambda n: F(n, 4))


WASHES = st.lists(
    st.builds(
        lambda n, strength, soap: Wash(f"w{n}", f"Wash {n}", strength, soap),
        st.integers(0, 9),
        st.integers(1, 80).map(lambda n: F(n, 10)),
        quarters("0", "8"),
    ),
    min_size=1,
    max_size=4,
    unique_by=lambda wash: wash.id,
)
SHOPS = st.builds(
    lambda stock, jug, washes, marks: (stock, jug, tuple(washes), tuple(sorted(marks))),
    st.lists(st.integers(70, 200).map(lambda n: F(n, 10)), min_size=1, max_size=3).map(tuple),
    st.sampled_from([F(1, 16), F(1, 8), F(1, 4), F(1, 2), F(1, 10)]),
    WASHES,
    st.lists(quarters("1", "120"), min_size=1, max_size=3, unique=True),
)


@settings(
    max_examples=60, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture]
)
@given(SHOPS)
def test_no_cell_of_any_shop_is_too_strong(curriculum: Curriculum, drawn: Any) -> None:
    stock, jug, washes, marks = drawn
    rig = replace(curriculum.shop.rigs[0], fill_marks=marks)
    shop = replace(curriculum.shop, stock=stock, jug_mark_gal=jug, washes=washes, rigs=(rig,))

    check(curriculum, shop, rig_card(shop, rig, curriculum.relations))


@settings(max_examples=60, deadline=None)
@given(st.integers(70, 130).map(lambda n: F(n, 10)))
def test_the_higher_column_is_never_too_strong(curriculum: Curriculum, tested: Fraction) -> None:
    card = rig_card(curriculum.shop, curriculum.shop.rigs[0], curriculum.relations)
    read = min(column for column in card.columns if column >= tested)

    for row in card.rows:
        cell = row.cells[card.columns.index(read)]
        if cell:
            assert strength(curriculum, tested, row, cell.stock) <= row.wash.strength


@pytest.mark.parametrize(
    ("stock", "first"), [(("12.5", "10"), 13), (("10",), 10), (("9.1",), 10), (("20",), 13)]
)
def test_columns_end_above_the_strongest_stock(
    stock: tuple[str, ...], first: int, curriculum: Curriculum
) -> None:
    shop = replace(curriculum.shop, stock=tuple(map(F, stock)))
    card = rig_card(shop, shop.rigs[0], curriculum.relations)

    assert card.columns == tuple(column for column in COLUMNS if column <= first)


def test_stock_too_weak_for_any_column_is_refused(curriculum: Curriculum) -> None:
    shop = replace(curriculum.shop, stock=(F(6),))

    with pytest.raises(Refusal, match="the strongest stock is below 7%") as refusal:
        rig_card(shop, shop.rigs[0], curriculum.relations)
    assert "mix-worksheet" in refusal.value.next


@pytest.mark.parametrize(("tank", "marks"), [(100, (10, 25, 50)), (30, (10, 25)), (8, (8,))])
def test_a_rig_without_fill_marks_gets_the_usual_ones(
    tank: int, marks: tuple[int, ...], curriculum: Curriculum
) -> None:
    rig = replace(curriculum.shop.rigs[0], tank_gal=F(tank), reserve_gal=F(0), fill_marks=())
    card = rig_card(curriculum.shop, rig, curriculum.relations)

    assert tuple(row.mark for row in card.lots[0].rows) == marks


def test_the_number_changes_with_the_settings(curriculum: Curriculum) -> None:
    shop = curriculum.shop
    stronger = replace(shop.washes[0], strength=shop.washes[0].strength * 2)
    cards = [
        rig_card(each, shop.rigs[0], curriculum.relations).number
        for each in (shop, shop, replace(shop, washes=(stronger, *shop.washes[1:])))
    ]

    assert cards[0] == cards[1] != cards[2]


@pytest.mark.parametrize("page", ["letter", "a4"])
def test_the_card_is_two_pages_with_all_it_must_say(
    page: str, curriculum: Curriculum, laid_out: Callable[[Shop], Any]
) -> None:
    pages = laid_out(replace(curriculum.shop, page=page))

    assert len(pages) == 2
    front, back = pages.text(1), pages.text(2)
    for said in (
        "Rig 1",
        "printed impresa Apr 1, 2026",
        "good until vale hasta Apr 1, 2027",
        "Between columns use the HIGHER number.",
        "Entre columnas use el número MAYOR.",
        "HEAD NOT CALIBRATED - BATCH ONLY",
        "Tank not empty? STOP: worksheet, a mixer.",
        "read back by",
        "Stock tested TODAY",
    ):
        assert said in front
    for said in (
        "911",
        "Poison Help line",
        "Power company",
        "Job address",
        "Eyewash is",
        "Never mix",
    ):
        assert said in back
    assert "Spanish: have a fluent reader of your crew check it." in back
    assert "Page 1 of 2" not in front  # it would be laminated with it


def test_the_front_prints_the_numbers_of_the_card(
    curriculum: Curriculum, laid_out: Callable[[Shop], Any]
) -> None:
    card = rig_card(curriculum.shop, curriculum.shop.rigs[0], curriculum.relations)
    boxes = laid_out(curriculum.shop).boxes("cell")

    assert len(boxes) == len(card.rows) * len(card.columns)
    assert boxes[0].text == "1 A 13 3/4"  # house wash, 15 gal, stock that tests 13


def test_a_stock_that_cannot_make_the_wash_prints_no(
    curriculum: Curriculum, laid_out: Callable[[Shop], Any]
) -> None:
    strong = Wash("strong", "Strong wash", F(8), F(1))
    texts = [box.text for box in laid_out(replace(curriculum.shop, washes=(strong,))).boxes("cell")]

    assert texts[-1] == "no"  # of stock that tests 7
    assert texts[0] != "no"


def test_first_actions_have_eight_words_at_most(words: CardWords) -> None:
    assert [
        said
        for line in words.emergencies
        for said in (line.do.en, line.do.es)
        if len(said.split()) > 8
    ] == []


def test_lye_is_never_called_by_the_word_that_means_bleach_elsewhere(words: CardWords) -> None:
    assert "lejía" not in repr(words).lower()
    assert words.families["lye"].es == "Sosa cáustica"


def test_bleach_with_acid_is_gas_both_ways(words: CardWords) -> None:
    assert words.between("bleach", "acids") == words.between("acids", "bleach") == "G"
    assert words.between("glass", "fuel") == ""


def test_a_rig_keeps_its_own_marks(curriculum: Curriculum) -> None:
    rig: Rig = curriculum.shop.rigs[1]
    card = rig_card(curriculum.shop, rig, curriculum.relations)

    assert tuple(row.mark for row in card.lots[0].rows) == rig.fill_marks


HEAD = Head(
    "2026-04-20", (HeadSetting("2-8-1", F(1), F(8), F(1)), HeadSetting("4-6-1", F(3), F(6), F(1)))
)


def test_a_setting_of_the_head_is_the_strongest_that_is_not_above_the_wash(
    curriculum: Curriculum,
) -> None:
    wash = Wash("roof", "Roof", F(3), F(1))
    rig = replace(curriculum.shop.rigs[0], head=HEAD)
    card = rig_card(replace(curriculum.shop, washes=(wash,)), rig, curriculum.relations)
    (lot,) = card.lots

    # 3 parts of 10 in column 10 are 3%, in column 11 they are 3.3%: there 1 part of 10 is left.
    assert lot.head[card.columns.index(F(10))] == HeadCell("4-6-1", F(3))
    assert lot.head[card.columns.index(F(11))] == HeadCell("2-8-1", F("1.1"))


@settings(max_examples=60, deadline=None)
@given(st.lists(st.tuples(*[st.integers(1, 40)] * 3), min_size=1, max_size=6), st.integers(1, 60))
def test_no_setting_of_any_head_is_too_strong(
    curriculum: Curriculum, drops: list[tuple[int, int, int]], tenths: int
) -> None:
    settings_ = tuple(HeadSetting(str(n), *map(F, drop)) for n, drop in enumerate(drops))
    wash = Wash("one", "One", F(tenths, 10), F(1))
    rig = replace(curriculum.shop.rigs[0], head=Head("2026-04-20", settings_))
    card = rig_card(replace(curriculum.shop, washes=(wash,)), rig, curriculum.relations)

    for column, cell in zip(card.columns, card.lots[0].head, strict=True):
        walls = [column * stock / sum(drop) for drop in drops for stock in drop[:1]]
        fit = [wall for wall in walls if wall <= wash.strength]
        assert cell is None if not fit else cell and cell.strength == max(fit)


@pytest.mark.parametrize("page", ["letter", "a4"])
def test_a_measured_head_stands_on_the_card_and_it_stays_two_pages(
    page: str, curriculum: Curriculum, laid_out: Callable[[Shop], Any]
) -> None:
    rigs = (replace(curriculum.shop.rigs[0], head=HEAD),)
    pages = laid_out(replace(curriculum.shop, page=page, rigs=rigs))

    assert len(pages) == 2
    assert "HEAD NOT CALIBRATED" not in pages.text(1)
    for said in ("Head marks (mixer)", "2-8-1", "Measured Apr 20, 2026", "New part? BATCH ONLY."):
        assert said in pages.text(1)


@pytest.mark.parametrize("head", [None, HEAD])
def test_more_washes_than_a_front_holds_go_on_a_second_front(
    head: Head | None, curriculum: Curriculum, laid_out: Callable[[Shop], Any]
) -> None:
    shop = curriculum.shop
    more = tuple(replace(wash, id=f"{wash.id}-two") for wash in shop.washes)
    rigs = (replace(shop.rigs[0], head=head),)
    pages = laid_out(replace(shop, page="a4", rigs=rigs, washes=shop.washes + more))

    assert len(pages) == 3
    assert "1/2" in pages.text(1)
    assert "2/2" in pages.text(2)
    assert "911" in pages.text(3)
