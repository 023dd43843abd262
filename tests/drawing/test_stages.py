"""Quarter-squares, flipped corners, squares in squares, log cabins and rings: every stage shows what a maker does.

That a thing is done in this order is common practice, no source; that it is drawn to measure follows from the booklet.
"""

from __future__ import annotations

import math
import re
from dataclasses import replace
from itertools import pairwise

import pytest
from shapely.geometry import Polygon

from drawing.kinds import NINE, PLAIN, cabin, kinds, ring
from drawing.recording import Mark
from drawing.sample import BOOKLET, R2, box, line, outline, patch, region, seam, take, unit
from drawing.seen import marks, record, seen_booklet, sketches, tags
from patterns_for_tests import booklet_of
from seamleaf.booklet import Booklet
from seamleaf.booklet.record import Unit
from seamleaf.drawing import draw_sketches
from seamleaf.drawing.drafting import CUT, DASH, NEW, STITCH
from seamleaf.drawing.figure import Sketch
from seamleaf.drawing.scene import Spot


def find(name: str, how: str, method: str | None = None) -> Unit:
    """Return the first unit of a booklet that is sewn this way."""
    return next(u for u in seen_booklet(name).units if u.how == how and (method is None or u.method == method))


def step(name: str, how: str, method: str | None = None) -> Sketch:
    return sketches(name)[f"step-{find(name, how, method).id}"]


def step_of(booklet: Booklet, unit_id: str) -> Sketch:
    return next(sketch for sketch in draw_sketches(booklet) if sketch.id == f"step-{unit_id}")


def stages(sketch: Sketch) -> dict[str, list[Mark]]:
    """Return the marks of each panel, by its tag."""
    panels: dict[str, list[Mark]] = {}
    for mark in marks(sketch):
        if mark.tags and mark.tags[0].startswith(("stage", "finished")):
            panels.setdefault(mark.tags[0], []).append(mark)
    return panels


def segments(panel: list[Mark], dash: tuple[float, ...]) -> list[tuple[Spot, Spot]]:
    """Return the lines of one kind: drawn, to sew, or to cut."""
    found = [m for m in panel if m.kind == "line" and m.ink is not None and m.ink.dash == dash and m.ink.width == CUT]
    return [(m.points[0], m.points[1]) for m in found]


def fills(panel: list[Mark], tag: str) -> list[Polygon]:
    """Return the outlines of the patches with a tag, in the order of drawing."""
    return [Polygon(m.points) for m in panel if m.kind == "polygon" and m.tags[-1:] == (tag,) and m.ink and m.ink.fill]


def outlined(panel: list[Mark]) -> list[Polygon]:
    """Return the heavy outlines of what is new."""
    return [Polygon(m.points) for m in panel if m.kind == "polygon" and m.ink and m.ink.width == NEW]


def presses(panel: list[Mark]) -> int:
    """Return how many press arrows a panel has; each is drawn twice, over its own halo."""
    return sum(m.kind == "polygon" and bool(m.tags) and m.tags[-1].startswith("press ") for m in panel) // 2


def numbers(sketch: Sketch) -> list[int]:
    """Return the numbers in circles inside the pictures, captions left out, in the order of drawing."""
    groups = [path for path in record(sketch).groups if len(path) > 1 and path[-1].startswith("number ")]
    return [int(path[-1].removeprefix("number ")) for path in groups]


def distance(one: tuple[Spot, Spot], other: tuple[Spot, Spot]) -> float:
    """Return how far two parallel lines are apart."""
    (x1, y1), (x2, y2) = one
    (x, y), _ = other
    return abs((x2 - x1) * (y - y1) - (y2 - y1) * (x - x1)) / math.dist(*one)


# ----------------------------------------------------------------------------------------- quarter-squares


