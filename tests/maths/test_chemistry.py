"""Formulas, molar masses and balances, against two libraries; what is no formula is refused."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.errors import Refusal
from generator.maths.chemistry import WEIGHTS, atoms, balance, molar_mass

F = Fraction


@pytest.mark.parametrize(
    ("formula", "expected"),
    [
        ("NaOCl", {"Na": 1, "O": 1, "Cl": 1}),
        ("Cl2", {"Cl": 2}),
        ("Ca(OCl)2", {"Ca": 1, "O": 2, "Cl": 2}),
        ("C2H2O4(H2O)2", {"C": 2, "H": 6, "O": 6}),
        ("Fe2(SO4)3", {"Fe": 2, "S": 3, "O": 12}),
        ("K4(Fe(CN)6)", {"K": 4, "Fe": 1, "C": 6, "N": 6}),
    ],
)
def test_the_atoms_of_a_formula(formula: str, expected: dict[str, int]) -> None:
    assert dict(atoms(formula)) == expected


@pytest.mark.parametrize(
    "text", ["", "naocl", "NaOCl)", "(NaOCl", "Na0", "2H2O", "H2O.5", "Na-Cl", "()", "H 2", "Xy"]
)
def test_what_is_no_formula_is_refused(text: str) -> None:
    with pytest.raises(Refusal):
        atoms(text)


@pytest.mark.parametrize("element", WEIGHTS)
def test_every_atomic_weight_is_that_of_a_library(element: str) -> None:
    molmass = pytest.importorskip("molmass")
    assert float(WEIGHTS[element]) == pytest.approx(molmass.Formula(element).mass, rel=2e-4)


def test_every_reaction_of_the_curriculum_balances_as_a_library_says(curriculum) -> None:  # type: ignore[no-untyped-def]
    chempy = pytest.importorskip("chempy")
    assert curriculum.reactions
    for reaction in curriculum.reactions.values():
        ours = reaction.balanced
        left, right = chempy.balance_stoichiometry(
            {name for _, name in ours.reactants}, {name for _, name in ours.products}
        )
        assert {name: count for count, name in ours.reactants} == dict(left), reaction.id
        assert {name: count for count, name in ours.products} == dict(right), reaction.id


@given(
    counts=st.dictionaries(
        st.sampled_from(sorted(WEIGHTS)), st.integers(1, 30), min_size=1, max_size=6
    )
)
@settings(max_examples=60, deadline=None)
def test_a_formula_weighs_what_its_atoms_weigh(counts: dict[str, int]) -> None:
    formula = "".join(f"{name}{count if count > 1 else ''}" for name, count in counts.items())
    assert dict(atoms(formula)) == counts
    assert molar_mass(formula) == sum(WEIGHTS[name] * count for name, count in counts.items())
    assert molar_mass(f"({formula})3") == 3 * molar_mass(formula)


def test_mass_is_kept_in_every_reaction(curriculum) -> None:  # type: ignore[no-untyped-def]
    for reaction in curriculum.reactions.values():
        sides = reaction.balanced.reactants, reaction.balanced.products
        left, right = (sum(count * molar_mass(name) for count, name in side) for side in sides)
        assert left == right, reaction.id


@pytest.mark.parametrize(
    ("reactants", "products", "says"),
    [
        (["NaOCl"], ["Cl2"], "can't be balanced"),
        (["NaCl", "H2O"], ["NaOCl", "H2", "HCl", "NaOH"], "in more than one way"),
        (["NaOCl", "NaCl"], ["NaClO3"], "does not make"),
    ],
)
def test_what_does_not_balance_is_refused(
    reactants: list[str], products: list[str], says: str
) -> None:
    with pytest.raises(Refusal, match=says):
        balance(reactants, products)


def test_acid_frees_as_much_chlorine_as_trade_percent_counts() -> None:
    """Trade percent is defined by it: one mole of chlorine for each mole of hypochlorite."""
    reaction = balance(["NaOCl", "HCl"], ["Cl2", "NaCl", "H2O"])
    assert reaction.text() == "NaOCl + 2 HCl → Cl₂ + NaCl + H₂O"
    assert reaction.grams("Cl2", "NaOCl") == molar_mass("Cl2") / molar_mass("NaOCl")
    with pytest.raises(Refusal, match="takes no part"):
        reaction.grams("Cl2", "KOH")
