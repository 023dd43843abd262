"""Squares that setting triangles are cut from, against the published charts for blocks on point."""

from __future__ import annotations

from fractions import Fraction

import pytest

from patterns_for_tests import booklet_of, inches
from seamleaf.lengths import Length

SEAM = Length(Fraction(1, 4))
ROOT_2 = Length(0, 1)

# Finished block; side and corner square by the rule, up to the next 1/8 (recomputed with sqrt 2, not 1.414).
TABLE = {
    2: ("4 1/8", "2 3/8"), 3: ("5 1/2", "3"), 4: ("7", "3 3/4"), 5: ("8 3/8", "4 1/2"), 6: ("9 3/4", "5 1/8"),
    8: ("12 5/8", "6 5/8"), 9: ("14", "7 1/4"), 10: ("15 1/2", "8"), 12: ("18 1/4", "9 3/8"), 14: ("21 1/8", "10 7/8"),
    15: ("22 1/2", "11 1/2"), 16: ("24", "12 1/4"), 18: ("26 3/4", "13 5/8"), 19: ("28 1/8", "14 3/8"),
    20: ("29 5/8", "15 1/8"),
}  # fmt: skip

# quilterscache.com/H/howtomakesettingtriangles.html (2002; 4-10, 12, 14-16) and lukas.is-a-geek.org/tani/chart.htm
# (5-16), identical where both exist: rounded up to 1/8.
CHART_OF_EIGHTHS = {
    4: ("7", "3 3/4"), 5: ("8 3/8", "4 1/2"), 6: ("9 3/4", "5 1/8"), 8: ("12 5/8", "6 5/8"), 9: ("14", "7 1/4"),
    10: ("15 1/2", "8"), 12: ("18 1/4", "9 3/8"), 14: ("21 1/8", "10 7/8"), 15: ("22 1/2", "11 1/2"),
    16: ("23 7/8", "12 1/4"),
}  # fmt: skip

# phoebemoon.com/tutorials/on-point.htm (4-20); inflorescencedesigns.com/quilting-on-the-diagonal repeats 6-16: in
# steps of 1/4.
CHART_OF_QUARTERS = {
    4: ("7", "3 3/4"), 5: ("8 1/2", "4 1/2"), 6: ("9 3/4", "5 1/4"), 8: ("12 3/4", "6 3/4"), 9: ("14", "7 1/2"),
    10: ("15 1/2", "8"), 12: ("18 1/4", "9 1/2"), 14: ("21", "11"), 15: ("22 1/2", "11 3/4"), 16: ("24", "12 1/4"),
    18: ("26 3/4", "13 3/4"), 19: ("28 1/4", "14 1/2"), 20: ("29 1/2", "15 1/4"),
}  # fmt: skip


def squares(side: str, **sections: str) -> tuple[Length, Length]:
    """Return the cut sides of the side and corner squares for a block of this finished side."""
    sections.setdefault("on_point", "0")
    booklet = booklet_of({"plain": f"dark {side} x {side}"}, **sections)
    cut = {patch.shape: (patch.w, patch.h) for patch in booklet.patches if patch.use == "triangle"}
    (large, high), (small, low) = cut["quartered"], cut["halved"]
    assert (large, small) == (high, low)
    return large, small


def texts(pair: tuple[str, str]) -> tuple[Length, Length]:
    return inches(pair[0]), inches(pair[1])


@pytest.mark.parametrize("side", TABLE)
def test_squares_are_f_sqrt_2_and_1_1_4_and_f_over_sqrt_2_and_7_8_up_to_the_next_eighth(side: int) -> None:
    assert squares(str(side)) == texts(TABLE[side])


@pytest.mark.parametrize("side", [side for side in CHART_OF_EIGHTHS if side != 16])
def test_the_published_chart_in_eighths_is_matched_cell_by_cell(side: int) -> None:
    assert squares(str(side)) == texts(CHART_OF_EIGHTHS[side])


def test_the_charts_side_square_for_16_inch_blocks_comes_from_1_414_and_ours_is_an_eighth_larger() -> None:
    """16 x 1.414 + 1 1/4 = 23.874 fits 23 7/8; with sqrt 2 it is 23.8774, which does not."""
    assert Fraction(1414, 1000) * 16 + Fraction(5, 4) < inches("23 7/8")
    assert ROOT_2 * 16 + Fraction(5, 4) > inches("23 7/8")
    assert squares("16") == (inches("24"), texts(CHART_OF_EIGHTHS[16])[1])


