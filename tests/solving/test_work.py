"""Every relation worked each way round and put back; the words; the laws of mixing and water."""

from __future__ import annotations

import random
import re
from fractions import Fraction
from functools import lru_cache
from itertools import combinations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.errors import Refusal
from generator.maths import exact
from generator.maths.evaluate import Environment, Value
from generator.maths.formula import parse_equation
from generator.maths.trees import names as names_in
from generator.maths.units import Unit
from generator.model.course import Curriculum
from generator.model.relation import Constant, Quantity, Relation
from generator.solving.answer import CLOSE, Outcome, plan, words_of, work
from generator.solving.arrange import arrange, residues
from generator.solving.explain import formula_line, working

F = Fraction


@lru_cache
def starts(relation: Relation) -> list[tuple[str, ...]]:
    """Every set of names from which all the other quantities can be worked out."""
    linked = [name for name in relation.quantities if name in in_equations(relation)]
    sets = combinations(linked, len(linked) - len(relation.equations))
    return [names for names in sets if all_can_be_found(relation, names)]


def in_equations(relation: Relation) -> frozenset[str]:
    """The names that equations link; others only decide a word."""
    return frozenset().union(*map(names_in, relation.equations))


def all_can_be_found(relation: Relation, names: tuple[str, ...]) -> bool:
    try:
        for find in set(relation.quantities) & in_equations(relation) - set(names):
            arrange(relation, frozenset((*names, *relation.columns)), find)
    except Refusal:
        return False
    return True


def everything(relation: Relation, numbers: Environment) -> dict[str, Value]:
    """All quantities and rows, worked out from enough of them. Raises Refusal if they can't be."""
    env = dict(numbers)
    for find in relation.quantities:
        if find not in numbers and find in in_equations(relation):
            outcome = work(relation, numbers, find)
            if outcome.word:
                raise Refusal(outcome.word, outcome.tell)
            value = outcome.value if outcome.before is None else outcome.before
            assert value is not None
            env[find] = value
    return env


@lru_cache
def sample(relation: Relation) -> dict[str, Value]:
    """Exact numbers for every quantity, from as few of an example as it takes; and its rows."""
    merged: dict[str, Fraction] = {}
    for example in relation.examples:
        merged = {**example.values, **merged}
    for values in (*(example.values for example in relation.examples), merged):
        for names in starts(relation):
            if set(names) <= set(values):
                numbers = {name: values[name] for name in names}
                try:
                    return everything(relation, numbers | dict(relation.examples[0].rows))
                except Refusal:  # an example of a word
                    continue
    raise AssertionError("no example starts off every quantity")


def picked(about: dict[str, Value], relation: Relation, names: tuple[str, ...]) -> dict[str, Value]:
    """Those numbers, and the rows."""
    return {name: about[name] for name in (*names, *relation.columns)}


def test_every_quantity_can_be_asked_for_or_says_why_not(relation: Relation) -> None:
    for find in relation.quantities:
        if any(find not in names for names in starts(relation)):
            continue
        with pytest.raises(Refusal) as told:
            arrange(relation, frozenset((*relation.quantities, *relation.columns)) - {find}, find)
        linked = find in in_equations(relation)
        assert ("runs forward" if linked else "another quantity") in told.value.next, find


def test_put_back_every_equation_holds(relation: Relation) -> None:
    chance = random.Random(relation.id)
    about = sample(relation)
    held = tried = 0
    for names in starts(relation):
        for _ in range(5):
            numbers = picked(about, relation, names)
            for name in names:
                numbers[name] *= Fraction(chance.randint(95, 105), 100)  # type: ignore[operator]
            tried += 1
            try:
                env = everything(relation, numbers)
            except Refusal:  # moved numbers may contradict the range or call for a word
                continue
            held += 1
            fixed = {name: constant.value for name, constant in relation.constants.items()}
            assert max(residues(relation, {**fixed, **env})) <= CLOSE
    assert held >= tried / 2


def test_there_and_back_is_the_same_number(relation: Relation) -> None:
    about = sample(relation)
    for names in starts(relation):
        back = everything(relation, picked(about, relation, names))
        for find in relation.quantities:
            if find not in back:  # it only decides a word
                continue
            value, start = back[find], about[find]
            assert isinstance(value, Fraction)
            assert isinstance(start, Fraction)
            assert abs(value - start) <= CLOSE * max(abs(value), 1), (find, names)


def test_working_is_written_for_people(relation: Relation) -> None:
    about = sample(relation)
    for names in starts(relation):
        for find in set(relation.quantities) & in_equations(relation) - set(names):
            arrangement = arrange(relation, frozenset((*names, *relation.columns)), find)
            outcome = work(relation, picked(about, relation, names), find)
            lines = working(arrangement, outcome)
            assert formula_line(relation, arrangement.steps[-1]) in lines
            assert not any("**" in line or "*" in line or "_" in line for line in lines), lines


