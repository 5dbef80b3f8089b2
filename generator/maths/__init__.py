"""Exact arithmetic, units and formulas; sympy is imported in `solve.py` alone."""
