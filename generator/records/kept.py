"""Dataclasses of the model as plain data for JSON and back, led by their type hints.

Fractions are kept exactly, as "p/q" texts. A field with a default may be missing, since older
records did not have it; a field nobody knows was written by a newer program.
"""

from __future__ import annotations

import types
from collections.abc import Sequence
from dataclasses import fields, is_dataclass
from fractions import Fraction
from functools import cache
from typing import Any, TypeVar, Union, get_args, get_origin, get_type_hints

from generator.errors import Refusal
from generator.model.item import Lines
from generator.records.rows import LongList

T = TypeVar("T")

LISTS = (list, LongList)
"""What a list of the record may be; a long one is decoded when it is looked at."""


def plain(value: Any) -> Any:
    """`value` as dicts, lists, texts, whole numbers, booleans and None."""
    match value:
        case Fraction():
            return f"{value.numerator}/{value.denominator}"
        case tuple() | list() | Lines():
            return [plain(each) for each in value]
        case dict():
            return {name: plain(each) for name, each in value.items()}
        case _ if is_dataclass(value):
            return {each.name: plain(getattr(value, each.name)) for each in fields(value)}
        case str() | int() | None:
            return value
    raise TypeError(f"{type(value).__name__} can't be kept in a record")


def rebuilt(kind: type[T], data: Any) -> T:
    """The `kind` that `plain` made `data` of. Raises Refusal when it can't have been one."""
    try:
        made: T = _made(kind, data)
    except (TypeError, ValueError, ArithmeticError) as error:
        raise Refusal(
            f"a {kind.__name__.lower()} in the record can't be read",
            "run rigprimer check --records to see whether it was changed",
        ) from error
    return made


def _made(hint: Any, data: Any) -> Any:
    origin, inside = get_origin(hint), get_args(hint)
    if is_dataclass(hint):
        return _dataclass(hint, data)
    if origin in (Union, types.UnionType):
        return _one_of(inside, data)
    if origin in (tuple, Sequence) and isinstance(data, LISTS):
        return tuple(_made(inside[0], each) for each in data)
    if origin is dict and isinstance(data, dict):
        return {name: _made(inside[1], each) for name, each in data.items()}
    if hint is Fraction and isinstance(data, str):
        return Fraction(data)
    if type(data) is hint:
        return data
    raise TypeError(f"{data!r} is not {hint}")


def _one_of(hints: tuple[Any, ...], data: Any) -> Any:
    """The first of the hints that fits: the model only joins things that look different."""
    if data is None and type(None) in hints:
        return None
    for hint in hints:
        is_list = (get_origin(hint) or hint) in (tuple, list)
        if hint is not type(None) and is_list == isinstance(data, LISTS):
            return _made(hint, data)
    raise TypeError(f"{data!r} is none of {hints}")


def _dataclass(kind: Any, data: Any) -> Any:
    known, hints = _shape(kind)
    if unknown := set(data) - set(known):
        raise Refusal(
            f'a {kind.__name__.lower()} in the record has "{min(unknown)}", not known here',
            "install the newer Rigprimer that wrote it",
        )
    return kind(**{name: _made(hints[name], data[name]) for name in known if name in data})


@cache
def _shape(kind: Any) -> tuple[tuple[str, ...], dict[str, Any]]:
    return tuple(each.name for each in fields(kind)), get_type_hints(kind)
