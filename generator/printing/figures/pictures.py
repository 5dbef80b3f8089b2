"""Small pictures that figures share: people, houses, plants, jugs, valves, cones, marks.

Each stands on a `ground` line or round a middle, in SVG units, and carries no words.
"""

from __future__ import annotations

from math import cos, radians, sin

from generator.printing.figures.pen import (
    BOLD,
    HEAVY,
    INK,
    LINE,
    PALE,
    PAPER,
    SOIL,
    STOCK,
    box,
    disc,
    line,
    path,
    shape,
)

_ARMS = {  # elbow and hand of each arm, in heights of the person from the foot upwards
    "down": ((-0.15, 0.6, -0.17, 0.44), (0.15, 0.6, 0.17, 0.44)),
    "crossed": ((-0.22, 0.88, 0.14, 1.12), (0.22, 0.88, -0.14, 1.12)),
    "ahead": ((0.12, 0.6, 0.34, 0.62), (0.16, 0.66, 0.4, 0.7)),
    "up": ((0.14, 0.8, 0.34, 0.98), (0.16, 0.84, 0.42, 1.02)),
    "low": ((0.1, 0.58, 0.28, 0.46), (0.14, 0.62, 0.34, 0.5)),
}


def person(x: float, ground: float, tall: float, arms: str = "down", *, left: bool = False) -> str:
    """Somebody standing; the arms are down, crossed, ahead, up or low. `left` turns them."""
    side = -tall if left else tall

    def at(dx: float, up: float) -> str:
        return f"{x + dx * side:.2f} {ground - up * tall:.2f}"

    limbs = [f"M{at(0, 0.48)}L{at(0.09, 0.02)}", f"M{at(0, 0.48)}L{at(-0.09, 0.02)}"]
    limbs += [f"M{at(0, 0.74)}L{at(a, b)}L{at(c, d)}" for a, b, c, d in _ARMS[arms]]
    return (
        path(f"M{at(0, 0.73)}L{at(0, 0.5)}", thick=tall * 0.15)
        + path("".join(limbs), thick=tall * 0.07)
        + shape("circle", cx=x, cy=ground - tall * 0.91, r=tall * 0.09, fill=INK)
    )


def hand_of(x: float, ground: float, tall: float, arms: str) -> tuple[float, float]:
    """Where the farther hand of such a person is."""
    dx, up = _ARMS[arms][1][2:]
    return x + dx * tall, ground - up * tall


def house(x: float, ground: float, width: float, height: float, roof: float) -> list[str]:
    """A house seen from its gable, with a door and a window."""
    top = ground - height
    return [
        box(x, top, width, height, PAPER),
        path(f"M{x - 5} {top}L{x + width / 2} {top - roof}L{x + width + 5} {top}Z", fill=PALE),
        box(x + width * 0.62, ground - height * 0.62, width * 0.2, height * 0.62, PAPER),
        box(x + width * 0.16, top + height * 0.25, width * 0.24, height * 0.3, PAPER),
    ]


def plant(x: float, ground: float, tall: float, *, burnt: bool = False) -> str:
    """A bush: its leaves stand up, or hang empty when it is burnt."""
    leaves = ""
    for up, side in ((0.35, -1), (0.45, 1), (0.62, -1), (0.72, 1), (0.92, -1), (0.95, 1)):
        lean = side * (128 if burnt else 52)
        y = ground - up * tall
        leaf = {"cx": x, "cy": y - tall * 0.2, "rx": tall * 0.09, "ry": tall * 0.21}
        leaves += shape(
            "ellipse",
            **leaf,
            fill=PAPER if burnt else INK,
            stroke=INK,
            stroke_width=LINE,
            transform=f"rotate({lean} {x:.2f} {y:.2f})",
        )
    return line(x, ground, x, ground - tall, thick=BOLD) + leaves


def drops(x: float, y: float, count: int, across: float, fall: float) -> str:
    """A shower: `count` streaks side by side over `across`, each falling so far."""
    step = across / max(count - 1, 1)
    return path(
        "".join(
            f"M{x + step * n:.2f} {y + 4 * (n % 2):.2f}l0 {fall:.2f}M{x + step * n:.2f} "
            f"{y + fall + 9 + 4 * (n % 2):.2f}l0 3"
            for n in range(count)
        ),
        thick=BOLD,
    )


def jug(x: float, ground: float, width: float, height: float, fill: str = PAPER) -> str:
    """A jug with a cap and a handle, standing with its left side at `x`."""
    top, neck = ground - height * 0.82, width * 0.3
    body = (
        f"M{x} {ground}V{top + width * 0.2}L{x + neck} {top}H{x + width - neck}"
        f"L{x + width} {top + width * 0.2}V{ground}Z"
    )
    cap = {"x": x + neck, "y": ground - height, "width": width - 2 * neck, "height": height * 0.16}
    return path(body, fill=fill) + shape("rect", **cap, fill=INK)


