"""Match points found again in a published booklet, from its seams and places alone.

Every seam of every copy is laid out in the centre's frame, in floating point. A match point is a point inside a
seam line where a seam ends from each side; of several that end there from one side the last sewn counts. It nests
when the two allowances lie in opposite directions along the line.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Literal

import numpy as np
import numpy.typing as npt

from quilt_for_tests import XY, Placing, place_of, strips_of_borders, units_by_id
from seamleaf.booklet import Booklet
from seamleaf.booklet.record import Press, Seam, Unit

NEAR = 1e-6
Outcome = Literal["nested", "open", "spun", "clash"]
Class = tuple[str, int]
"""A seam of a unit, by unit and index; one instruction for all copies."""
ALWAYS_OUTWARD = ("geese", "corners", "diamond", "around", "partial")
"""Units whose seams the trade presses one way, whatever they meet."""


@dataclass(frozen=True, kw_only=True)
class Laid:
    """One seam where it lies."""

    key: Class
    a: XY
    b: XY
    after: XY
    """Direction of the allowances when it is pressed "after"."""
    press: Press


@dataclass(frozen=True, kw_only=True)
class Meeting:
    """A match point: the seam that it lies on and those that end there, with the sign of "after" along the line."""

    at: XY
    on: int
    one: int
    other: int


def seams_of(unit: Unit, booklet: Booklet) -> Iterator[Laid]:
    """Yield the seams of one unit in its frame, in sewing order, those of the units that it takes first."""
    units = units_by_id(booklet)
    for take in unit.from_:
        if take.unit is not None:
            yield from placed(seams_of(units[take.unit], booklet), place_of(take, units[take.unit]))
    own = {seam.id: seam for seam in booklet.seams if seam.of == unit.id}
    for index, seam_id in enumerate(unit.seams):
        seam = own[seam_id]
        yield laid(seam, (unit.id, index), after_in(seam, unit, units))


def seams_of_top(booklet: Booklet) -> list[Laid]:
    """Return the seams of the whole top in the centre's frame, in sewing order."""
    units = units_by_id(booklet)
    found: list[Laid] = []
    for place in booklet.places:
        found += placed(seams_of(units[place.unit], booklet), place_of(place, units[place.unit]))
    for unit, place_strip in strips_of_borders(booklet):
        found += placed(seams_of(unit, booklet), place_strip)
    for index, seam in enumerate(booklet.seams):
        if seam.of not in units:
            found.append(laid(seam, (seam.of, index), after_on_top(seam, booklet)))
    return found


def laid(seam: Seam, key: Class, after: XY) -> Laid:
    (ax, ay), (bx, by) = seam.line
    a, b = (ax.to_float(), ay.to_float()), (bx.to_float(), by.to_float())
    return Laid(key=key, a=a, b=b, after=after, press=seam.press)


def placed(seams: Iterator[Laid], place: Placing) -> Iterator[Laid]:
    """Yield seams mapped into another frame."""
    x0, y0 = place((0.0, 0.0))
    for seam in seams:
        x, y = place(seam.after)
        yield replace(seam, a=place(seam.a), b=place(seam.b), after=(x - x0, y - y0))


def after_in(seam: Seam, unit: Unit, units: dict[str, Unit]) -> XY:
    """Return which way "after" is: to larger x or y; for a sloping seam to the part named second."""
    if seam.axis != "d":
        return (1.0, 0.0) if seam.axis == "x" else (0.0, 1.0)
    (ax, ay), (bx, by) = ((x.to_float(), y.to_float()) for x, y in seam.line)
    normal = (ay - by, bx - ax)
    outlines = [(region.label, [(x.to_float(), y.to_float()) for x, y in region.outline]) for region in unit.regions]
    for take in unit.from_:
        if take.unit is not None:
            there = place_of(take, units[take.unit])
            corners = [(x.to_float(), y.to_float()) for x, y in units[take.unit].outline]
            outlines.append((take.unit, [there(corner) for corner in corners]))
    middle = ((ax + bx) / 2, (ay + by) / 2)
    beside: list[tuple[float, float]] = []
    for name, corners in outlines:
        heights = [(x - ax) * normal[0] + (y - ay) * normal[1] for x, y in corners]
        on_line = [corner for corner, height in zip(corners, heights, strict=True) if abs(height) < NEAR]
        if name == seam.first and len(on_line) > 1 and between(middle, on_line):
            beside.append((sum(x for x, _ in corners) / len(corners), sum(heights)))
    if beside:
        _, height = min(beside)  # of two parts with one label the left one is the first
        side = -1.0 if height > 0 else 1.0
        return normal[0] * side, normal[1] * side
    raise AssertionError(f"no part {seam.first} beside seam {seam.id}")


def between(point: XY, ends: list[XY]) -> bool:
    """Whether a point of a line lies between some of its points."""
    return all(
        min(each[axis] for each in ends) - NEAR <= point[axis] <= max(each[axis] for each in ends) + NEAR
        for axis in (0, 1)
    )


def after_on_top(seam: Seam, booklet: Booklet) -> XY:
    """Return which way "after" is for a seam of a row, between rows, at a corner or of a border."""
    if seam.axis != "d":
        return (1.0, 0.0) if seam.axis == "x" else (0.0, 1.0)
    if seam.of == "row":
        return 1.0, -1.0  # on point a row climbs to the right
    if seam.first.startswith("row "):
        return 1.0, 1.0
    w, h = booklet.set.centre.w.to_float(), booklet.set.centre.h.to_float()
    (ax, ay), (bx, by) = ((x.to_float(), y.to_float()) for x, y in seam.line)
    return (ax + bx - w), (ay + by - h)  # a corner: away from the middle


