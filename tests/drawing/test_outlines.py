"""Outlines grown, widened, folded and cut, against a library for plane geometry."""

from __future__ import annotations

import math

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from shapely.geometry import LineString, MultiPoint, Polygon
from shapely.geometry import box as rectangle
from shapely.ops import unary_union

from seamleaf.drawing.outlines import Spots, cut_to, folded, grown, line_inside, slices, widened

SPOT = st.tuples(st.integers(-20, 20), st.integers(-20, 20))


@st.composite
def convex(draw: st.DrawFn) -> Spots:
    """Draw a convex outline that is no sliver, either way round."""
    hull = MultiPoint(draw(st.lists(SPOT, min_size=3, max_size=7))).convex_hull
    assume(isinstance(hull, Polygon) and hull.area > 4)
    corners = [(float(x), float(y)) for x, y in list(hull.exterior.coords)[:-1]]
    return tuple(corners if draw(st.booleans()) else reversed(corners))


@given(convex(), st.floats(0.1, 3))
def test_a_grown_outline_is_a_buffer_with_sharp_corners(spots: Spots, by: float) -> None:
    """Held by distance: the library's overlay of two slivers that lie within 1e-13 of each other can come out empty."""
    expected, found = Polygon(spots).buffer(by, join_style="mitre", mitre_limit=1000), Polygon(grown(spots, by))
    assert found.area == pytest.approx(expected.area)
    assert found.hausdorff_distance(expected) < 1e-9 * expected.length


@given(convex(), convex())
def test_what_is_cut_to_a_window_is_the_intersection(spots: Spots, window: Spots) -> None:
    expected = Polygon(spots).intersection(Polygon(window))
    assume(expected.area > 0.01 or expected.area == 0)
    found = cut_to(spots, window)
    assert (Polygon(found).area if found else 0) == pytest.approx(expected.area, abs=1e-4)
    assert not found or Polygon(found).within(Polygon(window).buffer(1e-4))


@given(SPOT, SPOT, convex())
def test_a_line_inside_a_window_is_the_intersection(
    start: tuple[int, int], end: tuple[int, int], window: Spots
) -> None:
    assume(math.dist(start, end) > 1)
    expected = LineString([start, end]).intersection(Polygon(window)).length
    assume(expected > 0.03 * math.dist(start, end) or expected == 0)
    found = line_inside((start, end), window)
    assert (math.dist(*found) if found else 0) == pytest.approx(expected, abs=1e-4)


@given(convex(), SPOT, SPOT)
def test_folding_twice_over_one_line_changes_nothing(spots: Spots, a: tuple[int, int], b: tuple[int, int]) -> None:
    assume(a != b)
    once = folded(spots, (a, b))
    assert Polygon(once).area == pytest.approx(Polygon(spots).area)
    assert [round(v, 6) + 0 for spot in folded(once, (a, b)) for v in spot] == [v for spot in spots for v in spot]


def test_folding_over_an_upright_line_mirrors_left_to_right() -> None:
    assert folded(((1, 0), (3, 0), (3, 5)), ((4, 0), (4, 9))) == ((7, 0), (5, 0), (5, 5))


@given(convex(), st.floats(0.5, 5))
def test_slices_cover_an_outline_and_stay_in_its_box(spots: Spots, height: float) -> None:
    cover = slices(spots, height)
    shape = Polygon(spots)
    joined = unary_union([rectangle(*each) for each in cover])
    assert shape.difference(joined.buffer(1e-6)).area < 1e-6
    assert joined.within(rectangle(*shape.bounds).buffer(1e-6))


def test_the_patches_of_a_unit_with_their_allowance_fill_its_cut_size() -> None:
    """A half-square 2 x 2 beside a rectangle, 4 x 2 in all; with 1/4 round it the unit is 4 1/2 x 2 1/2."""
    patches: list[Spots] = [((0, 0), (2, 0), (0, 2)), ((2, 0), (2, 2), (0, 2)), ((2, 0), (4, 0), (4, 2), (2, 2))]
    cut = [Polygon(widened(spots, 4, 2, 0.25)) for spots in patches]
    assert sum(each.area for each in cut) == pytest.approx(4.5 * 2.5)
    assert cut[0].union(cut[1]).union(cut[2]).bounds == (-0.25, -0.25, 4.25, 2.25)
    assert all(one.intersection(other).area < 1e-9 for i, one in enumerate(cut) for other in cut[:i])


def test_an_allowance_is_as_long_as_the_edge_it_belongs_to() -> None:
    """The tip of flying geese stays a seam allowance away from the raw edge: above it lies sky alone."""
    goose = Polygon(widened(((0, 2), (2, 0), (4, 2)), 4, 2, 0.25))
    assert goose.bounds == (-0.25, 0, 4.25, 2.25)
