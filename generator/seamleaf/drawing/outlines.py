"""Outlines of patches moved and changed: with the allowance round them, folded over a seam, cut off at an edge.

All spots here are floats for drawing; what is decided exactly is decided before.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Final

from seamleaf.drawing.scene import Spot

Spots = tuple[Spot, ...]
Segment = tuple[Spot, Spot]
NEAR: Final = 1e-6
"""Spots that are nearer to each other than this are one; frames are a few hundred units wide at most."""
_LEAST: Final = 0.02
"""Share of a line below which what is left of it is not worth drawing."""


def moved(spots: Sequence[Spot], dx: float, dy: float) -> Spots:
    """Return an outline shifted."""
    return tuple((x + dx, y + dy) for x, y in spots)


def box_of(spots: Sequence[Spot]) -> tuple[float, float, float, float]:
    """Return left, top, right and bottom of an outline."""
    xs, ys = [x for x, _ in spots], [y for _, y in spots]
    return (min(xs), min(ys), max(xs), max(ys))


def direction(line: Segment) -> Spot:
    """Return the unit vector along a line."""
    (x1, y1), (x2, y2) = line
    length = math.hypot(x2 - x1, y2 - y1)
    return ((x2 - x1) / length, (y2 - y1) / length)


def lengthened(line: Segment, by: float) -> Segment:
    """Return a line longer by so much at both ends."""
    (x1, y1), (x2, y2) = line
    ux, uy = direction(line)
    return ((x1 - ux * by, y1 - uy * by), (x2 + ux * by, y2 + uy * by))


def grown(spots: Sequence[Spot], by: float) -> Spots:
    """Return a convex outline with an allowance all round, its corners sharp."""
    inside = (sum(x for x, _ in spots) / len(spots), sum(y for _, y in spots) / len(spots))
    edges = []
    for a, b in zip(spots, (*spots[1:], spots[0]), strict=True):
        ux, uy = direction((a, b))
        nx, ny = uy, -ux
        if (inside[0] - a[0]) * nx + (inside[1] - a[1]) * ny > 0:
            nx, ny = -nx, -ny
        edges.append(((a[0] + nx * by, a[1] + ny * by), (ux, uy)))
    return tuple(_crossing(before, after) for before, after in zip((edges[-1], *edges[:-1]), edges, strict=True))


def _crossing(one: tuple[Spot, Spot], other: tuple[Spot, Spot]) -> Spot:
    """Return where two lines cross, each given by a spot and a direction; of one line, the second's spot."""
    ((px, py), (ux, uy)), ((qx, qy), (vx, vy)) = one, other
    cross = ux * vy - uy * vx
    if abs(cross) < NEAR:
        return (qx, qy)
    t = ((qx - px) * vy - (qy - py) * vx) / cross
    return (px + ux * t, py + uy * t)


def widened(spots: Sequence[Spot], w: float, h: float, by: float) -> Spots:
    """Return a patch of a unit of w x h with the allowance that it has where it lies at the unit's edge.

    The allowance is as long as the patch's own edge, and mitred at the corners of the unit.
    """
    found: list[Spot] = []
    for i, corner in enumerate(spots):
        before = _side((spots[i - 1], corner), w, h)
        after = _side((corner, spots[(i + 1) % len(spots)]), w, h)
        if before is None and after is None:
            found.append(corner)
            continue
        out = _pushed(corner, w, h, by, before or after or (0, 0))
        found += [out] if before and after else [out, corner] if before else [corner, out]
    return tuple(found)


def _side(edge: Segment, w: float, h: float) -> tuple[int, int] | None:
    """Return which way is out, for an edge that lies along a side of the box."""
    (x1, y1), (x2, y2) = edge
    for axis, one, other, far in ((0, x1, x2, w), (1, y1, y2, h)):
        for end, sign in ((0.0, -1), (far, 1)):
            if abs(one - end) < NEAR and abs(other - end) < NEAR:
                return (sign, 0) if axis == 0 else (0, sign)
    return None


