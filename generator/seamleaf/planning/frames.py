"""Placing one frame in another: mirror, turn clockwise about the centre of the box, move. Exact throughout."""

from __future__ import annotations

from dataclasses import dataclass, field
from fractions import Fraction

from seamleaf.lengths import Length
from seamleaf.planning.records import Point

HALF = Fraction(1, 2)


def rotated(vector: Point, turn: int) -> Point:
    """Turn a vector clockwise (y runs down) by a multiple of 45 degrees."""
    x, y = vector
    for _ in range(turn % 360 // 90):
        x, y = -y, x
    if turn % 90:
        x, y = (x - y).times_root2() * HALF, (x + y).times_root2() * HALF
    return x, y


@dataclass(frozen=True, slots=True, kw_only=True)
class Frame:
    """The placing of a box of finished size w x h so that its centre lies at (x, y)."""

    w: Length
    h: Length
    x: Length
    y: Length
    turn: int
    mirror: bool = False
    _corner: Point = field(init=False, repr=False, compare=False)
    """Where the placed frame's own corner (0, 0) comes to lie."""

    def __post_init__(self) -> None:
        x, y = self.vector((self.w * -HALF, self.h * -HALF))
        object.__setattr__(self, "_corner", (x + self.x, y + self.y))

    def point(self, point: Point) -> Point:
        """Map a point of the placed frame to the frame that it is placed in."""
        dx, dy = self.vector(point)
        return dx + self._corner[0], dy + self._corner[1]

    def vector(self, vector: Point) -> Point:
        """Map a direction."""
        return rotated((-vector[0], vector[1]) if self.mirror else vector, self.turn)
