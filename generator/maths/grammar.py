"""Python's own grammar, borrowed for formulas and units: a text as a syntax tree, never run."""

from __future__ import annotations

import ast
import warnings


def expression(text: str) -> ast.expr | None:
    """The tree of a text that is one expression, else None; how long it may be is the caller's."""
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")  # a text such as 1(2) only warns; callers refuse it
            return ast.parse(text.strip(), mode="eval").body
    except (SyntaxError, ValueError, RecursionError, MemoryError):
        return None
