"""How often the interpreter looks for objects that nothing holds any more."""

from __future__ import annotations

import gc


def collect_rarely() -> None:
    """Look for unused cycles rarely: a command is short, and what it reads it keeps to the end.

    At the usual pace a third of the time of drawing items goes into looking, and a tenth of that
    of printing.
    """
    gc.set_threshold(50_000, 50, 100)
