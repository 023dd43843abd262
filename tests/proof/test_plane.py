"""The exact plane, held against exact lengths, floats and shapely."""

from __future__ import annotations

import math
from itertools import pairwise

import shapely
from hypothesis import given
from hypothesis import strategies as st

from seamleaf.lengths import Length
from seamleaf.proof.chain import clockwise, fault_of, tiles
from seamleaf.proof.plane import Plane, Polygon, Vector, add, double_area, sign, subtract, turned
from strategies import lengths, near_misses

ROOT = math.sqrt(2)
SCALE = 1 << 12

small = st.integers(-40, 40)
coordinates = st.tuples(small, small).map(lambda pq: (pq[0] * SCALE, pq[1] * SCALE))
points: st.SearchStrategy[Vector] = st.tuples(coordinates, coordinates).map(lambda xy: (*xy[0], *xy[1]))


def plain(vector: Vector) -> tuple[float, float]:
    a, b, c, d = vector
    return (a + b * ROOT) / SCALE, (c + d * ROOT) / SCALE


@given(p=st.integers(-(10**12), 10**12), q=st.integers(-(10**12), 10**12))
def test_signs_are_those_of_exact_lengths(p: int, q: int) -> None:
    assert sign(p, q) == Length(p, q).sign()


@given(some=st.lists(st.one_of(lengths(), near_misses()), min_size=2, max_size=8))
def test_ranks_stand_in_the_order_of_lengths(some: list[Length]) -> None:
    """Also of lengths so near to each other that floats cannot tell them apart."""
    plane = Plane.of(some)
    ordered = sorted(some)
    ranks = [plane.rank(plane.coordinate(length)) for length in ordered]
    for (a, b), (low, high) in zip(pairwise(ordered), pairwise(ranks), strict=True):
        assert (low == high) == (a == b)
        assert low <= high


@given(length=lengths(), other=lengths())
def test_coordinates_are_lengths_without_loss(length: Length, other: Length) -> None:
    plane = Plane.of([length, other])
    assert plane.length(plane.coordinate(length)) == length


@given(point=points, eighths=st.integers(0, 7), mirror=st.booleans())
def test_turning_is_clockwise_with_y_down_after_mirroring(point: Vector, eighths: int, mirror: bool) -> None:
    x, y = plain(point)
    x = -x if mirror else x
    angle = math.radians(45 * eighths)
    real = plain(turned(point, eighths, mirror))
    assert math.isclose(real[0], x * math.cos(angle) - y * math.sin(angle), abs_tol=1e-9)
    assert math.isclose(real[1], x * math.sin(angle) + y * math.cos(angle), abs_tol=1e-9)


@given(point=points)
def test_eight_eighths_are_a_full_turn(point: Vector) -> None:
    there = point
    for _ in range(8):
        there = turned(there, 1)
    assert there == point


@given(eighths=st.integers(0, 7), p=st.integers(-50, 50), q=st.integers(-50, 50))
def test_directions_count_eighths_from_the_right(eighths: int, p: int, q: int) -> None:
    if sign(p, q) > 0:
        assert any_plane().direction(turned((p * SCALE, q * SCALE, 0, 0), eighths)) == eighths


def test_other_directions_are_none() -> None:
    plane = any_plane()
    assert plane.direction((2, 0, 1, 0)) is None
    assert plane.direction((0, 0, 0, 0)) is None
    assert plane.direction((0, 1, 1, 0)) is None  # sqrt 2 across, 1 down
    assert sloping((1, 2)).direction((3, 0, 1, 0)) is not None  # 45 degrees less than what 1 : 2 slopes
    assert sloping((1, 2)).direction((4, 0, 1, 0)) is None


@given(point=points, way=st.integers(0, 7), step=coordinates)
def test_a_line_and_a_place_on_it_are_a_point(point: Vector, way: int, step: tuple[int, int]) -> None:
    plane = any_plane()
    line, along = plane.spot_on(way, point)
    assert plane.point_on(line, along) == point
    assert plane.spot_on(way, add(point, turned((*step, 0, 0), way)))[0] == line
    assert line[0] == plane.forward(way) in (0, 2, 1, 7)


# ------------------------------------------------------------------------------ slopes of half-rectangles