def _pushed(spot: Spot, w: float, h: float, by: float, out: tuple[int, int]) -> Spot:
    """Move a spot on a side of the box outward, at a corner of the box both ways."""
    (x, y), (dx, dy) = spot, out
    if _is_end(x, w) and _is_end(y, h):
        dx, dy = (-1 if x < NEAR else 1), (-1 if y < NEAR else 1)
    return (x + dx * by, y + dy * by)


def _is_end(value: float, far: float) -> bool:
    return abs(value) < NEAR or abs(value - far) < NEAR


def folded(spots: Sequence[Spot], line: Segment) -> Spots:
    """Return an outline folded over a line, as a patch lies before it is pressed open."""
    (ax, ay), (ux, uy) = line[0], direction(line)
    found = []
    for x, y in spots:
        along = (x - ax) * ux + (y - ay) * uy
        found.append((2 * (ax + ux * along) - x, 2 * (ay + uy * along) - y))
    return tuple(found)


def cut_to(spots: Sequence[Spot], window: Sequence[Spot]) -> Spots:
    """Return the part of an outline inside a convex window; nothing when they do not overlap."""
    found = list(spots)
    middle = (sum(x for x, _ in window) / len(window), sum(y for _, y in window) / len(window))
    for a, b in zip(window, (*window[1:], window[0]), strict=True):
        sign = 1 if _off(middle, a, b) > 0 else -1
        kept: list[Spot] = []
        for p, q in zip(found, (*found[1:], *found[:1]), strict=True):
            here, there = sign * _off(p, a, b), sign * _off(q, a, b)
            if here >= -NEAR:
                kept.append(p)
            if (here > NEAR and there < -NEAR) or (here < -NEAR and there > NEAR):
                t = here / (here - there)
                kept.append((p[0] + (q[0] - p[0]) * t, p[1] + (q[1] - p[1]) * t))
        found = kept
    return tuple(found) if len(found) > 2 else ()


def slices(spots: Sequence[Spot], height: float) -> list[tuple[float, float, float, float]]:
    """Return a convex outline as level boxes of this height that cover it."""
    _, top, _, bottom = box_of(spots)
    count = max(1, math.ceil((bottom - top) / height))
    found = []
    for i in range(count):
        upper, lower = top + (bottom - top) * i / count, top + (bottom - top) * (i + 1) / count
        part = _beyond(_beyond(spots, upper, 1), lower, -1)
        if len(part) > 2:
            found.append(box_of(part))
    return found


def _beyond(spots: Sequence[Spot], level: float, sign: int) -> list[Spot]:
    """Return the part of an outline below a level line, or above it where the sign is -1."""
    kept: list[Spot] = []
    for p, q in zip(spots, (*spots[1:], *spots[:1]), strict=True):
        here, there = sign * (p[1] - level), sign * (q[1] - level)
        if here >= -NEAR:
            kept.append(p)
        if (here > NEAR and there < -NEAR) or (here < -NEAR and there > NEAR):
            t = here / (here - there)
            kept.append((p[0] + (q[0] - p[0]) * t, p[1] + (q[1] - p[1]) * t))
    return kept


def line_inside(line: Segment, window: Sequence[Spot]) -> Segment | None:
    """Return the part of a line inside a convex window; ``None`` for next to nothing."""
    low, high = 0.0, 1.0
    middle = (sum(x for x, _ in window) / len(window), sum(y for _, y in window) / len(window))
    (x, y), end = line
    for a, b in zip(window, (*window[1:], window[0]), strict=True):
        sign = 1 if _off(middle, a, b) > 0 else -1
        here = sign * _off(line[0], a, b)
        change = sign * _off(end, a, b) - here
        if abs(change) < NEAR:
            if here < -NEAR:
                return None
        elif change > 0:
            low = max(low, -here / change)
        else:
            high = min(high, -here / change)
    if high - low < _LEAST:
        return None
    dx, dy = end[0] - x, end[1] - y
    return ((x + dx * low, y + dy * low), (x + dx * high, y + dy * high))


def _off(spot: Spot, a: Spot, b: Spot) -> float:
    """Return how far a spot is off the line from a to b, with the side as sign."""
    ux, uy = direction((a, b))
    return (spot[1] - a[1]) * ux - (spot[0] - a[0]) * uy
