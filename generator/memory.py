"""How often the interpreter looks for objects that nothing holds any more."""

from __future__ import annotations

import gc
from collections.abc import Iterator
from contextlib import contextmanager


def collect_rarely() -> None:
    """Look for unused cycles rarely: a command is short, and what it reads it keeps to the end.

    At the usual pace a third of the time of drawing items goes into looking, and a tenth of that
    of printing.
    """
    gc.set_threshold(50_000, 50, 100)


@contextmanager
def collecting_later() -> Iterator[None]:
    """Not at all inside the block, where many events are made at once.

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
