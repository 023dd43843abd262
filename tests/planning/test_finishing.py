"""Borders, binding, backing and batting: lengths, strips and panels against published rules and examples."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

import pytest
from shapely.affinity import affine_transform
from shapely.geometry import LineString, box
from shapely.ops import split

from patterns_for_tests import YARDAGE, booklet_of, inches, refusals_of
from seamleaf.booklet import Booklet
from seamleaf.lengths import CENTIMETRES, INCHES, Length
from seamleaf.planning.finishing import BATTING_PACKAGES, border_strips, plan_backing, plan_batting, strips_needed

SEAM = Length(Fraction(1, 4))


def quilt(size: str, **sections: Any) -> Booklet:
    """Return a straight quilt of a single plain block of this finished size."""
    fabrics = {**YARDAGE, "dark": {**YARDAGE["dark"], "usable": "200"}}
    return booklet_of({"plain": f"dark {size}"}, size="1 x 1", fabrics=fabrics, **sections)


# ----------------------------------------------------------------------------------------------- borders


def test_butted_sides_are_as_long_as_the_quilt_and_top_and_bottom_as_wide_as_it_is_with_them() -> None:
    """Measured finished, plus 1/2 in; the strip's width is the finished one and 1/2 (allpeoplequilt.com, borders)."""
    strips = border_strips("butted", Length(60), Length(80), Length(4), SEAM, INCHES)
    assert [(strip.edge, strip.length, strip.w) for strip in strips] == [
        ("left", inches("80 1/2"), inches("4 1/2")),
        ("right", inches("80 1/2"), inches("4 1/2")),
        ("top", inches("68 1/2"), inches("4 1/2")),
        ("bottom", inches("68 1/2"), inches("4 1/2")),
    ]


def test_a_quilt_of_70_x_86_with_a_border_cut_6_1_2_is_82_x_98() -> None:
    """slideserve, 'Can you figure the amount of yardage' (school slides)."""
    booklet = quilt("70 x 86", borders=[{"fabric": "red", "width": "6"}])
    (border,) = booklet.borders
    assert {strip.w for strip in border.strips} == {inches("6 1/2")}
    assert (booklet.finished.w, booklet.finished.h) == (82, 98)


@pytest.mark.parametrize(("w", "h", "cut"), [("70", "86", "6 1/2"), ("60", "80", "4 1/2"), ("41 1/4", "58", "2")])
def test_the_four_strips_of_a_butted_border_make_up_2w_2l_and_four_cut_widths(w: str, h: str, cut: str) -> None:
    """Printed as 2(70) + 2(86) + 4(6.5) = 338 in the same slides; an identity of butted borders (derived)."""
    strips = border_strips("butted", inches(w), inches(h), inches(cut) - SEAM * 2, SEAM, INCHES)
    assert sum((strip.length for strip in strips), Length(0)) == (inches(w) + inches(h)) * 2 + inches(cut) * 4


def test_the_lengths_for_a_centre_on_point_go_up_to_the_next_eighth() -> None:
    """51 3/8 and 37 15/16 to 38 for 3 x 2 blocks of 12 in on point with a 1-in border, never down."""
    strips = border_strips("butted", Length(0, 24), Length(0, 36), Length(1), SEAM, INCHES)
    exact = {"left": Length(Fraction(1, 2), 36), "top": Length(Fraction(5, 2), 24)}
    for strip in strips:
        if strip.edge in exact:
            assert 0 < strip.length - exact[strip.edge] < Fraction(1, 8)
            assert (strip.length * 8).is_rational


def test_mitred_strips_are_as_long_as_the_outer_edge_and_at_least_four_inches() -> None:
    """Sources add 1 in (quiltingboard.com t168402) to 6 in (allpeoplequilt.com, mitering-borders) to side + 2b."""
    strips = border_strips("mitred", Length(40), Length(50), Length(5), SEAM, INCHES)
    assert {strip.edge: strip.length for strip in strips} == {"left": 64, "right": 64, "top": 54, "bottom": 54}


def test_with_cornerstones_all_strips_are_as_long_as_the_quilts_edges() -> None:
    """A 4-in border has corner blocks cut 4 1/2 in (allpeoplequilt.com, border-and-corner-blocks)."""
    border = {"fabric": "red", "width": "4", "corner": "cornerstone", "cornerstone": "light"}
    booklet = quilt("60 x 80", borders=[border])
    (note,) = booklet.borders
    assert [strip.length for strip in note.strips] == [inches("80 1/2")] * 2 + [inches("60 1/2")] * 2
    (corner,) = (patch for patch in booklet.patches if patch.label == note.corners)
    assert (corner.fabric, corner.w, corner.h, corner.count) == ("light", inches("4 1/2"), inches("4 1/2"), 4)
    assert (booklet.finished.w, booklet.finished.h) == (68, 88)