def test_two_quarter_squares_at_a_time_are_marked_and_sewn_twice() -> None:
    """Mark, sew both sides, cut and press; mark across the seam, sew both sides, cut, press."""
    shown = stages(step("stages", "quarter-square", "two"))
    counted = [(len(segments(panel, ())), len(segments(panel, STITCH))) for panel in shown.values()]
    assert counted == [(1, 0), (1, 2), (0, 0), (1, 2), (0, 2), (0, 0)]
    assert [presses(panel) for panel in shown.values()] == [0, 0, 1, 0, 0, 1]


def test_the_second_mark_runs_across_the_first() -> None:
    shown = list(stages(step("stages", "quarter-square", "two")).values())
    slopes = [(b[1] - a[1]) / (b[0] - a[0]) for panel in (shown[0], shown[3]) for a, b in segments(panel, ())]
    assert slopes == pytest.approx([-1, 1])


def test_the_two_half_squares_lie_with_unlike_fabrics_facing() -> None:
    """Of the lower one two strips look out; each triangle over a strip's own triangle has the other label."""
    sketch = step("stages", "quarter-square", "two")
    panel = stages(sketch)["stage 4"]
    one, other = (take.label for take in find("stages", "quarter-square", "two").from_)
    for label, facing in ((one, other), (other, one)):
        below, above = fills(panel, f"patch {label}")[0], fills(panel, f"patch {facing}")[-1]
        assert below.intersection(above).area / above.area > 0.8


def test_triangles_are_laid_out_sewn_to_pairs_and_joined_by_the_long_seam() -> None:
    """Three seams: two short ones in the pairs, then the long one."""
    shown = list(stages(step("stages", "quarter-square", "triangles")).values())
    assert [presses(panel) for panel in shown] == [0, 2, 1]


# ------------------------------------------------------------------------------------------------ corners


def test_the_first_corner_is_marked_sewn_cut_and_pressed_before_the_others() -> None:
    """Three corners that lie apart: the first alone, the two others in one picture."""
    shown = stages(step("stages", "corners"))
    drawn = [len(segments(panel, ())) for panel in shown.values()]
    sewn = [len(segments(panel, STITCH)) for panel in shown.values()]
    cut = [len(segments(panel, DASH)) for panel in shown.values()]
    assert (drawn, sewn, cut) == ([1, 0, 0, 0, 0], [0, 1, 0, 2, 0], [0, 1, 0, 2, 0])
    assert [presses(panel) for panel in shown.values()] == [0, 0, 1, 0, 2]


def test_corners_that_would_lie_on_each_other_are_sewn_one_after_the_other() -> None:
    """Squares of 4 1/2 on a side of 8 1/2 overlap by their allowances."""
    shown = stages(step("pinned", "corners"))
    assert [len(segments(panel, STITCH)) for panel in shown.values()] == [0, 1, 0, 1, 1, 1, 0]


def test_a_corner_is_sewn_from_corner_to_corner_and_cut_an_allowance_beyond() -> None:
    """A square of 3 1/2 on a rectangle of 8 1/2: its diagonal is the seam, and 1/4 in beyond it is cut."""
    unit = find("stages", "corners")
    panel = stages(step("stages", "corners"))["stage 2"]
    base = fills(panel, f"patch {unit.regions[0].label}")[0]
    left, top, right, _ = base.bounds
    inch = (right - left) / 8.5
    ((start, end),) = segments(panel, STITCH)
    square = 3.5 * inch
    assert sorted((start, end)) == [pytest.approx((left, top + square)), pytest.approx((left + square, top))]
    ((cut_start, cut_end),) = segments(panel, DASH)
    assert distance((start, end), (cut_start, cut_end)) == pytest.approx(inch / 4)
    assert sum(cut_start) < sum(start), "the cut lies toward the corner"


def test_what_is_left_of_a_flipped_corner_is_pressed_over_the_corner() -> None:
    unit = find("stages", "corners")
    panel = stages(step("stages", "corners"))["stage 3"]
    base = fills(panel, f"patch {unit.regions[0].label}")[0]
    (flap,) = fills(panel, f"patch {unit.regions[1].label}")
    assert flap.bounds[:2] == pytest.approx(base.bounds[:2])
    assert flap.area / base.area == pytest.approx(3.5**2 / 2 / 8.5**2)


