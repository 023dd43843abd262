"""Exact points of a plane in which everything lies straight, upright, at 45 degrees, or as half-rectangles slope.

A coordinate is ``(p + q*sqrt 2) / scale`` with whole p and q; one scale serves a whole booklet, so that points are
added, turned and compared in whole numbers. x runs to the right and y down.

Directions are counted clockwise from +x in steps, as many to each eighth of a turn: one where there are no
half-rectangles, so 0 right, 1 lower right, 2 down ... 7 upper right. Every slope of a half-rectangle, turned by eighths
and mirrored, gives each eighth of a turn two more steps, or one where they fall together. The steps are uneven, but the
same in every eighth, and so turns, reverses and mirror images of directions stay sums of whole numbers.
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


def abs_of(p: int, q: int) -> Coordinate:
    """Return the coordinate without its sign."""
    return (-p, -q) if sign(p, q) < 0 else (p, q)


_DIRECTIONS: Final = {(1, 0): 0, (1, 1): 1, (0, 1): 2, (-1, 1): 3, (-1, 0): 4, (-1, -1): 5, (0, -1): 6, (1, -1): 7}

Spot = tuple[int, int, int]
"""A line: the direction in which it is followed, and the coordinate that all its points share."""


def times(a: Coordinate, b: Coordinate) -> Coordinate:
    """Multiply two coordinates, in squares of the scale."""
    return a[0] * b[0] + 2 * a[1] * b[1], a[0] * b[1] + a[1] * b[0]


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
    slopes: tuple[Length, ...] = ()
    """Tangents of the directions between two eighths of a turn, from the first of them, in order."""
    eighth: int = field(init=False)
    """Steps of an eighth of a turn."""
    _order: dict[Coordinate, int] = field(default_factory=dict)
    _ways: dict[Vector, int | None] = field(default_factory=dict)
    _along: dict[int, tuple[Coordinate, Coordinate]] = field(default_factory=dict)

    def __post_init__(self) -> None:
        """Count the directions."""
        self.eighth = len(self.slopes) + 1

    @classmethod
    def of(cls, lengths: Iterable[Length], rectangles: Iterable[tuple[Length, Length]] = ()) -> Plane:
        """Return a plane on whose grid all these lengths lie, with room to halve them.

        Args:
            lengths: every length of a booklet.
            rectangles: finished sizes of half-rectangles, whose diagonals are directions of the plane too.

        """
        scale, largest = 1, Length(0)
        for length in set(lengths):
            scale = math.lcm(scale, length.a.denominator, length.b.denominator)
            largest = max(largest, Length(abs(length.a) + abs(length.b) * 2))
        scale <<= SPARE_HALVES
        slopes: set[Length] = set()
        for sides in rectangles:
            low, high = min(sides), max(sides)
            if 0 < low < high:
                slopes |= {low / high, (high - low) / (high + low)}  # tan a, and tan (45 degrees - a)
        # Sums of a few thousand such lengths differ, if at all, by more than 2^-places.
        return cls(scale, (largest * scale).ceil().bit_length() + 16, tuple(sorted(slopes)))

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

    # ------------------------------------------------------------------------------------- directions

    def direction(self, vector: Vector) -> int | None:
        """Return the direction in which a vector points; ``None`` when in none that is known, or nowhere."""
        if vector not in self._ways:
            self._ways[vector] = self._direction(vector)
        return self._ways[vector]

    def _direction(self, vector: Vector) -> int | None:
        a, b, c, d = vector
        across, down = sign(a, b), sign(c, d)
        wide, deep = abs_of(a, b), abs_of(c, d)
        if not across or not down or wide == deep:
            eighths = _DIRECTIONS.get((across, down))
            return None if eighths is None else eighths * self.eighth
        level = sign(wide[0] - deep[0], wide[1] - deep[1]) > 0
        low, high = (deep, wide) if level else (wide, deep)
        slope = Length(*low) / Length(*high)
        if slope not in self.slopes:
            return None
        step = self.slopes.index(slope) + 1
        sector = _SECTORS[across, down, level]
        # In every second eighth of a turn the slope is counted back from the axis at its end.
        return sector * self.eighth + (self.eighth - step if sector % 2 else step)

    def turned_way(self, way: int, eighths: int, mirror: bool = False) -> int:
        """Mirror a direction left to right if asked, then turn it clockwise by eighths of a turn."""
        return ((4 * self.eighth - way if mirror else way) + eighths * self.eighth) % (8 * self.eighth)

    def forward(self, way: int) -> int:
        """Return the direction in which the lines of a direction are followed: to the right, or straight down."""
        return (way + 4 * self.eighth) % (8 * self.eighth) if 2 * self.eighth < way <= 6 * self.eighth else way

    def forward_ways(self) -> list[int]:
        """Return the directions in which lines are followed: level, upright, falling and rising ones, then others."""
        first = [eighths * self.eighth for eighths in (0, 2, 1, 7)]
        return first + [way for way in range(8 * self.eighth) if self.forward(way) == way and way % self.eighth]

    def axis(self, way: int) -> str:
        """Return the axis of a seam that runs in a direction: ``x`` for upright, ``y`` for level, ``d`` for sloping."""
        return {0: "y", 2 * self.eighth: "x"}.get(self.forward(way), "d")

    def spot_on(self, way: int, point: Vector) -> tuple[Spot, Coordinate]:
        """Return the line of a direction through a point, and how far along it that lies (y if upright, else x)."""
        forward = self.forward(way)
        (across, down), x, y = self._vector(forward), point[:2], point[2:]
        (p, q), (r, s) = times(across, y), times(down, x)
        return (forward, p - r, q - s), y if forward == 2 * self.eighth else x

    def point_on(self, line: Spot, along: Coordinate) -> Vector:
        """Return the point of a line: the inverse of :meth:`spot_on`."""
        forward, p, q = line
        if forward == 2 * self.eighth:
            return -p, -q, *along
        (e, f), down = self._vector(forward)
        r, s = times(down, along)
        y = times((p + r, q + s), (e, -f))
        norm = e * e - 2 * f * f
        return *along, y[0] // norm, y[1] // norm

    def _vector(self, way: int) -> tuple[Coordinate, Coordinate]:
        """Return the least whole vector of a direction."""
        if way not in self._along:
            eighths, step = divmod(way, self.eighth)
            x, y = Length(1), self.slopes[step - 1] if step else Length(0)
            for _ in range(eighths):  # turned, and larger by sqrt 2
                x, y = x - y, x + y
            parts = (x.a, x.b, y.a, y.b)
            scale = math.lcm(*(part.denominator for part in parts))
            whole = [int(part * scale) for part in parts]
            common = math.gcd(*whole)
            a, b, c, d = (part // common for part in whole)
            self._along[way] = (a, b), (c, d)
        return self._along[way]


_SECTORS: Final = {
    (1, 1, True): 0, (1, 1, False): 1, (-1, 1, False): 2, (-1, 1, True): 3,
    (-1, -1, True): 4, (-1, -1, False): 5, (1, -1, False): 6, (1, -1, True): 7,
}  # fmt: skip
"""Eighth of a turn by the signs of a vector, and whether it is more level than upright."""