def test_the_second_border_goes_round_the_first() -> None:
    booklet = quilt("30 x 40", borders=[{"fabric": "red", "width": "1"}, {"fabric": "light", "width": "4"}])
    assert [(b.before.w, b.before.h, b.after.w, b.after.h) for b in booklet.borders] == [
        (30, 40, 32, 42),
        (32, 42, 40, 50),
    ]
    assert [strip.length for strip in booklet.borders[1].strips] == [
        inches("42 1/2"),
        inches("42 1/2"),
        inches("40 1/2"),
        inches("40 1/2"),
    ]


def test_a_border_as_wide_as_its_fabric_is_refused() -> None:
    (problem,) = refusals_of({"plain": "dark 4 x 4"}, borders=[{"fabric": "red", "width": "39 1/2"}])
    assert problem.found.startswith("a border cut 40 wide")


# ---------------------------------------------------------------------------------------- joined strips


def test_strips_joined_on_the_diagonal_lose_a_strip_width_at_each_join() -> None:
    """Strips give n W - (n - 1) w; one cut width per seam at quiltingboard.com t109880. W = 40, w = 2 1/2."""
    lengths = ["40", "77 1/2", "115", "152 1/2", "190", "227 1/2", "265", "302 1/2", "340", "377 1/2"]
    for count, length in enumerate(map(inches, lengths), 1):
        assert strips_needed(length, Length(40), inches("2 1/2")) == (count, length)
        if count > 1:
            more, _ = strips_needed(length + Fraction(1, 1000), Length(40), inches("2 1/2"))
            assert more == count + 1


@pytest.mark.parametrize(
    ("need", "usable", "width", "strips", "source"),
    [
        ("184", "40", "2 1/2", 5, "sylviasquiltdepot.com, 46 x 46: 4.6 to 5; with the loss 190 in, 6 to spare"),
        ("220", "40", "2 1/2", 6, "52 x 64 in with nothing added: 227 1/2 in, less than 10 to spare (derived)"),
        ("180", "42", "3 1/2", 5, "cottonpatchfabrics.com, 40 x 50: 4.29 not rounded there, but strips are whole"),
        ("274", "40", "2 1/2", 8, "a weak page divides to 7; eight with the loss of the joins (derived)"),
    ],
)
def test_published_bindings_take_at_least_the_published_strips(
    need: str, usable: str, width: str, strips: int, source: str
) -> None:
    count, length = strips_needed(inches(need), inches(usable), inches(width))
    assert count == strips, source
    assert length >= inches(need)


def test_one_strip_is_enough_up_to_the_width_of_the_fabric() -> None:
    assert strips_needed(Length(40), Length(40), Length(2)) == (1, 40)
    assert strips_needed(Length(1), Length(40), Length(2)) == (1, 40)


def folded_open(first: float, second: float, width: float) -> float:
    """Lay one strip across the end of another, sew corner to corner, open it, and return how long the whole is."""
    level = box(0, 0, first, width)
    down = box(first - width, 0, first, second)  # right sides together, its end on the end of the first
    seam = LineString([(first - width, 0), (first, width)])
    left = min(split(level, seam).geoms, key=lambda piece: piece.centroid.x)
    below = max(split(down, seam).geoms, key=lambda piece: piece.centroid.y)
    opened = affine_transform(below, [0, 1, 1, 0, first - width, width - first])  # mirrored in the seam
    whole = left.union(opened)
    assert abs(whole.area - whole.envelope.area) < 1e-9, "the joined strips lie straight"
    return float(whole.bounds[2] - whole.bounds[0])


@pytest.mark.parametrize(("first", "second", "width"), [(40, 40, 2.5), (42, 30, 6.5), (17, 100, 2.25)])
def test_a_join_eats_one_strip_width(first: float, second: float, width: float) -> None:
    """One cut width per seam (quiltingboard.com t109880); here the strips are folded open."""
    assert folded_open(first, second, width) == pytest.approx(first + second - width)


# ----------------------------------------------------------------------------------------------- binding


@pytest.mark.parametrize(("extra", "need"), [("0", 232), ("10", 242), ("16", 248), ("20", 252), ("24", 256)])
def test_the_binding_is_the_perimeter_and_what_the_pattern_adds(extra: str, need: int) -> None:
    """Allowances in use: 0, 10 (a magazine), 16, 20 and 24 in; 52 x 64 with 20 is 252 (quiltingboard.com t202636)."""
    binding = quilt("52 x 64", binding={"fabric": "red", "strip": "2 1/4", "extra": extra}).binding
    assert binding is not None
    assert binding.need == need
    assert binding.length >= need


