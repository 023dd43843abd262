"""Exact points of a plane in which everything lies straight, upright or at 45 degrees.

A coordinate is ``(p + q*sqrt 2) / scale`` with whole p and q; one scale serves a whole booklet, so that points are
added, turned and compared in whole numbers. x runs to the right and y down.

Directions are counted clockwise in eighths of a turn from +x: 0 right, 1 lower right, 2 down ... 7 upper right.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass, field
from typing import Final

from seamleaf.lengths import Length

Coordinate = tuple[int, int]
Vector = tuple[int, int, int, int]
"""x as p, q, then y as p, q: a point, or the way from one point to another."""
Polygon = tuple[Vector, ...]

SPARE_HALVES: Final = 12
"""How often a coordinate can be halved: once for a box's centre, and once for every turn by 45 degrees on the way."""


class CoarseError(ValueError):
    """A point that whole multiples of the scale cannot tell: more turns by 45 degrees inside each other than sense."""


def sign(p: int, q: int) -> int:
    """Return -1, 0 or 1: the sign of p + q*sqrt 2."""
    if q == 0:
        return (p > 0) - (p < 0)
    if p == 0 or (p > 0) == (q > 0):
        return 1 if q > 0 else -1
    larger = 2 * q * q > p * p
    return 1 if (q > 0) == larger else -1


def add(a: Vector, b: Vector) -> Vector:
    """Add two vectors."""
    return a[0] + b[0], a[1] + b[1], a[2] + b[2], a[3] + b[3]


def subtract(a: Vector, b: Vector) -> Vector:
    """Return the way from b to a."""
    return a[0] - b[0], a[1] - b[1], a[2] - b[2], a[3] - b[3]


def turned(vector: Vector, eighths: int, mirror: bool = False) -> Vector:
    """Mirror a vector left to right if asked, then turn it clockwise by eighths of a turn.

    Raises:
        CoarseError: the scale is too coarse for one more turn by 45 degrees.

    """
    a, b, c, d = vector
    if mirror:
        a, b = -a, -b
    for _ in range(eighths % 8 // 2):
        a, b, c, d = -c, -d, a, b
    if eighths % 2:
        # (x - y, x + y) times sqrt 2 / 2: p and q change places, and p is halved.
        up, uq, vp, vq = a - c, b - d, a + c, b + d
        if (up | vp) & 1:
            raise CoarseError
        a, b, c, d = uq, up // 2, vq, vp // 2
    return a, b, c, d


def direction(vector: Vector) -> int | None:
    """Return in which of the eight directions a vector points; ``None`` when in none of them, or nowhere."""
    a, b, c, d = vector
    across, down = sign(a, b), sign(c, d)
    if across and down and (abs_of(a, b) != abs_of(c, d)):
        return None
    return _DIRECTIONS.get((across, down))


def abs_of(p: int, q: int) -> Coordinate:
    """Return the coordinate without its sign."""
    return (-p, -q) if sign(p, q) < 0 else (p, q)


_DIRECTIONS: Final = {(1, 0): 0, (1, 1): 1, (0, 1): 2, (-1, 1): 3, (-1, 0): 4, (-1, -1): 5, (0, -1): 6, (1, -1): 7}

FORWARD: Final = (0, 2, 1, 7)
"""The direction in which each kind of line is followed: level, upright, falling, rising."""
LINE_KIND: Final = {0: 0, 4: 0, 2: 1, 6: 1, 1: 2, 5: 2, 7: 3, 3: 3}
"""Kind of the line that runs in a direction."""

Spot = tuple[int, int, int]
"""A line: its kind, and the coordinate that all its points share."""


def spot_on(kind: int, point: Vector) -> tuple[Spot, Coordinate]:
    """Return the line of a kind through a point, and how far along that line the point lies (y if upright, else x)."""
    a, b, c, d = point
    if kind == 0:
        return (0, c, d), (a, b)
    if kind == 1:
        return (1, a, b), (c, d)
    if kind == 2:
        return (2, a - c, b - d), (a, b)
    return (3, a + c, b + d), (a, b)


def point_on(line: Spot, along: Coordinate) -> Vector:
    """Return the point of a line: the inverse of :func:`spot_on`."""
    kind, p, q = line
    a, b = along
    if kind == 0:
        return a, b, p, q
    if kind == 1:
        return p, q, a, b
    if kind == 2:
        return a, b, a - p, b - q
    return a, b, p - a, q - b


def cross(a: Vector, b: Vector) -> Coordinate:
    """Return the cross product, in squares of the scale: positive when b points clockwise of a."""
    p = a[0] * b[2] + 2 * a[1] * b[3] - a[2] * b[0] - 2 * a[3] * b[1]
    q = a[0] * b[3] + a[1] * b[2] - a[2] * b[1] - a[3] * b[0]
    return p, q


def double_area(polygon: Polygon) -> Coordinate:
    """Return twice the area of a polygon, in squares of the scale; negative when it runs anticlockwise."""
    p = q = 0
    for a, b in zip(polygon, (*polygon[1:], polygon[0]), strict=True):
        dp, dq = cross(a, b)
        p, q = p + dp, q + dq
    return p, q


@dataclass(slots=True)
class Plane:
    """The whole numbers in which one booklet is reckoned."""

    scale: int
    _places: int
    _order: dict[Coordinate, int] = field(default_factory=dict)

    @classmethod
    def of(cls, lengths: Iterable[Length]) -> Plane:
        """Return a plane on whose grid all these lengths lie, with room to halve them."""
        scale, largest = 1, Length(0)
        for length in set(lengths):
            scale = math.lcm(scale, length.a.denominator, length.b.denominator)
            largest = max(largest, Length(abs(length.a) + abs(length.b) * 2))
        scale <<= SPARE_HALVES
        # Sums of a few thousand such lengths differ, if at all, by more than 2^-places.
        return cls(scale, (largest * scale).ceil().bit_length() + 16)

    def coordinate(self, length: Length) -> Coordinate:
        """Return a length as a coordinate."""
        a, b, scale = length.a, length.b, self.scale
        return a.numerator * (scale // a.denominator), b.numerator * (scale // b.denominator)

    def point(self, x: Length, y: Length) -> Vector:
        """Return a point."""
        return (*self.coordinate(x), *self.coordinate(y))

    def length(self, coordinate: Coordinate) -> Length:
        """Return a coordinate as a length."""
        return Length(coordinate[0], coordinate[1]) / self.scale

    def rank(self, coordinate: Coordinate) -> int:
        """Return a whole number in the order of coordinates: equal only for equal ones.

        It is the coordinate times a power of two so large that different coordinates lie more than 1 apart, since
        p + q*sqrt 2 is at least 1 / (|p| + 2|q|) away from 0; the floor of that is taken exactly.
        """
        known = self._order.get(coordinate)
        if known is None:
            p, q = coordinate
            root = math.isqrt(2 * q * q << 2 * self._places)
            known = (p << self._places) + (root if q >= 0 else -root - 1)
            self._order[coordinate] = known
        return known