# ----------------------------------------------------------------------------------- a square in a square


def test_opposite_triangles_are_sewn_and_pressed_before_the_other_two() -> None:
    sketch = step("stages", "diamond")
    shown = list(stages(sketch).values())
    assert [len(outlined(panel)) for panel in shown] == [2, 0, 2, 0]
    assert [presses(panel) for panel in shown] == [0, 2, 0, 2]
    sides = [[(p.centroid.x > x, p.centroid.y > y) for p in outlined(panel)] for panel, x, y in _middles(shown)]
    assert sides[0] == [(False, False), (True, True)]
    assert sides[2] == [(True, False), (False, True)]


def _middles(panels: list[list[Mark]]) -> list[tuple[list[Mark], float, float]]:
    centre = find("stages", "diamond").regions[0].label
    found = []
    for panel in panels:
        middle = fills(panel, f"patch {centre}")[0].envelope.centroid
        found.append((panel, middle.x, middle.y))
    return found


def test_a_triangle_lies_edge_to_edge_with_the_centre_and_is_sewn_an_allowance_from_it() -> None:
    """Right sides together: its long edge along the centre's raw edge, the seam 1/4 in inside."""
    unit = find("stages", "diamond")
    panel = stages(step("stages", "diamond"))["stage 1"]
    centre = fills(panel, f"patch {unit.regions[0].label}")[0]
    inch = math.sqrt(centre.area) / (8 / math.sqrt(2) + 0.5)  # the drawing takes the centre's exact side
    for triangle, stitches in zip(outlined(panel), segments(panel, STITCH), strict=True):
        long_edge = max(_edges(triangle), key=lambda edge: math.dist(*edge))
        assert distance(long_edge, stitches) == pytest.approx(inch / 4)
        assert min(distance(edge, long_edge) for edge in _edges(centre)) == pytest.approx(0, abs=0.01)


def _edges(polygon: Polygon) -> list[tuple[Spot, Spot]]:
    corners = list(polygon.exterior.coords)
    return list(pairwise(corners))


def test_the_trim_leaves_an_allowance_beyond_the_points() -> None:
    """8 1/2 unfinished: the corners of the centre's seams lie 1/4 in inside the dashed square."""
    unit = find("stages", "diamond")
    panel = stages(step("stages", "diamond"))[f"finished {unit.id}"]
    (trim,) = (Polygon(m.points) for m in panel if m.kind == "polygon" and m.ink and m.ink.dash == DASH)
    left, top, right, bottom = trim.bounds
    inch = (right - left) / 8.5
    triangles = fills(panel, f"patch {unit.regions[-1].label}")
    assert len(triangles) == 4
    # Each triangle's long edge is its seam; neighbouring seams cross at the points of the centre.
    seams = [max(_edges(t), key=lambda edge: math.dist(*edge)) for t in triangles]
    middle = ((left + right) / 2, (top + bottom) / 2)
    assert [distance(edge, (middle, middle)) for edge in seams] == pytest.approx([4 / math.sqrt(2) * inch] * 4)


def test_the_centre_of_a_square_in_a_square_may_be_a_unit() -> None:
    """A four-patch of side 4 sqrt 2, standing on its point in a square of 8."""
    booklet = _square_in_square()
    panel = stages(step_of(booklet, "U9"))["stage 1"]
    patches = [*fills(panel, "patch B1"), *fills(panel, "patch C1")]
    assert len(patches) == 4
    assert max(p.bounds[2] for p in patches) - min(p.bounds[0] for p in patches) == pytest.approx(
        max(p.bounds[3] for p in patches) - min(p.bounds[1] for p in patches)
    )


