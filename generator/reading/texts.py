"""The texts of a file that people read, as against its ids, names and numbers."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from generator.reading.nodes import Path_

_TEXTS = {"title", "aim", "why", "text", "happens", "do", "call", "pass", "idea", "right", "ask"}
_TEXTS |= {"reason", "caption", "alt", "tell", "look", "label", "convention", "passed", "not_yet"}
_LISTS = {"steps", "order"}
NO_WORDS = {
    "with",
    "numbers",
    "draw",
    "constants",
    "examples",
    "whole",
    "sources",
    "paper",
    "keep",
}
"""Keys below which there is nothing to read."""


def texts(node: Any, path: Path_ = (), unit: Path_ = ()) -> Iterator[tuple[Path_, str, Path_]]:
    """Each text with its path, and the path of the thing with an id that it belongs to.

    A thing has an id, or is an entry of a file that holds nothing but entries; what belongs to
    none is the file's own, of the path ().
    """
    if isinstance(node, dict):
        entries = not path and bool(node) and all(isinstance(v, dict) for v in node.values())
        for key, value in node.items():
            if is_text(node, key):
                yield (*path, key), value, unit
            elif isinstance(value, dict | list) and key not in NO_WORDS:
                yield from texts(value, (*path, key), (key,) if entries else unit)
    elif isinstance(node, list):
        for place, value in enumerate(node):
            here = (*path, place)
            if isinstance(value, str) and path and path[-1] in _LISTS:
                yield here, value, unit
            else:
                owned = isinstance(value, dict) and "id" in value
                yield from texts(value, here, here if owned else unit)


def is_text(node: dict[str, Any], key: str) -> bool:
    """Whether a key of a mapping holds a text that people read."""
    value = node[key]
    is_flag = key == "right" and "text" in node  # `right: yes` of an option
    return key in _TEXTS and isinstance(value, str) and bool(value) and not is_flag
