"""The finished shape of every unit: its outline, the outlines of its parts, and its seams, in the unit's own frame.

Children are laid by the published rule: mirror (x -> w - x), turn clockwise about the centre of the box, move the
centre to (x, y).
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from seamleaf.lengths import ZERO
from seamleaf.proof.book import Book
from seamleaf.proof.chain import Chain, clockwise, edges, fault_of, tiles
from seamleaf.proof.plane import (
    Plane,
    Polygon,
    Vector,
    add,
    subtract,
    turned,
)
from seamleaf.proof.record import Point, Seam, Take, Unit
from seamleaf.proof.report import Findings, say

OUTLINE: Final = "outline"
TILES: Final = "parts tile the unit"
SEAMS: Final = "seams of units"


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """What a unit is sewn of: a patch or a smaller unit, as it lies."""

    name: str
    outline: Polygon


@dataclass(frozen=True, slots=True, kw_only=True)
class Stitched:
    """A seam with its ends, and the direction in which allowances lie that are pressed before."""

    seam: Seam
    start: Vector
    end: Vector
    way: int
    before: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Shape:
    """A unit's finished shape. Polygons run clockwise."""

    middle: Vector
    """Centre of the box, which turns and mirrors leave where it is."""
    outline: Polygon
    parts: tuple[Part, ...]
    """One a unit that is taken, one a region."""
    seams: tuple[Stitched, ...]


def polygon_of(plane: Plane, outline: tuple[Point, ...]) -> Polygon:
    """Return a published outline as a polygon, as it runs."""
    return tuple(plane.point(x, y) for x, y in outline)


