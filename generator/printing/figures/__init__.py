"""Figures: small drawings made from numbers, by name, with the numbers each one needs.

A figure is an SVG text. It must be legible in black and white: every area has a pattern and a
label of its own, and every number on it carries its unit.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from generator.errors import Refusal, nearest
from generator.printing.figures import (
    ageing,
    batch_bar,
    chemical_side,
    clear_zone,
    closed_van,
    cuffs,
    dam,
    dilution_card,
    downspout,
    drain_down,
    dwell_window,
    eyewash,
    families,
    fan_width,
    head_parts,
    head_valves,
    heat_schedule,
    hose_lag,
    hose_route,
    ladder_buckle,
    ladder_triangle,
    lanes,
    noise_halving,
    plants,
    power_line,
    ratio_fraction,
    roof_slope,
    start_stop,
    stones_windows,
    stop_signal,
    storm_drain,
    three_places,
    tip_sizes,
    top_up,
    two_stage,
    two_strips,
    upwind,
    van_weights,
    wall_gable,
    water_side,
)
from generator.printing.figures.pen import Numbers


@dataclass(frozen=True)
class Figure:
    """The function that draws it, and the numbers it needs."""

    draw: Callable[[Numbers], str]
    needs: tuple[str, ...] = ()


FIGURES: Mapping[str, Figure] = {
    # the rig
    "water-side": Figure(water_side.draw),
    "chemical-side": Figure(chemical_side.draw, chemical_side.NEEDS),
    "start-stop": Figure(start_stop.draw),
    "tip-sizes": Figure(tip_sizes.draw, tip_sizes.NEEDS),
    "hose-lag": Figure(hose_lag.draw, hose_lag.NEEDS),
    "hose-route": Figure(hose_route.draw, hose_route.NEEDS),
    "drain-down": Figure(drain_down.draw, drain_down.NEEDS),
    # mixing
    "batch-bar": Figure(batch_bar.draw, batch_bar.NEEDS),
    "dilution-card": Figure(dilution_card.draw, dilution_card.NEEDS),
    "ratio-fraction": Figure(ratio_fraction.draw, ratio_fraction.NEEDS),
    "head-valves": Figure(head_valves.draw, head_valves.NEEDS),
    "head-parts": Figure(head_parts.draw, head_parts.NEEDS),
    "two-stage": Figure(two_stage.draw, two_stage.NEEDS),
    "top-up": Figure(top_up.draw, top_up.NEEDS),
    "ageing": Figure(ageing.draw, ageing.NEEDS),
    # washing
    "wall-gable": Figure(wall_gable.draw, wall_gable.NEEDS),
    "roof-slope": Figure(roof_slope.draw, roof_slope.NEEDS),
    "dwell-same": Figure(dwell_window.draw_same, dwell_window.NEEDS),
    "dwell-reverse": Figure(dwell_window.draw_reverse, dwell_window.NEEDS),
    "lanes": Figure(lanes.draw, lanes.NEEDS),
    # what runs off
    "plants": Figure(plants.draw),
    "downspout": Figure(downspout.draw),
    "storm-drain": Figure(storm_drain.draw),
    "dam": Figure(dam.draw, dam.NEEDS),
    # what can hurt
    "families": Figure(families.draw),
    "two-strips": Figure(two_strips.draw),
    "three-places": Figure(three_places.draw),
    "upwind": Figure(upwind.draw),
    "closed-van": Figure(closed_van.draw, closed_van.NEEDS),
    "eyewash": Figure(eyewash.draw, eyewash.NEEDS),
    "cuffs": Figure(cuffs.draw),
    "stop-signal": Figure(stop_signal.draw),
    "clear-zone": Figure(clear_zone.draw, clear_zone.NEEDS),
    "stones-windows": Figure(stones_windows.draw, stones_windows.NEEDS),
    "fan-width": Figure(fan_width.draw, fan_width.NEEDS),
    "ladder-buckle": Figure(ladder_buckle.draw),
    "ladder-triangle": Figure(ladder_triangle.draw, ladder_triangle.NEEDS),
    "power-line": Figure(power_line.draw, power_line.NEEDS),
    "noise-halving": Figure(noise_halving.draw, noise_halving.NEEDS),
    "heat-schedule": Figure(heat_schedule.draw, heat_schedule.NEEDS),
    "van-weights": Figure(van_weights.draw, van_weights.NEEDS),
}


def draw(name: str, numbers: Numbers) -> str:
    """The figure of that name as SVG.

    Raises Refusal for an unknown name, and for numbers that are missing or can't be drawn.
    """
    if name not in FIGURES:
        raise Refusal(f'the figure "{name}" is not known', nearest(name, FIGURES))
    figure = FIGURES[name]
    missing = sorted(set(figure.needs) - numbers.keys())
    if missing:
        raise Refusal(f'the figure "{name}" lacks {", ".join(missing)}', 'add it under "with"')
    return figure.draw(numbers)