def test_a_factor_is_printed_to_the_digits_it_is_worked_with(relation: Relation) -> None:
    for names in starts(relation):
        for find in set(relation.quantities) & in_equations(relation) - set(names):
            for step in arrange(relation, frozenset((*names, *relation.columns)), find).steps:
                noted = re.search(r"\(([×÷]) ([\d.,/]+) gives", formula_line(relation, step))
                if noted:
                    number = exact.number(noted[2].replace(",", ""))
                    factor = number if noted[1] == "×" else 1 / number
                    used = step.numeric[0].right  # type: ignore[union-attr]
                    over = step.numeric[0].op == "/"  # type: ignore[union-attr]
                    assert abs(factor / (1 / used.value if over else used.value) - 1) < F(1, 10**4)


def test_published_and_worked_examples_come_out(relation: Relation) -> None:
    for example in relation.examples:
        if example.word:
            find, word = example.word
            assert work(relation, example.values | dict(example.rows), find).word == word
            assert word in words_of(relation, find)


def worked(curriculum: Curriculum, name: str, find: str, **given: str | int) -> Outcome:
    return work(curriculum.relations[name], {n: F(v) for n, v in given.items()}, find)


WORDS = [
    ("run-dry", "minutes", "never", {"gal": 200, "out_gpm": 5, "in_gpm": 5}),
    ("run-dry", "minutes", "never", {"gal": 200, "out_gpm": 4, "in_gpm": 5}),
    ("run-dry", "minutes", "never", {"gal": 0, "out_gpm": 4, "in_gpm": 5}),
    ("batch", "amount", "cannot", {"stock": 10, "target": 12, "total": 30}),
    ("batch-water", "water", "cannot", {"stock": 1, "target": 2, "amount": 3}),
    ("parts", "water_parts", "cannot", {"stock": 10, "strength": 11}),
    ("share", "fraction", "cannot", {"stock": 10, "strength": 11}),
    ("three-way", "bleach", "cannot", {"stock": 10, "strength": 10, "water": 6, "soap": 1}),
    ("three-way", "bleach", "cannot", {"stock": 10, "strength": 12, "water": 6, "soap": 1}),
    ("siphon", "draw_gpm", "cannot", {"stock": 10, "strength": 10, "machine_gpm": 4}),
    ("draw-ratio", "ratio", "cannot", {"used_gal": 2, "seconds": 20, "out_gpm": "5.5"}),
    ("rescue", "water", "cannot", {"gal": 25, "pct": 2, "target": 3}),
    ("two-stocks", "strong_gal", "cannot", {"strong": 12, "weak": 8, "target": 13, "total": 9}),
    ("two-stocks", "weak_gal", "cannot", {"strong": 12, "weak": 8, "target": 6, "total": 9}),
    ("ageing", "days", "cannot", {"new": 10, "now": 12, "half": 100}),
    ("top-up", "add_gal", "too-strong",
     {"have_gal": 30, "have_pct": 4, "want_gal": 50, "want_pct": 1, "stock": "12.5"}),
    ("top-up", "add_water", "too-strong",
     {"have_gal": 30, "have_pct": 4, "want_gal": 50, "want_pct": 1, "stock": "12.5"}),
    ("top-up", "add_gal", "cannot",
     {"have_gal": 40, "have_pct": "1/2", "want_gal": 50, "want_pct": 4, "stock": "12.5"}),
    ("top-up", "add_water", "cannot",
     {"have_gal": 40, "have_pct": "1/2", "want_gal": 50, "want_pct": 4, "stock": "12.5"}),
]  # fmt: skip


@pytest.mark.parametrize(("name", "find", "word", "given"), WORDS)
def test_a_word_in_place_of_a_number(
    curriculum: Curriculum, name: str, find: str, word: str, given: dict[str, str | int]
) -> None:
    outcome = worked(curriculum, name, find, **given)
    assert (outcome.value, outcome.word) == (None, word)
    arrangement = plan(curriculum.relations[name], frozenset(given), find).arrangement
    assert working(arrangement, outcome)[-1].endswith(f"The answer is: {word.replace('-', ' ')}.")


