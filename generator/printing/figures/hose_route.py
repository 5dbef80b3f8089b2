"""Hose to lay, seen from above: truck to the house, half the way round, and slack."""

from __future__ import annotations

from generator.printing.figures.pen import (
    BOLD,
    HEAVY,
    INK,
    PALE,
    PAPER,
    Numbers,
    arrow,
    box,
    disc,
    label,
    line,
    path,
    positive,
    said,
    sheet,
)

NEEDS = ("truck_ft", "around_ft", "slack")


def draw(numbers: Numbers) -> str:
    """Truck to the house and all the way round it in ft; slack is a share such as 1/10."""
    truck, around, slack = positive("hose-route", numbers, *NEEDS)
    run = truck + around / 2
    total = said(run * (1 + slack), "ft")
    return sheet(
        236,
        [
            *_rig(),
            *_house(),
            *_hose(),
            label(98, 128, said(truck, "ft"), bold=True),
            label(396, 96, "half way round:"),
            label(396, 114, said(around / 2, "ft"), bold=True),
            label(396, 20, "far corner"),
            arrow(394, 24, 374, 36),
            label(1, 212, f"{said(truck, 'ft')} + {said(around / 2, 'ft')} = {said(run, 'ft')}"),
            label(1, 231, f"plus {said(slack * 100, '%')} slack: lay {total}", bold=True),
        ],
    )


def _rig() -> list[str]:
    """The truck from above, at the near corner's side."""
    return [
        box(6, 132, 70, 40, PALE),
        box(6, 138, 18, 28, PAPER),
        label(41, 190, "truck", anchor="middle"),
    ]


def _house() -> list[str]:
    return [
        box(188, 44, 166, 104, PALE),
        path("M188 44L230 96H312L354 44M188 148L230 96M312 96L354 148"),
        label(271, 82, "house", anchor="middle"),
    ]


def _hose() -> list[str]:
    """From the truck to the near corner, then along two sides to the far one."""
    slack = "q5 -8 10 0t10 0t10 0"
    return [
        path(f"M76 152h30{slack}H178", thick=HEAVY),
        path("M178 152q4 8 14 8H358q8 0 8 -8V36", thick=HEAVY),
        line(178, 146, 178, 170, dashed=True, thick=BOLD),
        disc(366, 36, 5, INK),
        label(150, 186, "near corner"),
        path("M178 36V150M178 36H358", dashed=True),
    ]