def _square_in_square() -> Booklet:
    """Return the sample with a square in a square whose centre is four patches."""
    side, half = R2 * 4, R2 * 2
    shapes = {
        label: outline((x, y), (x + half, y), (x + half, y + half), (x, y + half))
        for label, x, y in (("B1", 0 * half, 0 * half), ("C1", half, 0 * half))
    }
    others = {
        label: outline((x, y), (x + half, y), (x + half, y + half), (x, y + half))
        for label, x, y in (("C1", 0 * half, half), ("B1", half, half))
    }
    regions = tuple(region(label, shape) for each in (shapes, others) for label, shape in each.items())
    takes = tuple(take(r.label, r.outline[0][0] + R2, r.outline[0][1] + R2) for r in regions)
    four = unit("U8", "join", box(side, side), takes, axis="row", regions=regions)
    corners = [((0, 0), (4, 0), (0, 4)), ((8, 0), (8, 4), (4, 0)), ((8, 8), (4, 8), (8, 4)), ((0, 8), (0, 4), (4, 8))]
    lines = [line(0, 4, 4, 0), line(8, 4, 4, 8), line(4, 0, 8, 4), line(4, 8, 0, 4)]
    seams = tuple(seam(f"D{i}", "U9", "d", at, "after", "U8", "A2") for i, at in enumerate(lines))
    takes = (take("U8", 4, 4, turn=45), take("A2", 2, 2), take("A2", 6, 2), take("A2", 6, 6), take("A2", 2, 6))
    around = unit(
        "U9", "diamond", box(8, 8), takes, method="triangles", seams=tuple(each.id for each in seams),
        regions=tuple(region("A2", outline(*points)) for points in corners),
    )  # fmt: skip
    patches = tuple(
        patch("A2", "ground", ("4 7/8", "4 7/8"), 4, shape="halved") if p.label == "A2" else p for p in BOOKLET.patches
    )
    return replace(BOOKLET, units=(*BOOKLET.units, four, around), seams=(*BOOKLET.seams, *seams), patches=patches)


# --------------------------------------------------------------------------------- log cabins and rings


@pytest.mark.parametrize(("block", "logs"), [("log", 12), ("court", 8)])
def test_every_log_is_numbered_once_and_carries_its_label(block: str, logs: int) -> None:
    booklet = seen_booklet("stages")
    unit = next(u for u in booklet.units if u.id == block)
    sketch = sketches("stages")[f"step-{block}"]
    assert sorted(numbers(sketch)) == list(range(1, logs + 1))
    written = {m.text.text for m in marks(sketch) if m.text is not None}
    assert {take.label for take in unit.from_} <= written


def test_each_picture_of_a_log_cabin_adds_one_round() -> None:
    shown = list(stages(sketches("stages")["step-log"]).values())
    assert [len(outlined(panel)) for panel in shown] == [4, 4, 4, 0]
    assert [presses(panel) for panel in shown] == [4, 4, 4, 0]
    sides = [round(_whole(panel).bounds[2] - _whole(panel).bounds[0], 3) for panel in shown[:3]]
    assert [side / sides[-1] for side in sides] == pytest.approx([4 / 8, 6 / 8, 1])


def _whole(panel: list[Mark]) -> Polygon:
    found = [Polygon(m.points) for m in panel if m.kind == "polygon" and m.tags[-1].startswith("patch ")]
    whole = found[0]
    for each in found[1:]:
        whole = whole.union(each)
    return whole


def test_the_numbers_of_a_round_stand_beside_their_logs() -> None:
    """Clockwise from the right: 1 right, 2 below, 3 left, 4 above; courthouse steps: above, below, then the sides."""
    for block, expected in (("log", "right below left above"), ("court", "above below right left")):
        panel = stages(sketches("stages")[f"step-{block}"])["stage 1"]
        left, top, right, bottom = _whole(panel).bounds
        ways = {}
        for mark in panel:
            if mark.kind == "circle" and mark.tags[-1].startswith("number "):
                (x1, y1), (x2, y2) = mark.points
                x, y = (x1 + x2) / 2, (y1 + y2) / 2
                way = {x > right: "right", x < left: "left", y > bottom: "below", y < top: "above"}[True]
                ways[int(mark.tags[-1].removeprefix("number "))] = way
        assert [ways[number] for number in sorted(ways)] == expected.split()


