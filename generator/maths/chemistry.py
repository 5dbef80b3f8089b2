"""Chemical formulas and equations: molar masses, and the coefficients that balance.

Atomic weights are the abridged standard values of IUPAC (2021), held against two libraries in the
tests.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import gcd, lcm

from generator.errors import Refusal, nearest

WEIGHTS = {
    name: Fraction(weight)
    for name, weight in {
        "H": "1.008",
        "C": "12.011",
        "N": "14.007",
        "O": "15.999",
        "F": "18.998",
        "Na": "22.990",
        "Mg": "24.305",
        "Al": "26.982",
        "P": "30.974",
        "S": "32.06",
        "Cl": "35.45",
        "K": "39.098",
        "Ca": "40.078",
        "Fe": "55.845",
        "Cu": "63.546",
        "Zn": "65.38",
    }.items()
}
LONGEST = 80
_PIECE = re.compile(r"([A-Z][a-z]?)([0-9]{0,3})|(\()|\)([0-9]{0,3})")
_SMALL = str.maketrans("0123456789", "₀₁₂₃₄₅₆₇₈₉")


def atoms(formula: str) -> Counter[str]:
    """How many atoms of each element: `Ca(OCl)2`, `C2H2O4(H2O)2`.

    Raises Refusal for an element not in the table, and for brackets that do not pair.
    """
    if len(formula) > LONGEST:
        raise Refusal(f"the formula is {len(formula)} characters long", f"{LONGEST} is the limit")
    stack: list[Counter[str]] = [Counter()]
    place = 0
    while place < len(formula):
        piece = _PIECE.match(formula, place)
        if not piece:
            raise _unreadable(formula)
        place = piece.end()
        element, count, opens, times = piece.groups()
        if element:
            if element not in WEIGHTS:
                raise Refusal(f'the element "{element}" is not known', nearest(element, WEIGHTS))
            stack[-1][element] += int(count or 1)
        elif opens:
            stack.append(Counter())
        else:
            if len(stack) == 1:
                raise _unreadable(formula)
            inside = stack.pop()
            for name, number in inside.items():
                stack[-1][name] += number * int(times or 1)
    if len(stack) > 1 or not stack[0] or 0 in stack[0].values():
        raise _unreadable(formula)
    return stack[0]


def _unreadable(formula: str) -> Refusal:
    return Refusal(f'"{formula}" is not a chemical formula', "write it like NaOCl or Ca(OCl)2")


def molar_mass(formula: str) -> Fraction:
    """Grams a mole. Raises Refusal as `atoms` does."""
    return sum((WEIGHTS[e] * count for e, count in atoms(formula).items()), Fraction(0))


@dataclass(frozen=True)
class Balanced:
    """A balanced equation: formulas with their least whole coefficients."""

    reactants: tuple[tuple[int, str], ...]
    products: tuple[tuple[int, str], ...]

    def coefficient(self, formula: str) -> int:
        """How many of that formula take part. Raises Refusal when none does."""
        sides = {name: count for count, name in (*self.reactants, *self.products)}
        if formula not in sides:
            raise Refusal(f'"{formula}" takes no part in the reaction', nearest(formula, sides))
        return sides[formula]

    def grams(self, wanted: str, given: str) -> Fraction:
        """Grams of `wanted` that go with one gram of `given`."""
        moles = Fraction(self.coefficient(wanted), self.coefficient(given))
        return moles * molar_mass(wanted) / molar_mass(given)

    def text(self) -> str:
        """`2 HCl + NaOCl → Cl₂ + NaCl + H₂O`."""
        return f"{_side(self.reactants)} → {_side(self.products)}"


def _side(terms: tuple[tuple[int, str], ...]) -> str:
    return " + ".join(f"{n} {f}" if n > 1 else f for n, f in ((c, _small(f)) for c, f in terms))


def _small(formula: str) -> str:
    return formula.translate(_SMALL)


def balance(reactants: Sequence[str], products: Sequence[str]) -> Balanced:
    """The one set of least whole numbers with every element as often on both sides.

    It spans the null space of the matrix of elements by formulas. Raises Refusal when no numbers
    balance, or when more than one set does.
    """
    formulas = [*reactants, *products]
    counts = [atoms(formula) for formula in formulas]
    elements = sorted(set().union(*counts))
    signs = [1] * len(reactants) + [-1] * len(products)
    rows = [[sign * count[e] for sign, count in zip(signs, counts, strict=True)] for e in elements]
    from generator.maths.solve import null_space  # loads sympy, for balancing alone

    found = null_space(rows)
    if len(found) != 1:
        what = "can't be balanced" if not found else "balances in more than one way"
        raise Refusal(f"{' + '.join(reactants)} → {' + '.join(products)} {what}", _SPLIT)
    whole = _least_whole(found[0])
    if min(whole) <= 0:
        raise Refusal(f"{' + '.join(reactants)} does not make {' + '.join(products)}", _SPLIT)
    terms = tuple(zip(whole, formulas, strict=True))
    return Balanced(terms[: len(reactants)], terms[len(reactants) :])


_SPLIT = "check the formulas, or split it into two reactions"


def _least_whole(vector: tuple[Fraction, ...]) -> list[int]:
    scale = lcm(*(x.denominator for x in vector))
    whole = [int(x * scale) for x in vector]
    common = gcd(*whole)
    sign = -1 if sum(whole) < 0 else 1
    return [sign * x // common for x in whole]