def test_a_binding_of_84_x_92_is_352_inches_without_its_extra() -> None:
    binding = quilt("84 x 92", binding={"fabric": "red", "strip": "2 1/4", "extra": "0"}).binding
    assert binding is not None
    assert binding.need == 352


def test_a_pattern_may_have_no_binding() -> None:
    assert quilt("52 x 64").binding is None


# ----------------------------------------------------------------------------------------------- backing


def backing(w: str, h: str, usable: str, *, directional: bool = False) -> tuple[int, str, Length]:
    back = plan_backing(inches(w), inches(h), inches(usable), INCHES, directional=directional)
    return back.panels, back.seam, back.length * back.panels


@pytest.mark.parametrize(
    ("w", "h", "usable", "expected", "source"),
    [
        ("56", "80", "41", (2, "horizontal", 112), "2 x 56 = 112 in at quiltingboard.com t290638, W 41 for its joins"),
        ("103", "110", "108", (1, "none", 110), "108-in cloth: 110 in, weak page; the width has to lie across"),
        ("46", "51", "42", (2, "horizontal", 92), "about 1 1/2 yd of one width at stcroixquilters.com is too narrow"),
        ("40", "45", "42", (1, "none", 45), "one width where the cloth is wide enough (derived)"),
    ],
)
def test_published_backings(w: str, h: str, usable: str, expected: tuple[int, str, int], source: str) -> None:
    assert backing(w, h, usable) == expected, source


def test_a_print_with_an_up_stands_upright_on_the_back_even_if_that_takes_more_fabric() -> None:
    """Panels run from top to bottom, one that would cover the back on its side too (common practice, no source)."""
    assert backing("56", "80", "41", directional=True) == (2, "vertical", 160)
    assert backing("103", "110", "108", directional=True) == (1, "none", 110)
    assert backing("110", "103", "108", directional=True) == (2, "vertical", 206)


def test_two_panels_of_40_inches_do_not_cover_80_because_the_join_takes_an_inch() -> None:
    """The example of 80 x 56 from 40-in cloth forgets it: seams of 1/2 in (quiltingboard.com t290638)."""
    assert backing("56", "80", "40")[0] == 2
    assert backing("56", "80", "40") == (2, "vertical", 160)
    assert backing("56", "79", "40") == (2, "horizontal", 112)


@pytest.mark.parametrize(("usable", "limits"), [("40", (40, 79, 118)), ("42", (42, 83, 124))])
def test_n_panels_cover_n_widths_less_an_inch_a_join(usable: str, limits: tuple[int, ...]) -> None:
    """Break points (derived), on a backing so narrow that its seams run across it."""
    for panels, limit in enumerate(limits, 1):
        assert backing("10", str(limit), usable)[0] == panels
        assert backing("10", f"{limit} 1/8", usable)[0] == panels + 1