def laid(shape: Shape, polygon: Polygon, take_turn: int, mirror: bool, centre: Vector) -> Polygon:
    """Return a polygon of a unit's frame as it lies in another."""
    moved = tuple(add(turned(subtract(point, shape.middle), take_turn // 45, mirror), centre) for point in polygon)
    return moved[::-1] if mirror else moved


def check_shapes(book: Book, findings: Findings) -> dict[str, Shape] | None:
    """Draw every unit and see that its parts tile it and its seams lie where parts meet.

    Returns:
        The shapes by unit id, or ``None`` when an outline is at fault, so that no quilt can be drawn of them.

    """
    shapes: dict[str, Shape] = {}
    for unit in book.booklet.units:
        shape = _shape_of(book, unit, shapes, findings)
        if shape is None:
            return None
        shapes[unit.id] = shape
    return shapes


def _shape_of(book: Book, unit: Unit, shapes: dict[str, Shape], findings: Findings) -> Shape | None:
    plane = book.plane
    outline = polygon_of(plane, unit.outline)
    fault = fault_of(outline, plane) or _box_fault(unit)
    if fault:
        findings.add(OUTLINE, f"{unit.pointer}/outline", f"{unit.id}: {fault}")
        return None
    parts: list[Part] = []
    for take in unit.from_:
        if take.turn % 45 or not 0 <= take.turn < 360:
            findings.add(OUTLINE, f"{take.pointer}/turn", f"a turn of {take.turn} degrees")
            return None
        if take.unit is not None:
            parts.append(_laid_child(plane, take, shapes[take.unit]))
    for region in unit.regions:
        drawn = polygon_of(plane, region.outline)
        fault = fault_of(drawn, plane)
        if fault:
            findings.add(OUTLINE, f"{region.pointer}/outline", f"{region.label} in {unit.id}: {fault}")
            return None
        parts.append(Part(name=region.label, outline=clockwise(drawn)))
    outline = clockwise(outline)
    gap = tiles((part.outline for part in parts), outline, plane)
    if gap is not None:
        message = f"the parts of {unit.id} leave gaps, overlap or stick out at {_say_point(plane, gap)}"
        findings.add(TILES, f"{unit.pointer}/from", message)
        return None
    seams = _seams_of(book, unit, tuple(parts), outline, findings)
    middle = plane.point(unit.finished.w / 2, unit.finished.h / 2)
    return Shape(middle=middle, outline=outline, parts=tuple(parts), seams=seams)


def _box_fault(unit: Unit) -> str | None:
    """Return what is wrong with an outline whose box is not the finished size, from the origin."""
    xs, ys = [x for x, _ in unit.outline], [y for _, y in unit.outline]
    box = min(xs), min(ys), max(xs), max(ys)
    if box[:2] != (ZERO, ZERO) or box[2:] != unit.finished.sides:
        return f"the outline does not fill the finished size of {say(unit.finished)} from the origin"
    return None


def _laid_child(plane: Plane, take: Take, shape: Shape) -> Part:
    centre = plane.point(take.x, take.y)
    return Part(name=take.unit or "", outline=laid(shape, shape.outline, take.turn, take.mirror, centre))


def _say_point(plane: Plane, point: Vector) -> str:
    return f"x = {say(plane.length(point[:2]))}, y = {say(plane.length(point[2:]))}"


# --------------------------------------------------------------------------------------------- seams


def _seams_of(
    book: Book, unit: Unit, parts: tuple[Part, ...], outline: Polygon, findings: Findings
) -> tuple[Stitched, ...]:
    """Read a unit's seams; together they are, once, all the lines along which its parts meet."""
    plane = book.plane
    found: list[Stitched] = []
    for name in unit.seams:
        stitched = read_seam(book, book.seams[name], findings)
        if stitched is not None:
            found.append(_between(plane, stitched, parts, unit, findings))
    if len(found) < len(unit.seams):
        return tuple(found)
    message = f"{len(parts)} parts of {unit.id} are joined by {len(parts) - 1} seams, not {len(found)}"
    findings.expect(len(found) == len(parts) - 1, SEAMS, f"{unit.pointer}/seams", message)
    chain = Chain(plane)
    for polygon, times in (*((part.outline, 1) for part in parts), (outline, -1)):
        _add_forward(chain, polygon, times)
    for each in found:
        chain.add_edge(*_forward(plane, each), plane.forward(each.way), -1)
    stray = chain.left_over()
    if stray is not None:
        message = f"the seams of {unit.id} are not where its parts meet, at {_say_point(plane, stray)}"
        findings.add(SEAMS, f"{unit.pointer}/seams", message)
    return tuple(found)


def _add_forward(chain: Chain, polygon: Polygon, times: int) -> None:
    """Note only the edges that follow their line forward: where two parts meet, one of them has it so."""
    for start, end in edges(polygon):
        way = chain.plane.direction(subtract(end, start))
        if way is not None and chain.plane.forward(way) == way:
            chain.add_edge(start, end, way, times)


def _forward(plane: Plane, seam: Stitched) -> tuple[Vector, Vector]:
    return (seam.start, seam.end) if plane.forward(seam.way) == seam.way else (seam.end, seam.start)


def read_seam(book: Book, seam: Seam, findings: Findings) -> Stitched | None:
    """Return a seam with its ends; ``before`` is known for axes x and y, and for d a stand-in."""
    (ax, ay), (bx, by) = seam.line
    plane = book.plane
    start, end = plane.point(ax, ay), plane.point(bx, by)
    way = plane.direction(subtract(end, start))
    if way is None:
        findings.add(SEAMS, f"{seam.pointer}/line", f"seam {seam.id} runs in no direction that is known")
        return None
    axis = plane.axis(way)
    findings.expect_equal(seam.axis, axis, SEAMS, f"{seam.pointer}/axis", f"axis of seam {seam.id}")
    if axis == "d":
        good = seam.at is None and seam.span is None
        findings.expect(good, SEAMS, seam.pointer, f"seam {seam.id} slopes, so 'at' and 'span' are null")
    else:
        at, ends = (ax, (ay, by)) if axis == "x" else (ay, (ax, bx))
        findings.expect_equal(seam.at, at, SEAMS, f"{seam.pointer}/at", f"line of seam {seam.id}")
        span = min(ends), max(ends)
        findings.expect_equal(seam.span, span, SEAMS, f"{seam.pointer}/span", f"ends of seam {seam.id}")
    before = {"x": 4 * plane.eighth, "y": 6 * plane.eighth}.get(axis, plane.turned_way(way, 2))
    return Stitched(seam=seam, start=start, end=end, way=way, before=before)


def _between(plane: Plane, seam: Stitched, parts: tuple[Part, ...], unit: Unit, findings: Findings) -> Stitched:
    """Find which parts a seam joins, and so on which side its first part lies."""
    right, left = beside(plane, seam, tuple(part.outline for part in parts))
    names = {
        plane.turned_way(seam.way, 2): [parts[i].name for i in right],
        plane.turned_way(seam.way, 6): [parts[i].name for i in left],
    }
    base = unit.from_[0].label or unit.from_[0].unit

    def is_at(name: str, near: list[str]) -> bool:
        # The centre of a log cabin also stands for the logs that were sewn to it before.
        return name in near or (name == base and unit.how in ("around", "partial") and bool(near))

    first, second = seam.seam.first, seam.seam.second
    sides = [
        side for side, near in names.items() if is_at(first, near) and is_at(second, names[plane.turned_way(side, 4)])
    ]
    if not sides:
        message = f"seam {seam.seam.id} does not join {first} to {second}"
        findings.add(SEAMS, seam.seam.pointer, message)
        return seam
    if seam.seam.axis != "d":
        return seam
    leftward = range(2 * plane.eighth + 1, 6 * plane.eighth)
    sides.sort(key=lambda side: side not in leftward)  # of two alike parts the left one is the first
    return Stitched(seam=seam.seam, start=seam.start, end=seam.end, way=seam.way, before=sides[0])


def beside(plane: Plane, seam: Stitched, polygons: tuple[Polygon, ...]) -> tuple[list[int], list[int]]:
    """Return which polygons have an edge along a seam: those to its right (clockwise of its way), and to its left."""
    line, at = plane.spot_on(seam.way, seam.start)
    _, until = plane.spot_on(seam.way, seam.end)
    low, high = sorted((plane.rank(at), plane.rank(until)))
    right: list[int] = []
    left: list[int] = []
    for index, polygon in enumerate(polygons):
        for start, end in edges(polygon):
            way = plane.direction(subtract(end, start))
            if way is None or plane.forward(way) != line[0]:
                continue
            spot, one = plane.spot_on(way, start)
            _, other = plane.spot_on(way, end)
            ranks = plane.rank(one), plane.rank(other)
            if spot == line and min(ranks) < high and max(ranks) > low:
                # A clockwise outline has its inside to the right of the way it runs.
                (right if way == seam.way else left).append(index)
    return right, left
