"""Faces and seams of the units that are sewn as one thing: half-squares, geese, corners, diamonds and the like.

Each function draws a unit the way round that its part says, in a frame with the origin at the top left of the
finished box. Seams stand in sewing order.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from seamleaf.lengths import Length
from seamleaf.planning.records import Outline, Point
from seamleaf.reading.part_records import (
    Corners,
    Diamond,
    FabricUse,
    Geese,
    HalfRectangle,
    HalfSquare,
    QuarterSquare,
    ThreeTriangle,
)

ZERO = Length(0)


@dataclass(frozen=True, slots=True, kw_only=True)
class SeamDraft:
    """A seam in the unit's frame; ``first`` and ``second`` index what it joins, see :class:`Draft`."""

    axis: Literal["x", "y", "d"]
    line: tuple[Point, Point]
    first: int
    second: int
    toward: Point
    """Direction in which allowances lie that are pressed to the second part; only its sign along a line matters."""
    outward: bool = False
    """Whether the trade always presses it to the second part, as with the sky of flying geese."""

    @property
    def is_backward(self) -> bool:
        """Whether the second part lies to the left of an upright seam, or above a level one."""
        return self.axis != "d" and (self.toward[0] + self.toward[1]).sign() < 0


@dataclass(frozen=True, slots=True, kw_only=True)
class Face:
    """The finished outline of one fabric that a unit sews itself."""

    use: FabricUse
    outline: Outline


Shape = tuple[tuple[Face, ...], tuple[SeamDraft, ...]]


def half_square(part: HalfSquare) -> Shape:
    """Draw two triangles, the first at the upper left."""
    side = part.w
    faces = (
        Face(use=part.first, outline=((ZERO, ZERO), (side, ZERO), (ZERO, side))),
        Face(use=part.second, outline=((side, side), (ZERO, side), (side, ZERO))),
    )
    return faces, (_slope((ZERO, side), (side, ZERO), 0, 1, (1, 1)),)


def half_rectangle(part: HalfRectangle) -> Shape:
    """Draw two triangles of a rectangle, the first at the upper left."""
    w, h = part.w, part.h
    faces = (
        Face(use=part.first, outline=((ZERO, ZERO), (w, ZERO), (ZERO, h))),
        Face(use=part.second, outline=((w, h), (ZERO, h), (w, ZERO))),
    )
    return faces, (SeamDraft(axis="d", line=((ZERO, h), (w, ZERO)), first=0, second=1, toward=(h, w)),)


def quarter_square(part: QuarterSquare) -> Shape:
    """Draw four triangles and sew top to right, left to bottom, then the two halves along the falling diagonal."""
    side = part.w
    middle = (side / 2, side / 2)
    corners = ((ZERO, ZERO), (side, ZERO), (side, side), (ZERO, side))
    faces = tuple(
        Face(use=use, outline=(corners[index], corners[(index + 1) % 4], middle)) for index, use in enumerate(part.uses)
    )
    seams = (
        _slope(middle, corners[1], 0, 1, (1, 1)),
        _slope(corners[3], middle, 3, 2, (1, 1)),
        # Its first half lies at the left, as in the others: of two alike parts the left one is the first.
        _slope(corners[0], corners[2], 2, 0, (1, -1)),
    )
    return faces, seams


def three_triangle(part: ThreeTriangle) -> Shape:
    """Draw a half at the upper left and two quarters; the quarters are sewn to each other first."""
    side = part.w
    middle = (side / 2, side / 2)
    faces = (
        Face(use=part.half, outline=((ZERO, ZERO), (side, ZERO), (ZERO, side))),
        Face(use=part.right, outline=((side, ZERO), (side, side), middle)),
        Face(use=part.bottom, outline=((side, side), (ZERO, side), middle)),
    )
    seams = (
        # Of two alike parts the left one is the first.
        _slope(middle, (side, side), 2, 1, (1, -1)),
        _slope((ZERO, side), (side, ZERO), 0, 1, (1, 1)),
    )
    return faces, seams