def test_of_both_directions_of_the_seams_the_one_that_takes_less_fabric_is_chosen() -> None:
    for w, h in (("49", "66"), ("70", "87"), ("106", "106"), ("81", "60"), ("39", "200")):
        panels, seam, need = backing(w, h, "40")
        upright = -(-(int(w) - 1) // 39) * int(h)
        lying = -(-(int(h) - 1) // 39) * int(w)
        assert need == min(upright, lying)
        if panels > 1 and upright != lying:
            assert seam == ("vertical" if upright < lying else "horizontal")


def test_the_backing_is_larger_than_the_quilt_by_the_extra_on_every_side() -> None:
    note = quilt("70 x 86", backing={"extra": "4", "usable": "42"}).backing
    assert (note.w, note.h) == (78, 94)
    assert (note.panel.w, note.label) == (42, "D1")


def test_a_72_x_90_top_takes_two_cuts_of_98_inches() -> None:
    """Two cuts of 94 at bellaonline.com art180154, which adds 2 in on each side; ours adds what the pattern says."""
    note = quilt("72 x 90", backing={"extra": "2", "usable": "42"}).backing
    assert (note.panels, note.seam, note.panel.h) == (2, "vertical", 94)


def test_in_centimetres_a_join_of_panels_loses_an_inch_as_well() -> None:
    panels = {
        length: plan_backing(Length(20), Length(length), Length(110), CENTIMETRES).panels for length in (217, 218)
    }
    assert panels == {217: 2, 218: 3}  # 2 x 110 - 2.54


def test_a_backing_that_names_no_fabric_is_one_more_fabric() -> None:
    booklet = quilt("30 x 40")
    assert booklet.backing.fabric == "backing"
    assert [fabric.id for fabric in booklet.fabrics] == ["dark", "backing"]


def test_a_bundle_called_backing_is_not_taken_for_the_backings_yardage() -> None:
    fabrics = {"backing": {"source": "squares 10"}, "dark": {"source": "yardage"}}
    booklet = booklet_of({"plain": "backing 4 x 4"}, fabrics=fabrics)
    assert booklet.backing.fabric == "backing-yardage"
    (note,) = (patch for patch in booklet.patches if patch.use == "backing")
    assert (note.fabric, note.spare) == ("backing-yardage", 0)


def test_backing_binding_and_borders_of_one_fabric_are_bought_together() -> None:
    """Every use of a fabric counts into its one need, and every label of it begins with its letter."""
    red = {"fabric": "red"}
    booklet = quilt("30 x 40", borders=[{**red, "width": "2"}], binding={**red, "strip": "2"}, backing=red)
    fabric = next(fabric for fabric in booklet.fabrics if fabric.id == "red")
    used = [booklet.borders[0].label, booklet.binding.label if booklet.binding else "", booklet.backing.label]
    assert used == ["C1", "C2", "C3"]
    assert fabric.need == (
        inches("2 1/2") * booklet.borders[0].pieces
        + Length(2) * (booklet.binding.strips if booklet.binding else 0)
        + booklet.backing.need
    )


# ----------------------------------------------------------------------------------------------- batting


@pytest.mark.parametrize(
    ("w", "h", "package"),
    [
        (34, 45, "craft"), (45, 34, "craft"), (35, 45, "crib"), (45, 60, "crib"), (46, 60, "twin"), (49, 66, "twin"),
        (72, 90, "twin"), (81, 96, "full"), (82, 90, "queen"), (90, 108, "queen"), (108, 90, "queen"),
        (91, 109, "king"), (120, 120, "king"),
    ],
)  # fmt: skip
def test_the_smallest_package_that_holds_the_batting_either_way_round(w: int, h: int, package: str) -> None:
    """Sizes at honeybegood.com 2012 and primitivequiltsandprojects.com: 34 x 45 to 120 x 120."""
    found = plan_batting(Length(w), Length(h), INCHES).package
    assert found is not None
    assert found.id == package


def test_packages_of_batting_are_as_large_as_the_trade_sells_them() -> None:
    """Batting packages in inches: honeybegood.com (2012), primitivequiltsandprojects.com."""
    assert {name: (w, h) for name, w, h in BATTING_PACKAGES} == {
        "craft": (34, 45), "crib": (45, 60), "twin": (72, 90), "full": (81, 96), "queen": (90, 108), "king": (120, 120),
    }  # fmt: skip


def test_no_package_holds_a_larger_one() -> None:
    assert plan_batting(Length(121), Length(90), INCHES).package is None


def test_a_metric_pattern_tells_packages_in_whole_centimetres_that_they_hold() -> None:
    """45 x 60 in are 114.3 x 152.4 cm (exact since NBS Circular 572, addendum of 1960)."""
    found = plan_batting(Length(114), Length(152), CENTIMETRES).package
    assert found is not None
    assert (found.id, found.w, found.h) == ("crib", 114, 152)
    larger = plan_batting(Length(114), Length(Fraction(1523, 10)), CENTIMETRES).package
    assert larger is not None
    assert larger.id == "twin"


MITRED = [
    {"fabric": "red", "width": "1", "corner": "mitred"},
    {"fabric": "light", "width": "2 1/2", "corner": "mitred", "joined": "true"},
    {"fabric": "dark", "width": "3 1/2", "corner": "mitred", "joined": "true"},
]


def test_borders_mitred_as_one_are_all_as_long_as_the_outer_edge_and_some() -> None:
    """1 + 2.5 + 3.5 = 7 round 50 x 60 gives 65 x 75 with 1 in to spare (hobby page on mitred borders); ours spare 4."""
    booklet = quilt("50 x 60", borders=MITRED)
    published = {"left": 75, "right": 75, "top": 65, "bottom": 65}
    for border in booklet.borders:
        assert border.together == (1, 2, 3)
        assert {strip.edge: strip.length - 3 for strip in border.strips} == published
    assert [border.strips[0].w for border in booklet.borders] == [inches("1 1/2"), 3, 4]


def test_a_mitred_border_of_its_own_does_not_wait_for_the_next() -> None:
    inner, outer, _ = quilt("50 x 60", borders=[MITRED[0], {**MITRED[1], "joined": "false"}, MITRED[2]]).borders
    assert inner.together == ()
    assert outer.together == (2, 3)
    assert inner.strips[0].length == 60 + 2 + 4
    assert outer.strips[0].length == 62 + 2 * 6 + 4
