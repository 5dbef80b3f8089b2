"""Dates: the day it is, and the day a person typed."""

from __future__ import annotations

from datetime import date

from generator.errors import Refusal


def today() -> str:
    """Today as an ISO text."""
    return date.today().isoformat()


def read_day(text: str | None) -> str:
    """The day a person typed as 2026-04-30, or today. Raises Refusal for anything else."""
    if not text:
        return today()
    try:
        return date.fromisoformat(text).isoformat()
    except ValueError as trouble:
        raise Refusal(f'"{text}" is not a day', "write it like 2026-04-30") from trouble
