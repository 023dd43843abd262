"""Blocks that float on point: larger triangles, whose tips the seams beside them cut off."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Any

import pytest
from shapely import Polygon, box, unary_union
from shapely.affinity import affine_transform

from patterns_for_tests import booklets_of, inches, refusals_of
from proved import findings_in
from seamleaf.booklet import Booklet, to_json
from seamleaf.lengths import Length

if TYPE_CHECKING:
    from seamleaf.planning.records import Place

BLOCK = {"nine": {"grid": ["DLD", "LDL", "DLD"], "key": {"D": "dark 2 x 2", "L": "light 2 x 2"}}}
GRIDS = ((2, 2), (3, 2), (2, 5), (4, 3))
NEAR = 1e-9


@pytest.fixture(scope="module", params=["1", "2 1/4"])
def floating(request: pytest.FixtureRequest) -> dict[str, Booklet]:
    sizes = {f"s{m}-{n}": {"blocks": f"{m} x {n}"} for m, n in GRIDS}
    return booklets_of(BLOCK, on_point="1/2", float=request.param, sizes=sizes)


def laid(booklet: Booklet, place: Place) -> Polygon:
    """Lay a place as the format says: mirrored, turned clockwise about the middle of its box, and moved."""
    unit = next(unit for unit in booklet.units if unit.id == place.unit)
    w, h = unit.finished.w.to_float(), unit.finished.h.to_float()
    outline = Polygon([(x.to_float() - w / 2, y.to_float() - h / 2) for x, y in unit.outline])
    cos, sin = math.cos(math.radians(place.turn)), math.sin(math.radians(place.turn))
    hand = -1 if place.mirror else 1
    return affine_transform(outline, [hand * cos, -sin, hand * sin, cos, place.x.to_float(), place.y.to_float()])


def test_blocks_and_clipped_triangles_fill_a_centre_that_is_larger_by_the_float_all_round(
    floating: dict[str, Booklet],
) -> None:
    """Shapely lays every place: no gap, no overlap, and the blocks' points lie the float inside the edges."""
    for booklet in floating.values():
        note = booklet.set
        w, h, inside = note.centre.w.to_float(), note.centre.h.to_float(), note.float.to_float()
        shapes = [laid(booklet, place) for place in booklet.places]
        whole = unary_union([shape.buffer(NEAR, join_style="mitre") for shape in shapes])
        assert whole.symmetric_difference(box(0, 0, w, h)).area < 1e-5
        assert sum(shape.area for shape in shapes) == pytest.approx(w * h)
        blocks = [s for s, place in zip(shapes, booklet.places, strict=True) if place.kind == "block"]
        assert unary_union(blocks).bounds == pytest.approx((inside, inside, w - inside, h - inside))
        assert note.centre.w == (Length(6) * note.across).times_root2() + note.float * 2
        assert note.trim_beyond == note.float + inches("1/4")


def test_every_triangle_holds_what_the_seams_leave_of_it_with_its_allowance(floating: dict[str, Booklet]) -> None:
    """A side square is D + 2f + 1 1/4, a corner square D / 2 + 2f + 7/8, up to 1/8, and the oversize (derived)."""
    for booklet in floating.values():
        twice = booklet.set.float * 2
        exact = {"quartered": Length(0, 6) + twice + inches("1 1/4"), "halved": Length(0, 3) + twice + inches("7/8")}
        for patch in booklet.patches:
            if patch.use == "triangle":
                assert exact[patch.shape] <= patch.w - inches("1/2") < exact[patch.shape] + inches("1/8")
        for unit in booklet.units:
            if unit.id in ("T1", "T2", "T3"):
                leg = unit.made.w.to_float()
                outline = Polygon([(x.to_float(), y.to_float()) for x, y in unit.outline])
                needed = outline.buffer(0.25, join_style="mitre", mitre_limit=10)
                cut = Polygon([(-0.25, -0.25), (leg - 0.25, -0.25), (-0.25, leg - 0.25)])
                assert needed.difference(cut).area < NEAR


def test_side_triangles_are_of_one_cut_and_of_three_shapes(floating: dict[str, Booklet]) -> None:
    """Left and right ones are mirror images of those at the top and bottom; two corners clip four on both sides."""
    for booklet in floating.values():
        sides = [place for place in booklet.places if place.kind == "side"]
        across, down = booklet.set.across, booklet.set.down
        assert len(sides) == 2 * (across + down - 2)
        assert sum(place.unit == "T3" for place in sides) == 4
        assert sum(place.mirror for place in sides) == 2 * (down - 2)
        labels = {unit.from_[0].label for unit in booklet.units if unit.id in ("T1", "T3")}
        assert len(labels) == 1


def test_the_proof_sews_them(floating: dict[str, Booklet]) -> None:
    for booklet in floating.values():
        assert findings_in(to_json(booklet).encode()) == []


@pytest.mark.parametrize(
    ("sections", "found"),
    [
        ({"size": "1 x 4"}, "1 x 4 blocks that float on point"),
        ({"size": "3 x 3", "float": "4 1/4"}, "blocks of 6 that float by 4 1/4"),
        (
            {"size": "3 x 3", "sashing": {"fabric": "red", "width": "1", "cornerstone": "dark"}},
            "sashed blocks that float",
        ),
    ],
)
def test_what_cannot_float_is_refused_by_name(sections: dict[str, Any], found: str) -> None:
    (problem,) = refusals_of(BLOCK, on_point="0", **{"float": "1"} | sections)
    assert problem.found == found
    assert problem.where.line > 1