REFUSED = [
    ("batch", "amount", {"stock": 10, "target": 1}, "give total as well"),
    ("top-up", "add_gal", {"have_gal": 20, "have_pct": 1, "want_gal": 50, "want_pct": 3},
     "stock"),
    ("batch", "amount", {"stok": 10, "target": 1, "total": 30}, 'did you mean "stock"'),
    ("batch", "amout", {"stock": 10, "target": 1, "total": 30}, 'did you mean "amount"'),
    ("batch", "amount", {"stock": 10, "target": 1, "total": 30, "amount": 3}, "leave it out"),
    ("batch", "verdict", {"stock": 10}, "use one of"),
    ("draw-ratio", "ratio", {"used_gal": 1, "seconds": 60, "draw_gpm": 2, "out_gpm": 5},
     "leave one of them out"),
    ("noise-niosh", "steps", {"dba": 88, "hours": 1}, "leave one of them out"),
    ("batch", "amount", {"stock": 0, "target": 0, "total": 30}, "check the numbers"),
    ("refill", "minutes", {"full": 100, "now": 120, "in_gpm": 5}, "check the numbers"),
    ("refill", "minutes", {"full": 100, "now": 20, "in_gpm": 0}, "check the numbers"),
    ("bucket-test", "gpm", {"gal": 5, "seconds": 0}, "check the numbers"),
    ("fan-width", "angle", {"standoff_in": 12, "width_in": 5}, "runs forward"),
    ("nozzle", "gpm", {"size": 4, "psi": -100}, "check the numbers"),
]  # fmt: skip


@pytest.mark.parametrize(("name", "find", "given", "told"), REFUSED)
def test_what_cannot_be_worked_is_refused_with_a_next_step(
    curriculum: Curriculum, name: str, find: str, given: dict[str, str | int], told: str
) -> None:
    with pytest.raises(Refusal) as refused:
        worked(curriculum, name, find, **given)
    assert told in refused.value.next


def square(low: Fraction | None, high: Fraction | None) -> Relation:
    """x*x - 5*x + 6 == y has the roots 2 and 3 for y = 0."""
    none = Unit("1")
    quantities = {"x": Quantity("x", none, "x", low, high), "y": Quantity("y", none, "y")}
    constants = {"six": Constant("six", F(6), none)}
    equation = parse_equation("x*x - 5*x + six == y")
    return Relation("square", "Square", quantities, {}, constants, (equation,), "")


def test_of_two_roots_the_range_picks_one() -> None:
    assert work(square(F(0), F("2.5")), {"y": F(0)}, "x").value == 2
    assert work(square(F("2.5"), None), {"y": F(0)}, "x").value == 3


def test_two_possible_roots_are_refused() -> None:
    with pytest.raises(Refusal, match="2 possible values") as told:
        work(square(None, None), {"y": F(0)}, "x")
    assert "range" in told.value.next


def test_no_possible_root_is_refused() -> None:
    with pytest.raises(Refusal, match="0 possible values"):
        work(square(F(10), None), {"y": F(0)}, "x")


pcts = st.fractions(1, 15, max_denominator=20)
sizes = st.fractions("1/4", 200, max_denominator=20)
LAW = settings(max_examples=40, deadline=None)


@LAW
@given(stock=pcts, water=sizes, more=sizes)
def test_more_parts_of_water_is_weaker(
    curriculum: Curriculum, stock: Fraction, water: Fraction, more: Fraction
) -> None:
    parts = curriculum.relations["parts"]
    weak = work(parts, {"stock": stock, "water_parts": water + more}, "strength").value
    strong = work(parts, {"stock": stock, "water_parts": water}, "strength").value
    assert weak is not None
    assert strong is not None
    assert 0 < weak < strong < stock


@LAW
@given(stock=pcts, bleach=sizes, water=sizes, soap=sizes, more=sizes)
def test_more_water_or_soap_at_the_head_is_weaker(
    curriculum: Curriculum,
    stock: Fraction,
    bleach: Fraction,
    water: Fraction,
    soap: Fraction,
    more: Fraction,
) -> None:
    head = curriculum.relations["three-way"]
    given = {"stock": stock, "bleach": bleach, "water": water, "soap": soap}
    start = work(head, given, "strength").value
    watered = work(head, {**given, "water": water + more}, "strength").value
    soaped = work(head, {**given, "soap": soap + more}, "strength").value
    assert start is not None
    assert watered is not None
    assert watered == soaped
    assert watered < start < stock


@LAW
@given(stock=pcts, share=st.fractions("1/50", 1, max_denominator=50), total=sizes)
def test_a_batch_and_the_same_share_agree(
    curriculum: Curriculum, stock: Fraction, share: Fraction, total: Fraction
) -> None:
    target = work(curriculum.relations["share"], {"stock": stock, "fraction": share}, "strength")
    given = {"stock": stock, "target": target.value, "total": total}
    amount = work(curriculum.relations["batch"], given, "amount").value  # type: ignore[arg-type]
    assert amount == share * total


