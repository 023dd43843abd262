"""Tiling, proved by adding up boundaries.

Walk round every part clockwise and note each stretch of each line: +1 where it is followed forward, -1 where backward.
Where two parts meet, the notes cancel; what is left over is the boundary of the whole. If that is exactly the
boundary of the outline, every point of the outline lies in exactly one part and every point outside it in none
(the winding numbers of the parts add up to those of the outline). So gaps, overlaps and parts outside all show,
T-junctions need no care, and the cost grows only with the number of edges.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field

from seamleaf.proof.plane import Coordinate, Plane, Polygon, Spot, Vector, cross, double_area, sign, subtract


@dataclass(slots=True)
class Chain:
    """Counts of how often lines are followed: where the count changes, and by how much."""

    plane: Plane
    steps: Counter[tuple[Spot, Coordinate]] = field(default_factory=Counter)

    def add_edge(self, start: Vector, end: Vector, toward: int, times: int = 1) -> None:
        """Note the stretch from start to end, which runs in direction ``toward``."""
        line, at = self.plane.spot_on(toward, start)
        _, until = self.plane.spot_on(toward, end)
        # Forward from start to end counts +1 between them; backward -1: the same steps, since both signs change.
        self.steps[line, at] += times
        self.steps[line, until] -= times

    def add_polygon(self, polygon: Polygon, times: int = 1) -> None:
        """Note the boundary of a polygon whose edges run in directions that are known."""
        for start, end in edges(polygon):
            toward = self.plane.direction(subtract(end, start))
            if toward is not None:
                self.add_edge(start, end, toward, times)

    def left_over(self) -> Vector | None:
        """Return the first point, from the top left, where something is left over; ``None`` if all cancels."""
        plane = self.plane
        points = [plane.point_on(*step) for step, count in self.steps.items() if count]
        return min(points, key=lambda point: (plane.rank(point[2:]), plane.rank(point[:2])), default=None)


def edges(polygon: Polygon) -> Iterable[tuple[Vector, Vector]]:
    """Return the edges of a polygon, each from one corner to the next."""
    return zip(polygon, (*polygon[1:], polygon[0]), strict=True)


def tiles(parts: Iterable[Polygon], outline: Polygon, plane: Plane) -> Vector | None:
    """Return ``None`` when the parts tile the outline, else a point where they do not.

    All polygons run clockwise and pass :func:`fault_of`.
    """
    chain = Chain(plane)
    for part in parts:
        chain.add_polygon(part)
    chain.add_polygon(outline, -1)
    return chain.left_over()


def clockwise(polygon: Polygon) -> Polygon:
    """Return the polygon, run clockwise."""
    return polygon[::-1] if sign(*double_area(polygon)) < 0 else polygon


def fault_of(polygon: Polygon, plane: Plane) -> str | None:
    """Return what is wrong with an outline that should be convex, with edges in directions that are known."""
    if len(polygon) < 3:
        return f"an outline of {len(polygon)} corners"
    ways = [plane.direction(subtract(end, start)) for start, end in edges(polygon)]
    if None in ways:
        return "an edge that is neither straight, upright nor at 45 degrees, nor slopes as a half-rectangle does"
    bends = [sign(*cross(subtract(b, a), subtract(c, b))) for a, b, c in _corners(polygon)]
    if len(set(bends)) != 1 or bends[0] == 0:
        return "an outline that is not convex, or has a corner on an edge"
    around = 8 * plane.eighth
    turns = sum((b - a) * bends[0] % around for a, b in _steps(ways))
    return None if turns == around else "an outline that winds round more than once"


def _corners(polygon: Polygon) -> Iterable[tuple[Vector, Vector, Vector]]:
    return zip(polygon, (*polygon[1:], polygon[0]), (*polygon[2:], *polygon[:2]), strict=True)


def _steps(ways: Sequence[int | None]) -> Iterable[tuple[int, int]]:
    known = [way for way in ways if way is not None]
    return zip(known, (*known[1:], known[0]), strict=True)
