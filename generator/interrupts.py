"""Ctrl-C, put off until what has begun is whole."""

from __future__ import annotations

import signal
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass


@dataclass
class Interrupts:
    """Whether Ctrl-C has been pressed since the block began."""

    came: bool = False


@contextmanager
def put_off() -> Iterator[Interrupts]:
    """Within the block Ctrl-C is only noted, so that it can stop where it does no harm.

    At the end of the block it is heard after all. For the main thread, the only one that hears it.
    Where whoever started us has it ignored, as for a command left running in the background, it
    stays so. Raises KeyboardInterrupt.
    """
    interrupts = Interrupts()

    def note(_signal: int, _frame: object) -> None:
        interrupts.came = True

    before = signal.getsignal(signal.SIGINT)
    if before is not signal.SIG_IGN:
        signal.signal(signal.SIGINT, note)
    try:
        yield interrupts
    finally:
        signal.signal(signal.SIGINT, before)
    if interrupts.came:
        raise KeyboardInterrupt


@contextmanager
def not_heard_by_children() -> Iterator[None]:
    """A process started within the block never hears Ctrl-C; who starts it decides for it.

    It may hear it on systems that have no masks of signals.
    """
    if not hasattr(signal, "pthread_sigmask"):
        yield
        return
    before = signal.pthread_sigmask(signal.SIG_BLOCK, {signal.SIGINT})
    try:
        yield
    finally:
        signal.pthread_sigmask(signal.SIG_SETMASK, before)