def valve(x: float, y: float, *, shut: bool = False, upright: bool = False) -> str:
    """Two triangles in a pipe; the handle lies along it when open, across it when shut.

    The pipe runs from left to right, or with `upright` downwards.
    """
    bow = f"M{x - 9} {y - 6.3}L{x + 9} {y + 6.3}V{y - 6.3}L{x - 9} {y + 6.3}Z"
    handle = f"M{x} {y}v-16.2" if shut else f"M{x} {y}v-9m-9 0h18"
    drawn = path(bow, fill=PAPER, thick=BOLD) + path(handle, thick=HEAVY)
    return shape("g", drawn, transform=f"rotate(-90 {x:g} {y:g})") if upright else drawn


def cone(x: float, y: float) -> str:
    """A traffic cone round the middle `x`, `y`."""
    return path(f"M{x} {y - 7}l-6 12h12Z", fill=PAPER, thick=BOLD)


def hand(x: float, y: float, way: int, fill: str = STOCK) -> str:
    """A gloved hand on the wrist at `x`, `y`; `way` 1 points its fingers down, -1 up."""
    fingers = "".join(f"M{x - 12 + 8 * n} {y + 14 * way}v{16 * way}" for n in range(4))
    palm = f"M{x - 15} {y}h30v{18 * way}h-30Z"
    thumb = f"M{x + 15} {y + 4 * way}l9 {11 * way}"
    return path(palm, fill=fill) + path(fingers + thumb, thick=6)


def tick(x: float, y: float, size: float = 10) -> str:
    """Right so: a tick round the middle `x`, `y`."""
    return path(f"M{x - size} {y}l{size * 0.7} {size * 0.8}L{x + size} {y - size}", thick=HEAVY)


def cross(x: float, y: float, size: float = 10) -> str:
    """Not so: a cross round the middle `x`, `y`."""
    return path(
        f"M{x - size} {y - size}l{2 * size} {2 * size}m0 {-2 * size}l{-2 * size} {2 * size}",
        thick=HEAVY,
    )


def clock(x: float, y: float, radius: float, share: float) -> str:
    """A clock with `share` of its hour shaded from twelve on."""
    turn = radians(360 * min(share, 0.9999))
    end = f"{x + radius * sin(turn):.2f} {y - radius * cos(turn):.2f}"
    slice_ = f"M{x} {y}V{y - radius}A{radius} {radius} 0 {int(share > 0.5)} 1 {end}Z"
    return disc(x, y, radius, thick=BOLD) + path(slice_, fill=PALE) + disc(x, y, 2, INK)


def cloud(x: float, y: float, width: float, height: float, fill: str) -> str:
    """A low cloud that lies on the line `y`."""
    bump, rise = width / 4, height * 0.6
    edge = "".join(
        f"a{bump / 2:.2f} {height * up:.2f} 0 0 1 {bump:.2f} {step:.2f}"
        for up, step in ((0.5, -rise * 0.2), (0.8, 0), (0.8, 0), (0.5, rise * 0.2))
    )
    return path(f"M{x} {y}v{-rise * 0.6:.2f}{edge}V{y}Z", fill=fill)


def earth(x: float, y: float, width: float, depth: float = 10) -> list[str]:
    """A strip of ground under the line `y`."""
    return [
        shape("rect", x=x, y=y, width=width, height=depth, fill=SOIL),
        line(x, y, x + width, y, thick=HEAVY),
    ]


def gun(x: float, y: float, *, squeezed: bool = False, locked: bool = False) -> str:
    """A gun with its grip at `x`, `y`, pointing right, 60 wide; a locked one has a bar through."""
    trigger = f"M{x + 12} {y + 4}q{1 if squeezed else 7} 6 {-2 if squeezed else 4} 13"
    parts = path(f"M{x} {y}H{x + 58}", thick=5) + path(f"M{x + 4} {y}l-5 22", thick=8)
    bar = path(f"M{x + 2} {y + 13}h22", thick=HEAVY) if locked else ""
    return parts + path(trigger, thick=BOLD) + bar


def truck(x: float, ground: float, width: float, load: str = PAPER) -> list[str]:
    """A van from its side, its cab to the right; `load` fills what is behind the cab."""
    height, cab = width * 0.36, width * 0.24
    floor, top = ground - width * 0.07, ground - width * 0.07 - height
    front = x + width - cab
    nose = f"M{front} {floor}V{top}h{cab * 0.4}l{cab * 0.45} {height * 0.5}h{cab * 0.15}V{floor}Z"
    glass = f"M{front + 6} {top + 6}h{cab * 0.16}l{cab * 0.3} {height * 0.34}H{front + 6}Z"
    wheels = [disc(x + width * at, floor, width * 0.075, INK) for at in (0.2, 0.82)]
    return [
        box(x, top, width - cab, height, load),
        path(nose, fill=PAPER),
        path(glass, fill=PALE),
        *wheels,
    ]
