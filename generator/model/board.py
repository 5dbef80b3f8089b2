"""The board: where everybody stands on one day, as it is printed and pinned to the wall."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Cell:
    """A person in a module: the state word, the date that goes with it, what is missing."""

    state: str  # a word of standing.STATES
    day: str = ""  # ISO; "cleared" until then, "lapsed" since then
    missing: tuple[str, ...] = ()
    since: str = ""  # ISO; the day the state began
    due: str = ""  # ISO; the last day it holds unrenewed
    note: str = ""  # the number of an exception, such as E1


@dataclass(frozen=True)
class Row:
    """A person with one cell for each module of the board.

    `wants` says in short what is missing, one line for each module that was begun.
    """

    person: str
    role: str
    cells: tuple[Cell, ...]
    wants: tuple[str, ...] = ()


@dataclass(frozen=True)
class Duty:
    """What may be done on a rig that day, as a whole sentence: `Nobody may mix today.`"""

    rig: str
    sentence: str
    open: bool  # whether anybody may


@dataclass(frozen=True)
class Board:
    """The whole board. `head` is the head of the record's chain, to prove what it was made from.

    `modules` are headings such as `mix, Rig 1`, in the order of the cells.
    """

    date: str  # ISO
    modules: tuple[str, ...]
    duties: tuple[Duty, ...]
    rows: tuple[Row, ...]
    note: str = ""
    head: str = ""
    exceptions: tuple[str, ...] = ()  # each with its number and its reason, for below the table