def test_many_rounds_share_pictures_and_the_figure_still_fits_on_a_page() -> None:
    """Six rounds of one-inch logs: labels that have no place in a picture stand in its caption."""
    deep = cabin(["light 1"] * 24, "red 2 x 2", direction="opposite")
    booklet = booklet_of({"deep": deep}, size="2 x 2", fabrics=PLAIN)
    sketch = step_of(booklet, "deep")
    assert sketch.scene.h <= 652
    assert len(stages(sketch)) == 4
    written = " ".join(m.text.text for m in marks(sketch) if m.text is not None)
    told = {take.label for take in booklet.units[0].from_}
    assert len(told) == 8  # two logs of each length, and the centre
    assert {label for label in told if not re.search(rf"\b{label}\b", written)} == set()


@pytest.mark.parametrize(("direction", "at_right"), [("clockwise", True), ("anticlockwise", False)])
def test_the_first_seam_of_a_ring_is_sewn_to_the_middle_and_closed_last(direction: str, at_right: bool) -> None:
    """The dot lies at the middle of the centre's side; both parts of the seam make up all of it."""
    booklet = booklet_of({"ring": ring(direction, "red 2 x 2")}, size="2 x 2", fabrics=PLAIN)
    shown = list(stages(step_of(booklet, "ring")).values())
    centre = fills(shown[0], "patch C1")[0]
    left, _, right, _ = centre.bounds
    inch = (right - left) / 2.5
    ((dot,),) = [[m for m in panel if m.kind == "circle" and m.tags[-1] == "stop"][-1:] for panel in shown[:1]]
    x = (dot.points[0][0] + dot.points[1][0]) / 2
    assert x == pytest.approx((left + right) / 2)
    ((start, end),) = segments(shown[0], STITCH)
    assert end[0] == pytest.approx(x)
    assert start[0] == pytest.approx(right if at_right else left)
    ((stop, close),) = segments(shown[2], STITCH)
    assert (close[0] < stop[0]) == at_right
    # 3 finished inches, of which 1 was sewn first (and 1/4 in of allowance beyond the end).
    scale = 112 / 4 / inch
    assert abs(close[0] - stop[0]) == pytest.approx(2 * inch * scale)
    assert abs(end[0] - start[0]) == pytest.approx(1.25 * inch)


def test_the_other_three_patches_of_a_ring_are_numbered_in_order() -> None:
    sketch = step("stages", "partial")
    panel = stages(sketch)["stage 2"]
    assert sorted(numbers(sketch)) == [2, 3, 4]
    assert len(outlined(panel)) == 3
    assert [presses(each) for each in stages(sketch).values()] == [0, 3, 1, 0]


def test_the_centre_of_a_ring_may_be_a_unit() -> None:
    booklet = booklet_of({"big": {"partial": {"centre": NINE, "ring": "red 1 x 7"}}}, size="2 x 2", fabrics=PLAIN)
    panel = stages(step_of(booklet, "big"))["stage 1"]
    below = [p for tag in ("patch A1", "patch B1") for p in fills(panel, tag)]
    assert len(below) == 9
    left, right = min(p.bounds[0] for p in below), max(p.bounds[2] for p in below)
    stitches = segments(panel, STITCH)
    assert max(end[0] for ends in stitches for end in ends) == pytest.approx(right)
    assert tags(step_of(booklet, "big"))["stop"] == 3
    assert (right - left) > 0


def test_all_kinds_are_planned() -> None:
    """Guard: the patterns of these tests hold every way of sewing that has stages of its own."""
    hows = {(unit.how, unit.method) for booklet in kinds().values() for unit in booklet.units}
    assert {("quarter-square", "two"), ("quarter-square", "triangles"), ("corners", "flip")} <= hows
    assert {("diamond", "triangles"), ("around", None), ("partial", None), ("half-square", "two")} <= hows
