"""Data of a document as one of the shapes: pydantic's errors as faults for people."""

from __future__ import annotations

from typing import Any, TypeVar

from pydantic import BaseModel, ValidationError
from pydantic_core import ErrorDetails

from generator.errors import Fault, Faults, nearest
from generator.reading.nodes import Document, Path_

S = TypeVar("S", bound=BaseModel)


def validated(shape: type[S], document: Document, path: Path_, data: Any) -> S:
    """`data`, standing at `path` of the document, as a `shape`. Raises Faults, all at once."""
    try:
        return shape.model_validate(data)
    except ValidationError as trouble:
        errors = trouble.errors()
        raise Faults(_fault(shape, document, path, error) for error in errors) from trouble


def _fault(shape: type[S], document: Document, path: Path_, error: ErrorDetails) -> Fault:
    where = tuple(p for p in error["loc"] if not str(p).endswith("Shape") and "list[" not in str(p))
    what, next = _said(shape, error)
    return document.fault((*path, *where), what, next)


def _said(shape: type[BaseModel], error: ErrorDetails) -> tuple[str, str]:
    key = str(error["loc"][-1]) if error["loc"] else "the file"
    context: dict[str, Any] = error.get("ctx", {})
    match error["type"]:
        case "refusal":
            what = context["what"]
            return what if key.isdigit() else f"{key}: {what}", context["next"]
        case "missing":
            return f"{key} is missing", f"add {key}:"
        case "extra_forbidden":
            return f"{key} is not a known key", nearest(key, _keys_near(shape, error["loc"][:-1]))
        case "literal_error":
            return f'{key} is "{error["input"]}"', f"use {context['expected']}"
        case "string_pattern_mismatch":
            return f'{key}: "{error["input"]}" is not a plain name', "use small letters, digits, -"
        case "string_too_short":
            return f"{key} is empty", "write something, or remove the line"
        case "too_short" | "too_long":
            least, most = context.get("min_length"), context.get("max_length")
            limit = f"write {least} at least" if least else f"write {most} at most"
            return f"{key} has {context['actual_length']} entries", limit
        case "string_type":
            return f"{key} should be a text", "put it on one line, in quotes"
        case "list_type":
            return f"{key} should be a list", "write [one, two], or one line each with - before it"
        case _:
            return f"{key} should be keys with values", "write key: value, one to a line"


def _keys_near(shape: type[BaseModel], loc: tuple[int | str, ...]) -> list[str]:
    """The keys of the innermost shape along `loc`, for "did you mean"."""
    current: type[BaseModel] = shape
    for step in loc:
        field = next((f for n, f in current.model_fields.items() if step in (n, f.alias)), None)
        inner = _inner_shape(field.annotation) if field else None
        current = inner or current
    return [field.alias or name for name, field in current.model_fields.items()]


def _inner_shape(annotation: Any) -> type[BaseModel] | None:
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        return annotation
    arguments = getattr(annotation, "__args__", ())
    return next((found for a in arguments if (found := _inner_shape(a))), None)
