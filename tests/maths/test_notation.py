"""Formulas as people read them."""

from __future__ import annotations

import pytest

from generator.maths.formula import parse
from generator.maths.notation import written

WRITTEN = [("a*b/c", "a × b ÷ c"), ("a/(b*c)", "a ÷ (b × c)"), ("a - (b - c)", "a − (b − c)"),
           ("a - b - c", "a − b − c"), ("(a + b)*c", "(a + b) × c"), ("a**2", "a²"),
           ("pi*a", "π × a"), ("sqrt(a/b)", "√(a ÷ b)"), ("a <= b", "a ≤ b"),
           ("a == b", "a = b"), ("12000*a", "12,000 × a"), ("(a + b)**2", "(a + b)²"),
           ("a/(b/c)", "a ÷ (b ÷ c)")]  # fmt: skip


@pytest.mark.parametrize(("text", "line"), WRITTEN)
def test_written(text: str, line: str) -> None:
    assert written(parse(text)) == line
