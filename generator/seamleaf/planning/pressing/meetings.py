"""Match points: where seams end end to end on the two sides of a third.

At such a point the seam that was sewn last on each side governs: its allowance is the one that the maker feels
and butts. The point nests when the two allowances lie in opposite directions along the crossing seam
(QUILTsocial issue 5, p. 18: seams that must butt are pressed in opposite directions).
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field, replace
from typing import Literal

from seamleaf.lengths import Length
from seamleaf.planning.frames import Frame
from seamleaf.planning.piecing.drafts import Draft
from seamleaf.planning.records import Point

Edge = Literal["top", "right", "bottom", "left"]
SeamKey = tuple[str, int]
"""A seam class: unit id and index. One instruction serves every copy."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Segment:
    """One seam in some frame; ``toward`` is where allowances lie that are pressed to the second part."""

    key: SeamKey
    ends: tuple[Point, Point]
    toward: Point


@dataclass(frozen=True, slots=True, kw_only=True)
class End:
    """A seam that ends on a line; ``sign`` is +1 when pressing it to the second part points along the line."""

    key: SeamKey
    sign: int
    end: int
    """Which end of its seam this is, 0 or 1; a spun seam is folded one way at 0 and the other way at 1."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Meeting:
    """A match point with the seam that it lies on and the two seams that govern it."""

    at: Point
    on: SeamKey
    one: End
    """On the side that a clockwise turn from the crossing seam's direction leads to (y runs down)."""
    other: End
    facing: int
    """+1 when pressing the crossing seam to its second part folds it to the side of ``one``."""


@dataclass(slots=True)
class Geometry:
    """Seams, match points and edges of units, computed once a unit."""

    drafts: dict[str, Draft]
    _segments: dict[str, tuple[Segment, ...]] = field(default_factory=dict)
    _own: dict[str, tuple[Meeting, ...]] = field(default_factory=dict)
    _edges: dict[tuple[str, int, bool], dict[Edge, dict[Length, End]]] = field(default_factory=dict)

    def segments(self, unit: str) -> tuple[Segment, ...]:
        """Return every seam inside a unit, in sewing order, in the unit's frame."""
        if unit not in self._segments:
            draft = self.drafts[unit]
            found: list[Segment] = []
            for child in draft.children:
                if child.ref.unit:
                    inner = self.drafts[child.ref.unit]
                    frame = child.frame(inner)
                    found += (moved(segment, frame) for segment in self.segments(inner.id))
            found += (
                Segment(key=(unit, index), ends=seam.line, toward=seam.toward) for index, seam in enumerate(draft.seams)
            )
            self._segments[unit] = tuple(found)
        return self._segments[unit]

    def own_meetings(self, unit: str) -> tuple[Meeting, ...]:
        """Return the match points on the unit's own seams, in its frame."""
        if unit not in self._own:
            segments = self.segments(unit)
            first = len(segments) - len(self.drafts[unit].seams)
            sewn = Ends(segments[:first])
            found: list[Meeting] = []
            for segment in segments[first:]:
                found += meetings_on(segment, sewn)
                sewn.add(segment)
            self._own[unit] = tuple(found)
        return self._own[unit]

    def all_meetings(self, unit: str) -> tuple[Meeting, ...]:
        """Return the match points inside one copy of a unit, those of the units in it among them."""
        found: list[Meeting] = []
        for child in self.drafts[unit].children:
            if child.ref.unit:
                inner = self.drafts[child.ref.unit]
                frame = child.frame(inner)
                found += (replace(each, at=frame.point(each.at)) for each in self.all_meetings(inner.id))
        return (*found, *self.own_meetings(unit))

    def edges(self, unit: str, turn: int, *, mirror: bool = False) -> dict[Edge, dict[Length, End]]:
        """Return the seams that end inside each edge of a unit that lies so, by position along x or y."""
        if (unit, turn, mirror) not in self._edges:
            draft = self.drafts[unit]
            w, h = (draft.h, draft.w) if turn in (90, 270) else (draft.w, draft.h)
            frame = Frame(w=draft.w, h=draft.h, x=w / 2, y=h / 2, turn=turn, mirror=mirror)
            zero = Length(0)
            lines: dict[Edge, tuple[Point, Point]] = {
                "top": ((zero, zero), (w, zero)),
                "right": ((w, zero), (w, h)),
                "bottom": ((zero, h), (w, h)),
                "left": ((zero, zero), (zero, h)),
            }
            outer = [segment for segment in self.segments(unit) if _leads_out(segment, draft)]
            turned = Ends(moved(segment, frame) for segment in outer)
            self._edges[unit, turn, mirror] = {edge: _ends_on(line, turned) for edge, line in lines.items()}
        return self._edges[unit, turn, mirror]


