"""Old keys go: on a shared computer a key is the one thing that must not lie about."""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path
from time import time

from generator.errors import Refusal

DAYS = 14
KINDS = (".pdf", ".html")
_DAY = 24 * 60 * 60


def old_keys(out: Path, days: int, now: float | None = None) -> list[Path]:
    """The printed keys older than so many days, the oldest first; nothing else, no other folder."""
    folder = out / "keys"
    if folder.is_symlink() or not folder.is_dir():
        return []
    limit = (time() if now is None else now) - days * _DAY
    files = [
        path
        for path in folder.iterdir()
        if path.suffix in KINDS and path.is_file() and not path.is_symlink()
    ]
    return sorted(
        (path for path in files if path.stat().st_mtime < limit), key=lambda p: p.stat().st_mtime
    )


def remove(keys: Iterable[Path]) -> None:
    """Delete them. Raises Refusal at the first that stays."""
    for key in keys:
        try:
            key.unlink(missing_ok=True)
        except OSError as trouble:
            reason = (trouble.strerror or "it failed").lower()
            raise Refusal(
                f"{key} can't be deleted: {reason}", "close it if it is open, then try again"
            ) from trouble
