"""What can be told of a finished outline: its box, whether it is a rectangle, and the parts of a triangle."""

from __future__ import annotations

from typing import Final

from seamleaf.lengths import ZERO, Length
from seamleaf.proof.record import Point

ROOT2: Final = Length(0, 1)


def is_triangle(outline: tuple[Point, ...]) -> bool:
    """Whether an outline has three corners."""
    return len(outline) == 3


def right_angle(outline: tuple[Point, ...]) -> tuple[Point, Point]:
    """Return the right-angled corner of a triangle, and the middle of the edge across."""
    pairs = [(outline[i], outline[(i + 1) % 3], outline[(i + 2) % 3]) for i in range(3)]
    corner, a, b = max(pairs, key=lambda each: _square(each[1], each[2]))
    return corner, ((a[0] + b[0]) / 2, (a[1] + b[1]) / 2)


def leg_of(outline: tuple[Point, ...]) -> Length:
    """Return the leg of a right-angled triangle with edges in the eight directions."""
    corner, middle = right_angle(outline)
    across, down = abs(middle[0] - corner[0]), abs(middle[1] - corner[1])
    # The height on the long edge is leg / sqrt 2, and lies straight or at 45 degrees.
    return across * 2 if across and down else (across + down) * ROOT2


def setting_leg(outline: tuple[Point, ...]) -> Length | None:
    """Return the legs of the least triangle, its right angle at the origin, that a setting triangle is cut from.

    Seams beside it may have cut off its tips, along lines beside its legs. ``None`` for anything else.
    """
    w, h = max(x for x, _ in outline), max(y for _, y in outline)
    if (w, h) in outline:  # a box, mostly
        return None
    leg = max(x + y for x, y in outline)
    left = {(ZERO, ZERO), (w, ZERO), (w, leg - w), (leg - h, h), (ZERO, h)}
    return leg if leg != w + h and set(outline) == left and len(outline) == len(left) else None


def _square(a: Point, b: Point) -> Length:
    return (a[0] - b[0]) * (a[0] - b[0]) + (a[1] - b[1]) * (a[1] - b[1])


def box_of(outline: tuple[Point, ...]) -> tuple[Point, Point]:
    """Return the top left and bottom right corners of an outline's box."""
    xs, ys = [x for x, _ in outline], [y for _, y in outline]
    return (min(xs), min(ys)), (max(xs), max(ys))


def is_box(outline: tuple[Point, ...]) -> bool:
    """Whether an outline is a rectangle that lies straight."""
    (left, top), (right, bottom) = box_of(outline)
    return len(outline) == 4 and set(outline) == {(left, top), (right, top), (right, bottom), (left, bottom)}


def has_straight_base(outline: tuple[Point, ...]) -> bool:
    """Whether it is a triangle whose long edge lies level or upright, as that of a goose and of a square's quarter."""
    if not is_triangle(outline):
        return False
    corner, middle = right_angle(outline)
    return corner[0] == middle[0] or corner[1] == middle[1]
