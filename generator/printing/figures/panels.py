"""Three panels side by side, as wide as the sheet: where each lies, and one that is numbered."""

from __future__ import annotations

from generator.printing.figures.pen import HEAD, PAPER, box, label, numbered

WIDE = 156.0
_GAP = 10.0


def left_of(place: int) -> float:
    """Where a panel begins; the first has place 0."""
    return 1 + place * (WIDE + _GAP)


def numbered_panel(place: int, tall: float, name: str) -> list[str]:
    """The frame of a panel with its number and its name on top."""
    x = left_of(place)
    return [
        box(x, 1, WIDE, tall, PAPER),
        numbered(x + 14, 15, place + 1),
        label(x + 30, 20, name, bold=True, size=HEAD),
    ]
