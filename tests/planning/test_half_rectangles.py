"""Half-rectangles: the rectangles that their triangles are cut from, their two hands, and what can be trimmed."""

from __future__ import annotations

import math
from fractions import Fraction

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import affinity

from effort import tries
from patterns_for_tests import PRINTS, YARDAGE, booklet_of, half_rectangle, inches, pair, refusals_of, use
from proved import findings_in
from seamleaf.booklet import Booklet
from seamleaf.booklet.codec import to_json
from seamleaf.booklet.record import Unit
from seamleaf.lengths import Length, format_rational

EIGHTH = Fraction(1, 8)
eighths = st.integers(4, 80).map(lambda n: Fraction(n, 8))


def one(size: str, **more: str) -> tuple[Unit, Booklet]:
    booklet = booklet_of({"block": half_rectangle("dark", "light", size, **more)}, size="1 x 1")
    (unit,) = booklet.units
    return unit, booklet


def cut_of(unit: Unit, booklet: Booklet) -> tuple[Length, Length]:
    """Return the size of the rectangles that a unit's triangles are cut from."""
    notes = {patch.label: patch for patch in booklet.patches}
    taken = [notes[take.label or ""] for take in unit.from_]
    assert {note.shape for note in taken} == {"halved"}
    (cut,) = {(note.w, note.h) for note in taken}
    return cut


@pytest.mark.parametrize(
    ("finished", "cut", "offset"),
    [("2 x 4", "2 7/8 x 5 1/2", "5/8"), ("3 x 6", "3 7/8 x 7 1/2", "5/8"), ("3 x 4", "4 x 5 1/4", "1/4")],
)
def test_triangles_are_cut_from_rectangles_that_leave_an_eighth_to_trim(finished: str, cut: str, offset: str) -> None:
    """Legs of a + s(1 + (a + c)/b) and b + s(1 + (b + c)/a), derived: 2.65 x 5.31 for 2 x 4, with the trim on top.

    Tips stick out by s((b + c)/a - (a + c)/b), 0.65 for 2 x 4 (derived).
    """
    unit, booklet = one(finished)
    assert cut_of(unit, booklet) == pair(cut)
    assert unit.offset == inches(offset)
    assert (unit.method, unit.makes) == ("triangles", 1)
    assert unit.trim is not None
    assert (unit.trim.w - inches("1/2"), unit.trim.h - inches("1/2")) == pair(finished)
    assert unit.made.w - unit.trim.w == unit.made.h - unit.trim.h == EIGHTH


@given(w=eighths, h=eighths, over=st.sampled_from(["0", "1/8", "1/2"]))
@settings(max_examples=tries(40), deadline=None)
def test_what_is_said_to_come_out_does_and_no_step_of_the_ruler_more(w: Fraction, h: Fraction, over: str) -> None:
    """Sewn from polygons: two triangles, a seam allowance beyond their seam, and the trimmed unit laid on it."""
    if w == h or max(w, h) > 6 * min(w, h):
        return
    size = f"{format_rational(w, 'in')} x {format_rational(h, 'in')}"
    unit, booklet = one(size, oversize=over)
    cut_w, cut_h = (side.to_float() for side in cut_of(unit, booklet))
    tip = (unit.offset or Length(0)).to_float() * (1 if cut_h > cut_w else -1)
    more = unit.made.w.to_float() - float(w) - 0.5
    assert gives(cut_w, cut_h, float(w), float(h), tip, more - 1e-7)
    if (more + 1 / 8) / 2 + 0.25 < 0.25 * math.hypot(w, h) / abs(w - h):  # else a corner lies on the other triangle
        assert not gives(cut_w, cut_h, float(w), float(h), tip, more + 1 / 8)
    assert more >= 1 / 8
    assert findings_in(to_json(booklet)) == []


