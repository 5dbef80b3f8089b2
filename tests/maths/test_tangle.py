"""What is too tangled is refused before algebra is tried, which would not end; rules of a trade
are not."""

from __future__ import annotations

import pytest

from generator.errors import Refusal
from generator.maths.formula import parse_equation
from generator.maths.solve import solve
from generator.maths.tangle import degree, is_too_tangled, terms
from generator.model.course import Curriculum
from generator.solving.arrange import arrange

ENDLESS = [
    ("a**5 + b**5 == c**5", "a**4 + b**3*a == d**4"),
    ("sqrt(a*b) + sqrt(b*c) == d", "sqrt(a*c) + sqrt(c*b*a/d) == d"),
    ("a*(b + c + d)**12/(b + c + a)**12 == (a + b + c)**12/(a + b + d)**11",),
    ("(b + c + d + e + f + g + h + i)**12 == a*(b + c)",),
    ("3/e - (0.5 + f) + (a*0.5 - g**4.87) == e",),
    ("f/2/(g + (a - 0.5)) == (e + b - a**0.5)/(2 - 0.5 + e*c)",),
    ("3*a**3*e*b == c", "e**-1*sqrt(e**-1) == d*3 + b + a/f + c + 3"),
    ("a**4/b**3 + a**3/c**2 + a**2/d + a == d",),
]


@pytest.mark.parametrize("texts", ENDLESS)
def test_what_would_not_end_is_refused(texts: tuple[str, ...]) -> None:
    equations = tuple(parse_equation(text) for text in texts)
    unknowns = ("a", "b")[: len(texts)]
    assert is_too_tangled(equations, frozenset(unknowns))
    with pytest.raises(Refusal, match="can't be isolated"):
        solve(equations, unknowns, "a")


@pytest.mark.parametrize(
    "texts",
    [
        ("b*c == d*a",),
        ("b == c*a**1.85/d**4.87",),
        ("a**3*b == c",),
        ("sqrt(a/b) == c",),
        ("a**2 + b**2 == c**2",),
        ("(b + c)/(a + d) == e",),
        ("b*(a + c) == d*c - a/e",),
        ("a + b == c", "a*d + b*e == c*f"),
    ],
)
def test_what_a_trade_needs_is_solved(texts: tuple[str, ...]) -> None:
    equations = tuple(parse_equation(text) for text in texts)
    assert solve(equations, ("a", "b")[: len(texts)], "a")


@pytest.mark.parametrize(
    ("text", "above_below"),
    [("a*a/b", (2, 1)), ("a**3 + b", (3, 0)), ("c/(a + b)", (0, 1)), ("a/(1 + 1/b)", (2, 1)),
     ("sqrt(a)", (2, 0)), ("c**a", (2, 0)), ("3*c", (0, 0))],
)  # fmt: skip
def test_degree(text: str, above_below: tuple[int, int]) -> None:
    assert degree(parse_equation(f"{text} == 1").left, {"a", "b"}) == above_below


@pytest.mark.parametrize(
    ("text", "above_below"),
    [("a*b/c", (1, 1)), ("(a + b)**2", (3, 1)), ("a/(b + c) + 1", (3, 2)), ("-sum(a + b)", (1, 1))],
)
def test_terms(text: str, above_below: tuple[int, int]) -> None:
    assert terms(parse_equation(f"{text} == 1").left) == above_below


def test_every_relation_of_the_starter_still_runs_as_its_examples_ask(
    curriculum: Curriculum,
) -> None:
    for relation in curriculum.relations.values():
        for example in relation.examples:
            find = example.word[0] if example.word else list(example.values)[-1]
            given = {*example.values, *example.rows} - {find}
            assert arrange(relation, frozenset(given), find).steps
