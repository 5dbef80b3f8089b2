"""Exact arithmetic, units and formulas; only `solve.py` and `symbols.py` import sympy."""
