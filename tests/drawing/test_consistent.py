"""The marks of figures mean the same in every figure of every demo size, and what is compared is to one scale."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

import pytest
from shapely.geometry import Polygon

from drawing.recording import Mark
from drawing.seen import NAMES, extent, marks, seen_booklet, sketches, tags, texts
from seamleaf.drawing.colours import PALE, PAPER, luminance
from seamleaf.drawing.drafting import NEW
from seamleaf.drawing.figure import Sketch

EVERY_BOOKLET = pytest.mark.parametrize("name", NAMES)
PINKED = (4.5, 1.5)
"""Dashes of a pinked edge."""
FACING = {"half-square", "quarter-square", "three-triangle", "geese", "corners", "diamond", "half-rectangle"}
"""Ways of sewing in which one patch is laid on another, so that its wrong side is seen."""


def of_kind(name: str, kind: str) -> Iterator[Sketch]:
    """Yield the figures of one kind, in order."""
    return (sketch for sketch in sketches(name).values() if sketch.kind == kind)


def filled(sketch: Sketch, tag: str) -> list[Mark]:
    """Return the filled polygons and paths below a tag."""
    return [m for m in marks(sketch) if tag in m.tags and m.ink is not None and m.ink.fill is not None]


@EVERY_BOOKLET
def test_edges_are_dashed_where_the_bundle_is_pinked_and_nowhere_else(name: str) -> None:
    booklet = seen_booklet(name)
    pinked = {fabric.id for fabric in booklet.fabrics if fabric.pinked}
    for sketch in of_kind(name, "cut"):
        dashed = [mark for mark in marks(sketch) if mark.ink is not None and mark.ink.dash == PINKED]
        assert bool(dashed) is (booklet.cutting[int(sketch.about["sheet"])].fabric in pinked), sketch.id


@EVERY_BOOKLET
def test_rows_of_blocks_are_drawn_to_one_scale(name: str) -> None:
    """A block is as large in the figure of a short row as in that of a long one."""
    sides: dict[str, set[float]] = {}
    rows = {str(row.row): row for row in seen_booklet(name).rows}
    for sketch in of_kind(name, "row"):
        if len(rows[sketch.id.removeprefix("row-")].items) > 1:
            for mark in marks(sketch):
                place = next((tag for tag in mark.tags if tag.startswith("place ")), None)
                if place is not None and mark.kind == "polygon" and mark.tags[-1] == place and not mark.ink.fill:
                    left, top, right, bottom = extent(mark)
                    sides.setdefault(place, set()).add(round((right - left) * (bottom - top), 1))
    assert all(max(found) - min(found) <= 0.011 * max(found) for found in sides.values()), sides


@EVERY_BOOKLET
def test_a_row_stands_out_dark_from_those_sewn_in_grey_and_those_to_come(name: str) -> None:
    booklet = seen_booklet(name)
    for sketch in of_kind(name, "row"):
        number = int(sketch.id.removeprefix("row-"))
        shown = filled(sketch, "map")
        fills = [mark.ink.fill for mark in shown if mark.ink is not None and mark.ink.fill is not None]
        before = any(row.row < number for row in booklet.rows)
        after = any(place.row is None or place.row > number for place in booklet.places)  # corner triangles come last
        assert len(set(fills)) == len(fills) == 1 + before + after
        light = sorted((luminance(fill) for fill in fills), reverse=True)
        assert all(one > 1.4 * other for one, other in pairwise(light))
        assert (PALE in fills) is after


@EVERY_BOOKLET
def test_what_a_border_is_sewn_to_is_grey_and_only_its_strips_are_in_colour(name: str) -> None:
    for sketch in of_kind(name, "border"):
        drawn = [m for m in marks(sketch) if m.kind == "polygon" and m.ink is not None and m.ink.fill is not None]
        strips = [m for m in drawn if any(tag.startswith("strip ") or tag == "corner" for tag in m.tags)]
        rest = [m for m in drawn if m not in strips and not any(t.startswith(("press", "number")) for t in m.tags)]
        assert strips
        assert {m.ink.fill for m in rest if m.ink is not None and Polygon(m.points).area > 400} <= {PALE, PAPER}


@EVERY_BOOKLET
def test_the_new_patch_is_outlined_and_the_wrong_side_dotted_where_patches_face(name: str) -> None:
    """Triangles that are cut before they are sewn are laid out beside each other and have nothing on top."""
    for unit in seen_booklet(name).units:
        if unit.how in FACING and unit.method != "triangles":
            shown = marks(sketches(name)[f"step-{unit.id}"])
            inks = [mark.ink for mark in shown if mark.ink is not None]
            assert any(ink.width == NEW for ink in inks), unit.id
            assert any(m.kind == "path" and m.ink is not None and m.ink.rounded for m in shown), unit.id


@EVERY_BOOKLET
def test_every_cut_of_a_sheet_is_numbered_from_one_on(name: str) -> None:
    for sketch in of_kind(name, "cut"):
        numbers = {int(tag.removeprefix("number ")) for tag in tags(sketch) if tag.startswith("number ")}
        assert numbers == set(range(1, len(numbers) + 1)), sketch.id
        assert numbers <= {int(text) for text in texts(sketch) if text.isdigit()}


@EVERY_BOOKLET
def test_a_sheet_is_drawn_to_one_scale_or_says_that_its_lines_are_not(name: str) -> None:
    booklet = seen_booklet(name)
    for sketch in of_kind(name, "cut"):
        sheet = booklet.cutting[int(sketch.about["sheet"])]
        areas = {part.label: (part.w * part.h).to_float() for part in sheet.parts}
        scales = set()
        for label, area in areas.items():
            for mark in filled(sketch, f"patch {label}"):
                if mark.kind == "polygon" and mark.tags[-1] == f"patch {label}":
                    left, top, right, bottom = extent(mark)
                    scales.add(((right - left) * (bottom - top) / area) ** 0.5)
        uneven = max(scales) > 1.03 * min(scales)
        assert ("Each line has a scale of its own." in texts(sketch)) is uneven, (sketch.id, scales)