sides = st.tuples(st.integers(1, 12), st.integers(1, 12)).filter(lambda wh: wh[0] != wh[1])


def sloping(*rectangles: tuple[int, int]) -> Plane:
    """Return a plane with half-rectangles of these sizes."""
    return Plane.of([Length(1000), Length(0, 1000)], [(Length(w), Length(h)) for w, h in rectangles])


@given(rectangles=st.lists(sides, min_size=1, max_size=3), eighths=st.integers(0, 7), mirror=st.booleans())
def test_a_diagonal_turned_and_mirrored_points_in_the_direction_turned_and_mirrored(
    rectangles: list[tuple[int, int]], eighths: int, mirror: bool
) -> None:
    plane = sloping(*rectangles)
    for w, h in rectangles:
        vector: Vector = (w * SCALE, 0, -h * SCALE, 0)
        way = plane.direction(vector)
        assert way is not None
        assert plane.direction(turned(vector, eighths, mirror)) == plane.turned_way(way, eighths, mirror)
        assert plane.direction(subtract((0, 0, 0, 0), vector)) == plane.turned_way(way, 4)


@given(rectangles=st.lists(sides, min_size=1, max_size=3))
def test_directions_stand_in_the_order_of_their_angles(rectangles: list[tuple[int, int]]) -> None:
    plane = sloping(*rectangles)
    known: dict[int, float] = {}
    for w, h in [*rectangles, (1, 0)]:
        for eighths in range(8):
            for mirror in (False, True):
                vector = turned((w * SCALE, 0, h * SCALE, 0), eighths, mirror)
                way = plane.direction(vector)
                assert way is not None
                x, y = plain(vector)
                known[way] = round(math.degrees(math.atan2(y, x)) % 360, 9) % 360
    assert [known[way] for way in sorted(known)] == sorted(known.values())
    assert sorted(known) == list(range(8 * plane.eighth))


@given(rectangle=sides, point=points, eighths=st.integers(0, 7), step=st.integers(1, 9))
def test_a_sloping_line_and_a_place_on_it_are_a_point(
    rectangle: tuple[int, int], point: Vector, eighths: int, step: int
) -> None:
    plane = sloping(rectangle)
    along_it = turned((rectangle[0] * step * SCALE, 0, rectangle[1] * step * SCALE, 0), eighths)
    way = plane.direction(along_it)
    assert way is not None
    line, along = plane.spot_on(way, point)
    assert plane.point_on(line, along) == point
    assert plane.spot_on(way, add(point, along_it))[0] == line


# ------------------------------------------------------------------------------------------ tiling

UNIT = SCALE
triangles = st.tuples(small, small, st.integers(1, 12), st.integers(0, 7)).map(
    lambda drawn: tuple(
        add(turned(corner, drawn[3]), (drawn[0] * UNIT, 0, drawn[1] * UNIT, 0))
        for corner in ((0, 0, 0, 0), (drawn[2] * UNIT, 0, 0, 0), (0, 0, drawn[2] * UNIT, 0))
    )
)
rectangles = st.tuples(small, small, st.integers(1, 12), st.integers(1, 12)).map(
    lambda drawn: rectangle(drawn[0], drawn[1], drawn[2], drawn[3])
)


def rectangle(x: int, y: int, w: int, h: int) -> Polygon:
    left, top, right, bottom = x * UNIT, y * UNIT, (x + w) * UNIT, (y + h) * UNIT
    return (left, 0, top, 0), (right, 0, top, 0), (right, 0, bottom, 0), (left, 0, bottom, 0)


def shape(polygon: Polygon) -> shapely.Polygon:
    return shapely.Polygon([plain(point) for point in polygon])


def any_plane() -> Plane:
    return Plane.of([Length(1000), Length(0, 1000)])


@given(polygon=st.one_of(triangles, rectangles))
def test_areas_are_shapely_s(polygon: Polygon) -> None:
    p, q = double_area(polygon)
    assert math.isclose(abs(p + q * ROOT) / SCALE**2 / 2, shape(polygon).area, rel_tol=1e-9)
    assert sign(*double_area(clockwise(polygon))) > 0
    assert fault_of(polygon, any_plane()) is None


