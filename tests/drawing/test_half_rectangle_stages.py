"""Half-rectangles from cut triangles: the figure cuts, lays together, sews and trims them as the booklet says."""

from __future__ import annotations

import math
from itertools import pairwise

import pytest
from shapely.geometry import Polygon

from drawing.kinds import PLAIN
from drawing.seen import marks
from drawing.test_stages import fills, presses, segments, stages, step_of
from patterns_for_tests import booklet_of, half_rectangle
from seamleaf.booklet.record import Unit
from seamleaf.drawing.drafting import CUT, DASH, STITCH

BOOKLET = booklet_of(
    {"block": {"row": [half_rectangle("dark", "light", "2 x 4"), half_rectangle("dark", "light", "2 x 4", 90)]}},
    size="2 x 2",
    fabrics=PLAIN,
)
UNITS = [unit for unit in BOOKLET.units if unit.how == "half-rectangle"]


def long_edge(triangle: Polygon) -> tuple[tuple[float, float], tuple[float, float]]:
    """Return the ends of the longest edge."""
    corners = list(triangle.exterior.coords)
    (ax, ay), (bx, by) = max(pairwise(corners), key=lambda edge: math.dist(*edge))
    return (ax, ay), (bx, by)


@pytest.mark.parametrize("unit", UNITS, ids=lambda unit: unit.id)
def test_each_rectangle_is_cut_from_lower_left_to_upper_right(unit: Unit) -> None:
    """The rectangle of the other hand lies the other way, so that the cut is the same."""
    panel = stages(step_of(BOOKLET, unit.id))["stage 1"]
    lines = segments(panel, DASH)
    assert len(lines) == 2
    for take, ((x1, y1), (x2, y2)) in zip(unit.from_, lines, strict=True):
        (drawn,) = fills(panel, f"patch {take.label}")
        left, top, right, bottom = drawn.bounds
        assert ((x1, y1), (x2, y2)) == ((left, bottom), (right, top))
        patch = next(patch for patch in BOOKLET.patches if patch.label == take.label)
        assert (right - left) / (bottom - top) == pytest.approx(patch.w.to_float() / patch.h.to_float())


@pytest.mark.parametrize("unit", UNITS, ids=lambda unit: unit.id)
def test_the_triangles_lie_with_long_edges_even_and_their_tips_out(unit: Unit) -> None:
    panel = stages(step_of(BOOKLET, unit.id))["stage 2"]
    first, second = (fills(panel, f"patch {take.label}")[0] for take in unit.from_)
    (ax, ay), (bx, by) = long_edge(first)
    (cx, cy), (dx, dy) = long_edge(second)
    length = math.dist((ax, ay), (bx, by))
    for x, y in ((cx, cy), (dx, dy)):
        assert ((x - ax) * (by - ay) - (y - ay) * (bx - ax)) / length == pytest.approx(0, abs=1e-6)
    inch = length / math.hypot(23 / 8, 11 / 2)
    near = min(math.dist(p, q) for p in ((ax, ay), (bx, by)) for q in ((cx, cy), (dx, dy)))
    assert near / inch == pytest.approx(5 / 8)
    (stitched,) = segments(panel, STITCH)
    (x, y), _ = stitched
    apart = abs((x - ax) * (by - ay) - (y - ay) * (bx - ax)) / length
    assert apart / inch == pytest.approx(1 / 4)


@pytest.mark.parametrize("unit", UNITS, ids=lambda unit: unit.id)
def test_the_trimmed_unit_lies_within_what_is_sewn_and_its_seam_meets_the_corners(unit: Unit) -> None:
    panel = stages(step_of(BOOKLET, unit.id))["stage 3"]
    both = [fills(panel, f"patch {take.label}")[0] for take in unit.from_]
    (trim,) = (
        Polygon(m.points)
        for m in panel
        if m.kind == "polygon" and m.ink is not None and m.ink.dash == DASH and m.ink.width == CUT
    )
    assert both[0].union(both[1]).buffer(1e-6).contains(trim)
    start, end = long_edge(both[0])
    inch = math.sqrt(trim.area / (2.5 * 4.5))
    inner = list(trim.buffer(-inch / 4, join_style="mitre").exterior.coords)[:-1]
    off = [abs((x - start[0]) * (end[1] - start[1]) - (y - start[1]) * (end[0] - start[0])) for x, y in inner]
    assert sorted(off)[:2] == pytest.approx([0, 0], abs=1e-3)
    assert sorted(off)[2] > 1
    assert [presses(each) for each in stages(step_of(BOOKLET, unit.id)).values()] == [0, 0, 1, 0]
    said = " ".join(mark.text.text for mark in marks(step_of(BOOKLET, unit.id)) if mark.text is not None)
    assert "sharp tip" in said