@LAW
@given(have=sizes, room=sizes, have_pct=pcts, want_pct=pcts, stock=pcts)
def test_a_top_up_never_adds_less_than_nothing(
    curriculum: Curriculum,
    have: Fraction,
    room: Fraction,
    have_pct: Fraction,
    want_pct: Fraction,
    stock: Fraction,
) -> None:
    given = {"have_gal": have, "have_pct": have_pct, "want_gal": have + room}
    given |= {"want_pct": want_pct, "stock": stock}
    outcome = work(curriculum.relations["top-up"], given, "add_gal")
    least, most = have * have_pct, have * have_pct + room * stock
    wanted = (have + room) * want_pct
    if outcome.word:
        assert outcome.word == ("too-strong" if wanted < least else "cannot")
        assert not least <= wanted <= most
    else:
        assert outcome.value is not None
        assert 0 <= outcome.value <= room
        assert least <= wanted <= most


@LAW
@given(gal_a=sizes, pct_a=pcts, gal_b=sizes, pct_b=pcts)
def test_a_blend_lies_between_its_two_mixes(
    curriculum: Curriculum, gal_a: Fraction, pct_a: Fraction, gal_b: Fraction, pct_b: Fraction
) -> None:
    given = {"gal_a": gal_a, "pct_a": pct_a, "gal_b": gal_b, "pct_b": pct_b}
    mix = work(curriculum.relations["blend"], given, "pct_mix").value
    assert mix is not None
    assert min(pct_a, pct_b) <= mix <= max(pct_a, pct_b)


@LAW
@given(gal=sizes, out=sizes, coming=sizes)
def test_twice_the_tank_lasts_twice_as_long(
    curriculum: Curriculum, gal: Fraction, out: Fraction, coming: Fraction
) -> None:
    run_dry = curriculum.relations["run-dry"]
    once = work(run_dry, {"gal": gal, "out_gpm": out, "in_gpm": coming}, "minutes")
    twice = work(run_dry, {"gal": 2 * gal, "out_gpm": out, "in_gpm": coming}, "minutes")
    assert (once.word == "never") == (twice.word == "never") == (coming >= out)
    if once.value is not None:
        assert twice.value == 2 * once.value


@LAW
@given(
    gpm=st.fractions(1, 12, max_denominator=10),
    inside=st.sampled_from([F(3, 8), F(1, 2), F(5, 8), F(3, 4)]),
    length=st.integers(10, 400),
    c=st.integers(120, 150),
)
def test_twice_the_hose_loses_twice_the_pressure(
    curriculum: Curriculum, gpm: Fraction, inside: Fraction, length: int, c: int
) -> None:
    loss = curriculum.relations["hose-loss"]
    given = {"gpm": gpm, "inside_in": inside, "length_ft": F(length), "c": F(c)}
    once = work(loss, given, "psi").value
    twice = work(loss, {**given, "length_ft": F(2 * length)}, "psi").value
    wider = work(loss, {**given, "inside_in": inside + F(1, 8)}, "psi").value
    assert once is not None
    assert twice is not None
    assert wider is not None
    assert abs(twice / once - 2) < F(1, 10**30)
    assert wider < once


@LAW
@given(size=st.fractions(2, 20, max_denominator=2), psi=st.integers(100, 5000))
def test_four_times_the_pressure_is_twice_the_flow(
    curriculum: Curriculum, size: Fraction, psi: int
) -> None:
    nozzle = curriculum.relations["nozzle"]
    once = work(nozzle, {"size": size, "psi": F(psi)}, "gpm").value
    twice = work(nozzle, {"size": size, "psi": F(4 * psi)}, "gpm").value
    assert once is not None
    assert twice is not None
    assert abs(twice / once - 2) < F(1, 10**30)


@LAW
@given(dba=st.integers(80, 130))
def test_the_stricter_noise_rule_never_allows_longer(curriculum: Curriculum, dba: int) -> None:
    strict = work(curriculum.relations["noise-niosh"], {"dba": F(dba)}, "hours").value
    loose = work(curriculum.relations["noise-osha"], {"dba": F(dba)}, "hours").value
    assert strict is not None
    assert loose is not None
    assert strict <= loose


@LAW
@given(width=st.integers(8, 40), disc=st.integers(12, 30), lap=st.fractions(0, "1/2"))
def test_passes_cover_the_drive_and_one_less_would_not(
    curriculum: Curriculum, width: int, disc: int, lap: Fraction
) -> None:
    given = {"width_ft": F(width), "disc_in": F(disc), "overlap": lap}
    count = work(curriculum.relations["passes"], given, "passes").value
    assert count is not None
    assert count.denominator == 1
    covered = disc + (count - 1) * disc * (1 - lap)
    assert covered >= 12 * width > covered - disc * (1 - lap)
