"""Working trees out: exact, over rows, and never beyond all reason."""

from __future__ import annotations

from fractions import Fraction

import pytest

from generator.errors import Refusal
from generator.maths.evaluate import Environment, is_inexact, value_of
from generator.maths.formula import parse

F = Fraction
ROWS: Environment = {"gal": (F(6), F(2)), "pct": (F(5), F(15)), "n": F(10)}
VALUES = [("sum(gal*pct)", 60), ("sum(gal*pct)/sum(gal)", F(15, 2)), ("max(gal)", 6),
          ("min(gal + n)", 12), ("sum(gal) + n", 18), ("max(1, n, 3)", 10), ("round(n/4)", 3),
          ("floor(-n/4)", -3), ("ceil(n/4)", 3), ("abs(-n)", 10), ("-n**2", -100),
          ("2**-1", F(1, 2)), ("sqrt(n + 6)", 4)]  # fmt: skip


@pytest.mark.parametrize(("text", "value"), VALUES)
def test_values(text: str, value: Fraction | int) -> None:
    assert value_of(parse(text), ROWS) == value


@pytest.mark.parametrize(
    ("text", "n"),
    [("2**n", 1001), ("n**12", 10**300), ("2**n", -5000), ("1/(n - 1)", 1), ("sqrt(n)", -1),
     ("log(n)", 0), ("n**-1", 0), ("tan(n)", 90), ("max(n)", 1), ("sum(2*n)", 1), ("min(7)", 1)],
)  # fmt: skip
def test_what_cannot_be_is_refused(text: str, n: int) -> None:
    with pytest.raises(Refusal) as told:
        value_of(parse(text), {"n": F(n)})
    assert told.value.next


def test_inexact_is_told() -> None:
    assert is_inexact(parse("sqrt(n)"), {"n": F(2)})
    assert not is_inexact(parse("sqrt(n)"), {"n": F(4)})
    assert is_inexact(parse("pi*n"), {"n": F(1)})
    assert not is_inexact(parse("n/3"), {"n": F(1)})
