"""Formula texts: what is allowed reads as a tree, all else is refused with a reason."""

from __future__ import annotations

import pickle
import time
from fractions import Fraction
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.errors import Refusal
from generator.maths.formula import (
    DEEPEST,
    LONGEST,
    MOST_NODES,
    parse,
    parse_condition,
    parse_equation,
)
from generator.maths.trees import Binary, Name, Number, names

KNOWN = ("stock", "target", "total", "amount", "water", "gal")
LINES = (Path(__file__).parents[1] / "cases" / "formulas.txt").read_text(encoding="utf-8")
CASES = [
    tuple(line.rsplit(" => ", 1))
    for line in LINES.splitlines()
    if line.strip() and not line.startswith("#")
]


@pytest.mark.parametrize(("text", "told"), CASES)
def test_a_formula_is_read_or_refused(text: str, told: str) -> None:
    start = time.perf_counter()
    if told == "ok":
        assert names(parse(text, KNOWN)) <= set(KNOWN)
    else:
        with pytest.raises(Refusal) as refused:
            parse(text, KNOWN)
        assert told in str(refused.value)
        assert refused.value.next
    assert time.perf_counter() - start < 2


def test_there_are_enough_cases() -> None:
    good = sum(told == "ok" for _, told in CASES)
    assert good >= 20
    assert len(CASES) - good >= 60
    assert len(set(CASES)) == len(CASES)


TOO_MUCH = [
    ("", "is empty"),
    ("  \t ", "is empty"),
    ("stock+" * 40 + "stock", "characters long"),
    ("+".join(["gal"] * 45), "parts"),
    ("-" * (DEEPEST + 2) + "gal", "nested too deep"),
    ("sqrt(" * 20 + "gal" + ")" * 20, "nested too deep"),
    ("(" * 99 + "gal" + ")" * 99, "characters long"),
    ("9" * 5000, "characters long"),
    ("gal\0", "is not a formula"),
    ("gal\ntotal", "is not a formula"),
]


@pytest.mark.parametrize(("text", "told"), TOO_MUCH)
def test_too_much_is_refused(text: str, told: str) -> None:
    with pytest.raises(Refusal) as refused:
        parse(text)
    # A long sum may be too deep before it has too many parts.
    assert told in str(refused.value) or (told == "parts" and "too deep" in str(refused.value))


def test_the_limits_themselves_are_allowed() -> None:
    assert parse("gal" + " " * (LONGEST - 3))
    assert parse("-" * DEEPEST + "gal")
    assert MOST_NODES >= 80


@given(st.text(max_size=60) | st.text("()*/+-.,'\"=<>stockgal0123456789 e_[]{}:", max_size=60))
def test_any_text_is_a_formula_or_a_refusal(text: str) -> None:
    try:
        tree = parse(text, KNOWN)
    except Refusal as refused:
        assert str(refused)  # noqa: PT017 - either outcome is right; no other error may come
    else:
        assert names(tree) <= set(KNOWN)


def test_numbers_are_exact() -> None:
    assert parse("0.1") == Number(Fraction(1, 10))
    assert parse("3.123456789012345") == Number(Fraction("3.123456789012345"))
    assert parse("1/4") == Binary("/", Number(Fraction(1)), Number(Fraction(4)))


def test_python_rules_of_order_hold() -> None:
    assert parse("stock - target - total") == parse("(stock - target) - total")
    assert parse("stock*target**2") == parse("stock*(target**2)")
    assert parse("-stock**2") == parse("-(stock**2)")
    assert parse("stock/target*total") != parse("stock/(target*total)")


def test_trees_survive_pickling_and_can_be_kept() -> None:
    tree = parse("max(stock, total)*sqrt(gal) - 2")
    assert pickle.loads(pickle.dumps(tree)) == tree
    assert len({tree, parse("max(stock,total) * sqrt(gal) - 2")}) == 1


@pytest.mark.parametrize("text", ["stock", "stock > 1", "stock != 1"])
def test_an_equation_needs_two_equal_signs(text: str) -> None:
    with pytest.raises(Refusal, match="left == right"):
        parse_equation(text)


def test_a_condition_compares() -> None:
    assert parse_condition("stock >= 1").left == Name("stock")
    with pytest.raises(Refusal, match="compares nothing"):
        parse_condition("stock")