def geese(part: Geese) -> Shape:
    """Draw one large triangle, point up, and two of sky; always pressed to the sky, so that the tip stays free."""
    w, h = part.w, part.h
    tip = (w / 2, ZERO)
    faces = (
        Face(use=part.goose, outline=((ZERO, h), tip, (w, h))),
        Face(use=part.sky, outline=((ZERO, ZERO), tip, (ZERO, h))),
        Face(use=part.sky, outline=((w, ZERO), (w, h), tip)),
    )
    seams = (
        _slope((ZERO, h), tip, 0, 1, (-1, -1), outward=True),
        _slope(tip, (w, h), 0, 2, (1, -1), outward=True),
    )
    return faces, seams


def corner_uses(part: Corners) -> tuple[tuple[int, FabricUse], ...]:
    """Return the corners that are sewn, as 0 top left, 1 top right, 2 bottom right, 3 bottom left."""
    uses = (part.top_left, part.top_right, part.bottom_right, part.bottom_left)
    return tuple((index, use) for index, use in enumerate(uses) if use)


def corners(part: Corners) -> Shape:
    """Draw a rectangle with triangles sewn and flipped across corners; always pressed to the corner."""
    w, h, c = part.w, part.h, part.corner
    boxed: tuple[Point, ...] = ((ZERO, ZERO), (w, ZERO), (w, h), (ZERO, h))
    cuts: tuple[tuple[Point, Point], ...] = (
        ((ZERO, c), (c, ZERO)),
        ((w - c, ZERO), (w, c)),
        ((w, h - c), (w - c, h)),
        ((c, h), (ZERO, h - c)),
    )
    outward = ((-1, -1), (1, -1), (1, 1), (-1, 1))
    sewn = dict(corner_uses(part))
    base: list[Point] = []
    for index, corner in enumerate(boxed):
        base += [point for point in (cuts[index] if index in sewn else (corner,)) if point not in base[-1:]]
    if base[0] == base[-1]:
        base.pop()
    faces = [Face(use=part.base, outline=tuple(base))]
    seams: list[SeamDraft] = []
    for index, use in sewn.items():
        faces.append(Face(use=use, outline=(boxed[index], *reversed(cuts[index]))))
        seams.append(_slope(*cuts[index], 0, len(faces) - 1, outward[index], outward=True))
    return tuple(faces), tuple(seams)


def diamond_corners(part: Diamond) -> Shape:
    """Draw the corners of a square in a square, and the seams to its centre: opposite ones first, outward."""
    w, h = part.w, part.h
    top, right, bottom, left = (w / 2, ZERO), (w, h / 2), (w / 2, h), (ZERO, h / 2)
    faces = (
        Face(use=part.corners, outline=((ZERO, ZERO), top, left)),
        Face(use=part.corners, outline=((w, ZERO), right, top)),
        Face(use=part.corners, outline=((w, h), bottom, right)),
        Face(use=part.corners, outline=((ZERO, h), left, bottom)),
    )
    seams = (
        _slope(left, top, 0, 1, (-1, -1), outward=True),
        _slope(right, bottom, 0, 3, (1, 1), outward=True),
        _slope(top, right, 0, 2, (1, -1), outward=True),
        _slope(bottom, left, 0, 4, (-1, 1), outward=True),
    )
    return faces, seams


def diamond_centre(part: Diamond) -> Outline:
    """Return the outline of a square in a square's centre."""
    w, h = part.w, part.h
    return ((w / 2, ZERO), (w, h / 2), (w / 2, h), (ZERO, h / 2))


def _slope(a: Point, b: Point, first: int, second: int, toward: tuple[int, int], *, outward: bool = False) -> SeamDraft:
    direction = (Length(toward[0]), Length(toward[1]))
    return SeamDraft(axis="d", line=(a, b), first=first, second=second, toward=direction, outward=outward)