def moved(segment: Segment, frame: Frame) -> Segment:
    """Return a seam of a unit as it lies in another frame."""
    a, b = segment.ends
    return Segment(key=segment.key, ends=(frame.point(a), frame.point(b)), toward=frame.vector(segment.toward))


def _leads_out(segment: Segment, draft: Draft) -> bool:
    """Tell whether a seam ends on an edge of its unit."""
    return any(not x or x == draft.w or not y or y == draft.h for x, y in segment.ends)


class Ends:
    """The ends of seams, in the order of sewing, by the upright, the level and the diagonal lines that each lies on."""

    def __init__(self, segments: Iterable[Segment] = ()) -> None:
        self._all: list[tuple[Point, Point, Segment, int]] = []
        self._upright: dict[Length, list[tuple[Point, Point, Segment, int]]] = {}
        self._level: dict[Length, list[tuple[Point, Point, Segment, int]]] = {}
        self._rising: dict[Length, list[tuple[Point, Point, Segment, int]]] = {}
        self._falling: dict[Length, list[tuple[Point, Point, Segment, int]]] = {}
        self._slanting = 0
        """How many are noted by diagonal lines; they are when such a line is asked for."""
        for segment in segments:
            self.add(segment)

    def add(self, segment: Segment) -> None:
        """Take in a seam that is sewn after those before."""
        for index, (point, other) in enumerate((segment.ends, segment.ends[::-1])):
            end = (point, other, segment, index)
            self._all.append(end)
            self._upright.setdefault(point[0], []).append(end)
            self._level.setdefault(point[1], []).append(end)

    def touching(self, line: tuple[Point, Point]) -> Iterator[tuple[Point, End, int]]:
        """Yield the ends that lie strictly inside the line, each with the side (+1 or -1) that its seam is on."""
        (ax, ay), (bx, by) = line
        ex, ey = bx - ax, by - ay
        for point, other, segment, index in self._near(line[0], ex, ey):
            if is_inside(point, line, ex, ey):
                side = _sign(ex, other[1] - ay, -ey, other[0] - ax)
                if side:
                    sign = _sign(ex, segment.toward[0], ey, segment.toward[1])
                    yield point, End(key=segment.key, sign=sign, end=index), side

    def _near(self, start: Point, ex: Length, ey: Length) -> Sequence[tuple[Point, Point, Segment, int]]:
        """Return the ends that may lie on a line from a point on."""
        x, y = start
        if not ex:
            return self._upright.get(x, ())
        if not ey:
            return self._level.get(y, ())
        if ex not in (ey, -ey):
            return self._all
        for end in self._all[self._slanting :]:
            (px, py), *_ = end
            self._rising.setdefault(px - py, []).append(end)
            self._falling.setdefault(px + py, []).append(end)
        self._slanting = len(self._all)
        return self._rising.get(x - y, ()) if ex == ey else self._falling.get(x + y, ())


def _ends_on(line: tuple[Point, Point], sewn: Ends) -> dict[Length, End]:
    """Return what ends strictly inside an axis-parallel edge, by position along it; later seams govern."""
    (ax, ay), (bx, _) = line
    along = 0 if bx != ax else 1
    return {point[along] - (ax, ay)[along]: end for point, end, _ in sewn.touching(line)}


def meetings_on(crossing: Segment, sewn: Ends) -> list[Meeting]:
    """Return the match points on a seam of others that were sewn before it, in the order of sewing."""
    sides: dict[int, dict[Point, End]] = {1: {}, -1: {}}
    for point, end, side in sewn.touching(crossing.ends):
        sides[side][point] = end
    (ax, ay), (bx, by) = crossing.ends
    facing = ((bx - ax) * crossing.toward[1] - (by - ay) * crossing.toward[0]).sign()
    return [
        Meeting(at=point, on=crossing.key, one=end, other=sides[-1][point], facing=facing)
        for point, end in sides[1].items()
        if point in sides[-1]
    ]


def _sign(a: Length, x: Length, b: Length, y: Length) -> int:
    """Return the sign of a x + b y."""
    if not b:
        return a.sign() * x.sign()
    if not a:
        return b.sign() * y.sign()
    return (a * x + b * y).sign()


def is_inside(point: Point, line: tuple[Point, Point], ex: Length, ey: Length) -> bool:
    """Whether a point lies on the line from a to b, ends left out; (ex, ey) = b - a."""
    (ax, ay), (bx, by) = line
    x, y = point
    if not ex:
        return x == ax and min(ay, by) < y < max(ay, by)
    if not ey:
        return y == ay and min(ax, bx) < x < max(ax, bx)
    px, py = x - ax, y - ay
    return px * ey == py * ex and 0 < px * ex + py * ey < ex * ex + ey * ey
