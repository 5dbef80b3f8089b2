"""Python's garbage collector, put off while many events are made at once."""

from __future__ import annotations

import gc
from collections.abc import Iterator
from contextlib import contextmanager


@contextmanager
def put_off() -> Iterator[None]:
    """No collection inside the block.

    Every event read is kept, so looking through them for garbage again and again finds none; it
    made reading 200,000 events three times as slow.
    """
    was_on = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if was_on:
            gc.enable()
