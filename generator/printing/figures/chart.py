"""A plain graph with two axes, for what falls over time."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from generator.printing.figures.pen import (
    GREY,
    HEAVY,
    INK,
    WATER,
    label,
    line,
    shape,
)

Point = tuple[float, float]


@dataclass(frozen=True)
class Chart:
    """The area of a graph on the sheet, and the values at the ends of its axes."""

    left: float
    top: float
    width: float
    height: float
    x_end: float
    y_end: float

    @property
    def bottom(self) -> float:
        """Where the lower axis lies."""
        return self.top + self.height

    def at(self, x: float, y: float) -> Point:
        """Where a pair of values lies on the sheet."""
        return (
            self.left + self.width * x / self.x_end,
            self.bottom - self.height * y / self.y_end,
        )

    def axes(self, x_name: str, y_name: str) -> list[str]:
        """Both axes with their names."""
        return [
            line(self.left, self.top - 8, self.left, self.bottom),
            line(self.left, self.bottom, self.left + self.width + 8, self.bottom),
            label(self.left, self.top - 16, y_name, fill=GREY),
            label(self.left + self.width, self.bottom + 38, x_name, anchor="end", fill=GREY),
        ]

    def x_mark(self, value: float, words: str) -> str:
        """A tick with its words under the lower axis."""
        x, _ = self.at(value, 0)
        return line(x, self.bottom, x, self.bottom + 5) + label(
            x, self.bottom + 19, words, anchor="middle"
        )

    def y_mark(self, value: float, words: str) -> str:
        """A tick with its words left of the upright axis."""
        _, y = self.at(0, value)
        return line(self.left - 5, y, self.left, y) + label(
            self.left - 9, y + 4, words, anchor="end"
        )

    def curve(self, points: Sequence[Point]) -> str:
        """A thick line through the points, and the area under it in a pale pattern."""
        on_sheet = [self.at(x, y) for x, y in points]
        corners = [*on_sheet, self.at(points[-1][0], 0), self.at(points[0][0], 0)]
        area = shape("polygon", points=_pairs(corners), fill=WATER)
        stroke = shape(
            "polyline", points=_pairs(on_sheet), fill="none", stroke=INK, stroke_width=HEAVY
        )
        return area + stroke

    def guide(self, x: float, y: float) -> str:
        """Dashed lines from a point of the curve to both axes."""
        px, py = self.at(x, y)
        return line(self.left, py, px, py, dashed=True) + line(px, py, px, self.bottom, dashed=True)


def _pairs(points: Sequence[Point]) -> str:
    return " ".join(f"{x:.2f},{y:.2f}" for x, y in points)