def gives(cut_w: float, cut_h: float, w: float, h: float, tip: float, more: float) -> bool:
    """Whether half of a unit larger by ``more`` than unfinished lies within one triangle, in floats."""
    seam, long = 0.25, math.hypot(cut_w, cut_h)
    reach = (long + tip) / 2
    x, y = reach * cut_w / long - seam * cut_h / long, cut_h - reach * cut_h / long - seam * cut_w / long
    upper = shapely.Polygon([(0, 0), (cut_w, 0), (0, cut_h)])
    box = shapely.box(
        x - (w + more) / 2 - seam, y - (h + more) / 2 - seam, x + (w + more) / 2 + seam, y + (h + more) / 2 + seam
    )
    angle = math.degrees(math.atan2(h, w) - math.atan2(cut_h, cut_w))
    trimmed = affinity.rotate(box, angle, origin=(x, y))
    # All of it on the upper side of the raw long edge, so that there is a whole seam allowance from end to end.
    ux, uy = 99 * cut_w / long, -99 * cut_h / long
    above = shapely.Polygon(
        [(-ux, cut_h - uy), (ux, cut_h + uy), (ux + uy, cut_h + uy - ux), (-ux + uy, cut_h - uy - ux)]
    )
    return bool(upper.buffer(1e-9).contains(trimmed.intersection(above)))


def test_a_quarter_turn_is_the_mirror_image_and_is_cut_apart() -> None:
    row = [half_rectangle("dark", "light", "2 x 4"), half_rectangle("dark", "light", "2 x 4", 90)]
    booklet = booklet_of({"block": {"row": row}}, size="2 x 3")
    units = [unit for unit in booklet.units if unit.how == "half-rectangle"]
    assert [unit.count for unit in units] == [6, 6]
    assert {cut_of(unit, booklet) for unit in units} == {pair("2 7/8 x 5 1/2"), pair("5 1/2 x 2 7/8")}
    assert len({take.label for unit in units for take in unit.from_}) == 4
    assert findings_in(to_json(booklet)) == []


def test_the_same_hand_is_one_unit_however_it_lies_or_is_named() -> None:
    """Upright, by half a turn, with the fabrics named the other way round, and lying."""
    row = [
        half_rectangle("dark", "light", "2 x 4"),
        half_rectangle("dark", "light", "2 x 4", 180),
        half_rectangle("light", "dark", "2 x 4", 180),
        {"column": [half_rectangle("dark", "light", "4 x 2", 90), half_rectangle("light", "dark", "4 x 2", 270)]},
    ]
    booklet = booklet_of({"block": {"row": row}}, size="1 x 1")
    assert [unit.count for unit in booklet.units if unit.how == "half-rectangle"] == [5]


def test_used_mirrored_it_is_the_other_hand() -> None:
    blocks = {
        "hand": half_rectangle("dark", "light", "2 x 4"),
        "block": {"row": [use("hand"), use("hand", mirror=True)]},
    }
    booklet = booklet_of(blocks, tile=[["block"]], size="1 x 1")
    assert [unit.count for unit in booklet.units if unit.how == "half-rectangle"] == [1, 1]


def test_on_point_and_in_centimetres_it_sews_up_too() -> None:
    hand = half_rectangle("dark", "red", "5 x 10")
    square = {"row": [hand, half_rectangle("dark", "red", "5 x 10", 90)]}
    booklet = booklet_of({"block": square}, on_point="1", size="2 x 2", unit="cm")
    (wide, high) = cut_of(next(unit for unit in booklet.units if unit.how == "half-rectangle"), booklet)
    assert ((wide * 10).a.denominator, (high * 10).a.denominator) == (1, 1)
    assert findings_in(to_json(booklet)) == []


def test_of_a_square_it_is_refused() -> None:
    (problem,) = refusals_of({"block": half_rectangle("dark", "light", "3 x 3")})
    assert (problem.found, problem.expected) == (
        "a half-rectangle of 3 x 3",
        "a width and a height that differ, or a half-square",
    )


def test_a_bundle_piece_that_cannot_give_its_rectangle_is_refused() -> None:
    """3 x 9 takes a rectangle more than 10 in high, derived: 9 + 1/4 (1 + (9 + 9.49)/3) = 10.79."""
    fabrics = {**YARDAGE, "star": PRINTS}
    (problem, *_) = refusals_of({"block": half_rectangle("star", "light", "3 x 9")}, fabrics=fabrics)
    assert "fabric 'star'" in problem.found
