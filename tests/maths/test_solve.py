"""Equations solved for one name; what can't be isolated is refused."""

from __future__ import annotations

from fractions import Fraction

import pytest

from generator.errors import Refusal
from generator.maths.evaluate import value_of
from generator.maths.formula import parse_equation
from generator.maths.solve import solve
from generator.maths.trees import names

F = Fraction
EQUATIONS = ["a*b == c*d", "a*(b + c) == d", "a == b*sqrt(c/d)", "a == b*c**1.85/d**4.87",
             "a == b/2**(c/d)"]  # fmt: skip


@pytest.mark.parametrize("text", EQUATIONS)
def test_each_name_solved_and_put_back(text: str) -> None:
    equation = parse_equation(text)
    for find in sorted(names(equation)):
        env = {"a": F(3), "b": F(7), "c": F(2), "d": F(40)}
        del env[find]
        (root,) = solve((equation,), (find,), find)
        env[find] = value_of(root, env)
        left, right = value_of(equation.left, env), value_of(equation.right, env)
        assert abs(left - right) <= F(1, 10**25) * abs(left)


@pytest.mark.parametrize("text", ["a == tan(b)", "a == ceil(b)", "a == sum(b)", "a == max(b, 1)"])
def test_what_cannot_be_isolated_is_refused(text: str) -> None:
    with pytest.raises(Refusal, match="stands inside") as told:
        solve((parse_equation(text),), ("b",), "b")
    assert "forward" in told.value.next