def meetings(seams: list[Laid]) -> list[Meeting]:
    """Return every match point of a list of seams in sewing order."""
    ending: defaultdict[tuple[int, int], list[tuple[int, XY, XY]]] = defaultdict(list)
    for index, seam in enumerate(seams):
        for end, far in ((seam.a, seam.b), (seam.b, seam.a)):
            ending[round(end[0] / NEAR), round(end[1] / NEAR)].append((index, end, far))
    groups = list(ending.values())
    points: npt.NDArray[np.float64] = np.array([group[0][1] for group in groups]).reshape(-1, 2)
    found: list[Meeting] = []
    for index, seam in enumerate(seams):
        a, along = np.array(seam.a), np.array(seam.b) - np.array(seam.a)
        offset = points - a
        length = float(along @ along)
        position = offset @ along / length
        height = (offset[:, 0] * along[1] - offset[:, 1] * along[0]) / length**0.5
        inside = (position * length**0.5 > 2 * NEAR) & ((1 - position) * length**0.5 > 2 * NEAR)
        for group in np.flatnonzero(inside & (abs(height) < 2 * NEAR)):
            sides: dict[int, int] = {}
            for ended, end, far in groups[group]:  # in sewing order, so that the last sewn stays
                side = (far[0] - end[0]) * along[1] - (far[1] - end[1]) * along[0]
                if abs(side) > NEAR:
                    sides[1 if side > 0 else -1] = ended
            if len(sides) == 2:
                found.append(Meeting(at=groups[group][0][1], on=index, one=sides[1], other=sides[-1]))
    return found


def dot(v: XY, w: XY) -> float:
    return v[0] * w[0] + v[1] * w[1]


def cross(v: XY, w: XY) -> float:
    return v[0] * w[1] - v[1] * w[0]


def minus(v: XY, w: XY) -> XY:
    return v[0] - w[0], v[1] - w[1]


class Top:
    """The seams of a top, or of a unit, with their match points."""

    def __init__(self, seams: list[Laid]) -> None:
        self.seams = seams
        self.meetings = meetings(seams)
        self.on: defaultdict[int, list[Meeting]] = defaultdict(list)
        for meeting in self.meetings:
            self.on[meeting.on].append(meeting)

    def fold(self, seam: int, near: XY) -> XY | None:
        """Return the direction of a seam's allowances at one of its ends; ``None`` when they lie open."""
        it = self.seams[seam]
        if it.press == "open":
            return None
        if it.press != "spin":
            return it.after if it.press == "after" else (-it.after[0], -it.after[1])
        # All four folds at the point where it is spun turn the same way round.
        (centre,) = self.on[seam]
        turns = {self._turn(one, centre.at) for one in (centre.one, centre.other)}
        assert len(turns) == 1, f"the seams at {centre.at} cannot be spun"
        (turn,) = turns
        x, y = minus(near, centre.at)
        return -y * turn, x * turn

    def _turn(self, seam: int, at: XY) -> int:
        """Return +1 when a seam that ends at a point is folded clockwise round it (y runs down), else -1."""
        it = self.seams[seam]
        far = max((it.a, it.b), key=lambda end: dot(minus(end, at), minus(end, at)))
        fold = self.fold(seam, at)
        assert fold is not None
        return 1 if cross(minus(far, at), fold) > 0 else -1

    def outcome(self, meeting: Meeting) -> Outcome:
        """Return how a match point comes out."""
        on = self.seams[meeting.on]
        if on.press == "spin":
            self.fold(meeting.on, on.a)  # asserts that the spin can be made
            return "spun"
        one, other = self.fold(meeting.one, meeting.at), self.fold(meeting.other, meeting.at)
        if one is None or other is None:
            return "open"
        line = minus(on.b, on.a)
        return "nested" if dot(one, line) * dot(other, line) < 0 else "clash"

    def outcomes(self) -> dict[XY, Outcome]:
        """Return every match point with how it comes out; one a point."""
        found = {(round(m.at[0], 5), round(m.at[1], 5)): self.outcome(m) for m in self.meetings}
        assert len(found) == len(self.meetings)
        return found


def fewest_clashes(top: Top, booklet: Booklet, *, alike: bool = False) -> int:
    """Return the fewest match points that can clash, by trying every direction of every seam of the units.

    Seams that are always pressed outward keep their direction, and so do those of rows and borders. With ``alike``,
    B blocks are pressed as A blocks are.
    """
    units = units_by_id(booklet)

    def key(seam: int) -> Class:
        unit, index = top.seams[seam].key
        return (unit.removesuffix(".B") if alike else unit), index

    free = sorted({key(i) for i, seam in enumerate(top.seams) if is_free(seam, units)})
    column = {one: number for number, one in enumerate(free)}
    directions = (np.arange(2 ** len(free))[:, None] >> np.arange(len(free)) & 1) * 2 - 1
    clashes = np.zeros(len(directions), dtype=int)
    for meeting in top.meetings:
        line = minus(top.seams[meeting.on].b, top.seams[meeting.on].a)
        along = np.ones(len(directions), dtype=int)
        for seam in (meeting.one, meeting.other):
            it = top.seams[seam]
            along *= 1 if dot(it.after, line) > 0 else -1
            if is_free(it, units):
                along *= directions[:, column[key(seam)]]
            else:
                along *= {"after": 1, "before": -1}[it.press]
        clashes += along > 0
    return int(clashes.min())


def is_free(seam: Laid, units: dict[str, Unit]) -> bool:
    """Whether the pressing may choose the direction of a seam."""
    unit = units.get(seam.key[0])
    return unit is not None and unit.how not in ALWAYS_OUTWARD