@pytest.mark.parametrize("side", CHART_OF_QUARTERS)
def test_the_published_chart_in_quarters_is_no_smaller_but_where_it_rounds_down(side: int) -> None:
    """Its sides for 14 and 20 in are rounded down, although it says up."""
    large, small = squares(str(side))
    published = texts(CHART_OF_QUARTERS[side])
    assert (published[0] < large) == (side in (14, 20))
    assert published[1] >= small


@pytest.mark.parametrize("side", TABLE)
def test_no_square_is_smaller_than_geometry_needs(side: int) -> None:
    """Exact: F sqrt 2 + s (2 + 2 sqrt 2) and F / sqrt 2 + s (2 + sqrt 2); the rule's grace is under 0.05 in."""
    large, small = squares(str(side))
    exact_large, exact_small = ROOT_2 * side + SEAM * Length(2, 2), ROOT_2 * side / 2 + SEAM * Length(2, 1)
    assert 0 < large - exact_large < Fraction(1, 8) + Fraction(5, 100)
    assert 0 < small - exact_small < Fraction(1, 8) + Fraction(5, 100)


@pytest.mark.parametrize(
    ("side", "which", "published"),
    [
        # joanne-everyonedeservesaquilt.blogspot.com 2014/03: 8.484 to 8 1/2, + 1 1/4
        ("6", 0, "9 3/4"),
        # moonlightquilters.org/tip-on-point-settings: 4 1/4 + 7/8
        ("6", 1, "5 1/8"),
        # pinemeadowsdesigns.com/SewingHints-BlockOnPoint.htm: 8.49 to 8.5, + 0.875
        ("12", 1, "9 3/8"),
        # quilterscache.com/H/howtomakesettingtriangles.html (2002): 16.968 + 1.25
        ("12", 0, "18 1/4"),
    ],
)
def test_published_worked_examples(side: str, which: int, published: str) -> None:
    assert squares(side)[which] == inches(published)


def test_rounding_down_as_one_page_does_makes_triangles_too_small() -> None:
    """A page on 5-in blocks rounds 7.05 down to 7 and gets 8 1/4 and 4 3/8 (knitnkwilt.wordpress.com)."""
    exact_large, exact_small = ROOT_2 * 5 + SEAM * Length(2, 2), ROOT_2 * 5 / 2 + SEAM * Length(2, 1)
    assert inches("8 1/4") < exact_large
    assert inches("4 3/8") < exact_small
    large, small = squares("5")
    assert large > exact_large
    assert small > exact_small


def test_oversize_is_added_to_both_squares_alike_after_rounding() -> None:
    """So the trim is the same on all four edges: half the oversize."""
    assert squares("12", on_point="1") == (inches("19 1/4"), inches("10 3/8"))
    assert squares("8", on_point="1/2") == (inches("13 1/8"), inches("7 1/8"))


def test_in_centimetres_squares_go_up_to_the_next_millimetre() -> None:
    """At the seam of 0.75 cm: F sqrt 2 + 3.7 and F / sqrt 2 + 2.6; for 30 cm 46.126 and 23.813 (derived)."""
    assert squares("30", unit="cm") == (Length(Fraction(462, 10)), Length(Fraction(239, 10)))


def test_another_seam_allowance_changes_the_squares() -> None:
    """At 3/8 in: s(2 + 2 sqrt 2) = 1.81 to 1 7/8, s(2 + sqrt 2) = 1.28 to 1 3/8; 6-in blocks 10.36 and 5.62."""
    assert squares("6", seam="3/8") == (inches("10 3/8"), inches("5 5/8"))


def test_side_squares_are_cut_twice_and_corner_squares_once_so_that_no_bias_lies_on_the_edge() -> None:
    """Cut once, straight grain lies on the legs; cut twice, on the long edge (quilterchic.com).

    A side triangle lies with its long edge on the quilt's edge, a corner triangle with its legs.
    """
    booklet = booklet_of({"plain": "dark 4 x 4"}, on_point="0", size="2 x 2")
    shape = {patch.label: patch.shape for patch in booklet.patches}
    units = {unit.id: unit for unit in booklet.units}
    cut = {
        place.kind: shape[units[place.unit].from_[0].label or ""] for place in booklet.places if place.kind != "block"
    }
    assert cut == {"side": "quartered", "corner": "halved"}


def test_what_is_left_of_a_trimmed_centre_beyond_the_points_is_the_seam() -> None:
    """Trim leaving 1/4 in past the block points (scrappyquilting.com/diagonal.setting.quilt.layouts.htm)."""
    assert booklet_of({"plain": "dark 4 x 4"}, on_point="1").set.trim_beyond == SEAM