@st.composite
def tilings(draw: st.DrawFn) -> tuple[Polygon, list[Polygon]]:
    """Draw a rectangle cut from edge to edge, and some of its squares cut along a diagonal."""
    whole = (0, 0, draw(st.integers(2, 12)), draw(st.integers(2, 12)))
    boxes = [whole]
    for _ in range(draw(st.integers(0, 6))):
        x, y, w, h = boxes.pop(draw(st.integers(0, len(boxes) - 1)))
        if w > 1 and draw(st.booleans()):
            at = draw(st.integers(1, w - 1))
            boxes += [(x, y, at, h), (x + at, y, w - at, h)]
        elif h > 1:
            at = draw(st.integers(1, h - 1))
            boxes += [(x, y, w, at), (x, y + at, w, h - at)]
        else:
            boxes.append((x, y, w, h))
    parts: list[Polygon] = []
    for x, y, w, h in boxes:
        a, b, c, d = rectangle(x, y, w, h)
        if w == h and draw(st.booleans()):
            parts += [(a, b, c), (a, c, d)]
        else:
            parts.append((a, b, c, d))
    return rectangle(*whole), parts


@given(drawn=tilings())
def test_what_a_ruler_cuts_tiles(drawn: tuple[Polygon, list[Polygon]]) -> None:
    outline, parts = drawn
    assert tiles(parts, outline, any_plane()) is None


@given(drawn=tilings(), which=st.integers(0, 100), dx=st.integers(-1, 1), dy=st.integers(-1, 1), data=st.data())
def test_tiling_is_what_shapely_calls_so(
    drawn: tuple[Polygon, list[Polygon]], which: int, dx: int, dy: int, data: st.DataObject
) -> None:
    """Parts moved, dropped, doubled or swapped for others: no gap, no overlap and nothing outside, or not a tiling."""
    outline, parts = drawn
    index = which % len(parts)
    change = data.draw(st.sampled_from(["move", "drop", "double", "other"]))
    if change == "move":
        parts[index] = tuple(add(point, (dx * UNIT, 0, dy * UNIT, 0)) for point in parts[index])
    elif change == "drop":
        parts.pop(index)
    elif change == "double":
        parts.append(parts[index])
    else:
        parts[index] = clockwise(data.draw(st.one_of(triangles, rectangles)))
    shapes = [shape(part) for part in parts]
    whole = shape(outline)
    union = shapely.union_all(shapes)
    covers = math.isclose(union.symmetric_difference(whole).area, 0, abs_tol=1e-6)
    once = math.isclose(sum(part.area for part in shapes), union.area, abs_tol=1e-6)
    assert (tiles(parts, outline, any_plane()) is None) == (covers and once)


def test_a_gap_too_small_for_floats_is_found() -> None:
    """1e-30 is not nothing."""
    tiny = Length(1) / 10**30
    plane = Plane.of([Length(2), Length(0, 1), tiny])
    one, two, three = (plane.coordinate(length) for length in (Length(0), Length(1) - tiny, Length(2)))
    middle = plane.coordinate(Length(1))

    def box(left: tuple[int, int], right: tuple[int, int]) -> Polygon:
        return (*left, *one), (*right, *one), (*right, *three), (*left, *three)

    assert tiles([box(one, middle), box(middle, three)], box(one, three), plane) is None
    assert tiles([box(one, two), box(middle, three)], box(one, three), plane) is not None


def test_outlines_that_are_none_are_told_by_their_fault() -> None:
    a, b, c, d = rectangle(0, 0, 2, 2)
    beyond, far = (4 * UNIT, 0, 0, 0), (6 * UNIT, 0, 0, 0)
    assert "corners" in (fault_of((a, b), any_plane()) or "")
    assert "convex" in (fault_of((a, b, beyond, c, d), any_plane()) or "")
    assert "convex" in (fault_of((a, c, b, d), any_plane()) or "")
    assert "degrees" in (fault_of((a, far, c), any_plane()) or "")
    assert "degrees" in (fault_of((a, a, c), any_plane()) or "")
    twice = (a, b, c, d, a, b, c, d)
    assert "winds" in (fault_of(twice, any_plane()) or "")
