"""Tables of Markdown within a text: where they stand, and what their cells say."""

from __future__ import annotations

import re

TABLE = re.compile(r"((?:^[ \t]*\|.*(?:\n|\Z))+)", re.MULTILINE)
"""A whole table, in the group."""
_SIGNS = re.compile(r"[*`]")
_RULE = re.compile(r"[\s:-]*")


def cells(table: str) -> list[list[str]]:
    r"""The cells of each row, Markdown's signs left out; what only draws a line is no row.

    >>> cells("| At | Wait |\n|---|:-:|\n| 120 °F | **5 min** |\n")
    [['At', 'Wait'], ['120 °F', '5 min']]
    """
    rows = (row.strip().strip("|").split("|") for row in _SIGNS.sub("", table).splitlines())
    return [[cell.strip() for cell in row] for row in rows if not all(map(_RULE.fullmatch, row))]
