"""Printed things written whole or not at all.

Unlike the record they can be made again, so nobody waits for the disk to have them.
"""

from __future__ import annotations

import os
from contextlib import suppress
from pathlib import Path

from generator.errors import Refusal


def write_whole(path: Path, content: bytes) -> None:
    """Write beside `path`, then put it in its place: nobody ever finds half a file.

    It is its owner's alone to read: keys hold answers, slips and files hold names. Raises Refusal
    when that can't be done.
    """
    part = path.with_name(f".{path.name}.{os.getpid()}.part")
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        with open(part, "wb", opener=_for_the_owner) as file:
            file.write(content)
        part.replace(path)
    except OSError as error:
        raise Refusal(
            f"{path} can't be written: {error.strerror}",
            "close it if it is open, or choose another folder with --out",
        ) from error
    finally:
        with suppress(OSError):
            part.unlink(missing_ok=True)


def _for_the_owner(name: str, flags: int) -> int:
    return os.open(name, flags, 0o600)
