"""Press arrows: solid across a seam to the side that the allowance goes, two heads for open, a ring for spun."""

from __future__ import annotations

import math
from typing import Final

from seamleaf.booklet.record import Press
from seamleaf.drawing.colours import INK, PAPER
from seamleaf.drawing.scene import Group, Ink, Path, Polygon, Shape, Spot, Step

LENGTH: Final = 18.0
_SHAFT: Final = 1.1
_HEAD: Final = 4.2
_HALO: Final = Ink(fill=PAPER, stroke=PAPER, width=3, rounded=True)
_SOLID: Final = Ink(fill=INK)
_BEND: Final = 0.5523
"""Distance of the control points of a Bezier curve that draws a quarter of a unit circle."""


def press_arrow(centre: Spot, toward_after: Spot, press: Press, *, length: float = LENGTH) -> Group:
    """Return the arrow of one seam.

    Args:
        centre: a spot on the seam.
        toward_after: unit vector across the seam, from the side "before" to the side "after".
        press: where the seam allowance goes.
        length: of a straight arrow.

    """
    dx, dy = toward_after
    if press == "spin":
        return Group(parts=_ring(centre), tag="press spin")
    if press == "open":
        outline = _double(length)
    else:
        if press == "before":
            dx, dy = -dx, -dy
        outline = _single(length)
    x, y = centre
    points = tuple((x + u * dx - v * dy, y + u * dy + v * dx) for u, v in outline)
    return Group(parts=(Polygon(points=points, ink=_HALO), Polygon(points=points, ink=_SOLID)), tag=f"press {press}")


def _single(length: float) -> tuple[Spot, ...]:
    half, neck = length / 2, length / 2 - 1.7 * _HEAD
    return (
        (-half, -_SHAFT),
        (neck, -_SHAFT),
        (neck, -_HEAD),
        (half, 0),
        (neck, _HEAD),
        (neck, _SHAFT),
        (-half, _SHAFT),
    )


def _double(length: float) -> tuple[Spot, ...]:
    half, neck = length / 2, length / 2 - 1.5 * _HEAD
    right = ((neck, -_SHAFT), (neck, -_HEAD), (half, 0), (neck, _HEAD), (neck, _SHAFT))
    left = tuple((-u, -v) for u, v in right)
    return (*right, *left)


def _ring(centre: Spot) -> tuple[Shape, ...]:
    """Three quarters of a circle with a head at its end, turning clockwise."""
    x, y = centre
    r = 6.5
    b = _BEND * r
    steps: tuple[Step, ...] = (
        ("M", (x + r, y)),
        ("C", (x + r, y + b, x + b, y + r, x, y + r)),
        ("C", (x - b, y + r, x - r, y + b, x - r, y)),
        ("C", (x - r, y - b, x - b, y - r, x, y - r)),
    )
    head = ((x + 6, y - r), (x - 1, y - r - _HEAD), (x - 1, y - r + _HEAD))
    return (
        Path(steps=steps, ink=Ink(stroke=PAPER, width=5, rounded=True)),
        Polygon(points=head, ink=_HALO),
        Path(steps=steps, ink=Ink(stroke=INK, width=2 * _SHAFT)),
        Polygon(points=head, ink=_SOLID),
    )


def turn_mark(centre: Spot, radius: float = 5.0) -> Group:
    """Return the small curved arrow of a block that is turned by a quarter, clockwise."""
    x, y = centre
    b = _BEND * radius
    steps: tuple[Step, ...] = (
        ("M", (x - radius, y)),
        ("C", (x - radius, y - b, x - b, y - radius, x, y - radius)),
        ("C", (x + b, y - radius, x + radius, y - b, x + radius, y)),
    )
    head = ((x + radius, y + 4), (x + radius - 3, y - 0.5), (x + radius + 3, y - 0.5))
    return Group(
        parts=(Path(steps=steps, ink=Ink(stroke=INK, width=1.2)), Polygon(points=head, ink=_SOLID)), tag="turned block"
    )


def across(line: tuple[Spot, Spot]) -> Spot:
    """Return the unit vector square to a line, pointing right or, for a level line, down."""
    (x1, y1), (x2, y2) = line
    dx, dy = x2 - x1, y2 - y1
    size = math.sqrt(dx * dx + dy * dy)
    nx, ny = -dy / size, dx / size
    return (-nx, -ny) if nx < -1e-9 or (abs(nx) <= 1e-9 and ny < 0) else (nx, ny)
