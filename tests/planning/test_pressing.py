"""Which way seams are pressed: what nests inside traditional blocks, between them, and over a whole top."""

from __future__ import annotations

from collections import Counter
from fractions import Fraction
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from effort import tries
from patterns_for_tests import YARDAGE, booklet_of, grid, use
from proved import findings_in
from quilt_for_tests import units_by_id
from seamleaf.booklet import Booklet, to_json
from seams_for_tests import Top, fewest_clashes, seams_of, seams_of_top
from strategies import parts, prints_from_1
from traditional_blocks import (
    Blocks,
    bears_paw,
    churn_dash,
    dutchmans_puzzle,
    friendship_star,
    nine_patch,
    pinwheel,
    rail_fence,
    sawtooth_star,
    snowball,
)

FOUR_PATCH = {"block": grid(["DL", "LD"], D="dark 2 x 2", L="light 2 x 2")}
CROSSINGS = 4
"""Corners where four blocks meet in a set of 3 x 3."""


def quilt(blocks: Blocks, **sections: Any) -> Booklet:
    sections.setdefault("size", "3 x 3")
    return booklet_of(blocks, tile=sections.pop("tile", [["block"]]), **sections)


def single(blocks: Blocks) -> Booklet:
    return quilt(blocks, size="1 x 1", turns="fixed")


def kinds(booklet: Booklet) -> Counter[str]:
    return Counter(place.unit for place in booklet.places if place.kind == "block")


# ------------------------------------------------------------------------------------------ inside blocks


@pytest.mark.parametrize(
    ("blocks", "points"),
    [
        (nine_patch("2"), 4),
        (FOUR_PATCH, 1),
        (rail_fence("2"), 0),
        (sawtooth_star("2"), 4),
        (churn_dash("4"), 4),
        (friendship_star("2"), 4),
    ],
    ids=["nine patch", "four patch", "rail fence", "sawtooth star", "churn dash", "friendship star"],
)
def test_inside_these_blocks_every_match_point_nests(blocks: Blocks, points: int) -> None:
    """Seams that must butt are pressed in opposite directions (QUILTsocial issue 5, p. 18)."""
    booklet = single(blocks)
    inside = booklet.pressing.inside["block"]
    assert (inside.match_points, inside.nested) == (points, points)
    assert (booklet.pressing.match_points, booklet.pressing.clash, booklet.pressing.open) == (points, 0, 0)


@pytest.mark.parametrize(
    "blocks",
    [
        nine_patch("2"),
        FOUR_PATCH,
        sawtooth_star("2"),
        churn_dash("4"),
        pinwheel("2"),
        dutchmans_puzzle("2"),
        bears_paw("2"),
    ],
    ids=["nine patch", "four patch", "sawtooth star", "churn dash", "pinwheel", "dutchman's puzzle", "bear's paw"],
)
def test_no_pressing_of_one_block_has_fewer_clashes_than_the_one_chosen(blocks: Blocks) -> None:
    """By brute force over all directions; where some clash whatever one does, a seam is spun or open instead."""
    booklet = single(blocks)
    least = fewest_clashes(Top(seams_of_top(booklet)), booklet)
    pressing = booklet.pressing
    assert pressing.clash <= least
    assert pressing.proven
    if not pressing.open and not pressing.spun:
        assert pressing.clash == least
    if least == 0:
        assert pressing.open == 0


@given(parts(3, 3, Fraction(2)).map(prints_from_1))
@settings(max_examples=tries(20), deadline=None)
def test_no_pressing_of_any_block_has_fewer_clashes_than_the_one_chosen(part: Any) -> None:
    fabrics = {**YARDAGE, "prints": {"source": "fat quarters"}}
    booklet = quilt({"block": part}, size="1 x 1", turns="fixed", fabrics=fabrics)
    least = fewest_clashes(Top(seams_of_top(booklet)), booklet)
    assert booklet.pressing.clash <= least
    if not booklet.pressing.open and not booklet.pressing.spun:
        assert booklet.pressing.clash == least


def test_flying_geese_are_pressed_to_the_sky_so_that_no_seam_is_folded_over_the_tip() -> None:
    booklet = single(sawtooth_star("2"))
    seams = [seam for seam in booklet.seams if units_by_id(booklet).get(seam.of, booklet.units[-1]).how == "geese"]
    fabric = {patch.label: patch.fabric for patch in booklet.patches}
    assert [(fabric[seam.first], fabric[seam.second], seam.press) for seam in seams] == [("light", "dark", "after")] * 2


# ----------------------------------------------------------------------------------------- between blocks


@pytest.mark.parametrize("blocks", [nine_patch("2"), sawtooth_star("2"), churn_dash("4")], ids=["nine", "star", "dash"])
def test_two_identical_blocks_clash_at_two_points_of_the_edge_that_they_share_and_nowhere_else(blocks: Blocks) -> None:
    """Side by side a seam that runs through meets itself; one above the other rows 1 and 3 are alike (brute force)."""
    for size in ("2 x 1", "1 x 2"):
        booklet = quilt(blocks, size=size, turns="fixed")
        assert fewest_clashes(Top(seams_of_top(booklet)), booklet, alike=True) == 2


@pytest.mark.parametrize("blocks", [nine_patch("2"), sawtooth_star("2"), churn_dash("4")], ids=["nine", "star", "dash"])
def test_every_second_block_of_them_turned_by_a_quarter_makes_all_points_nest(blocks: Blocks) -> None:
    """Where the block looks the same after a quarter turn, through seams then meet those of outer rows."""
    booklet = quilt(blocks)
    assert (booklet.pressing.clash, booklet.pressing.open, booklet.pressing.spun) == (0, 0, 0)
    assert booklet.pressing.turned == 4
    assert kinds(booklet) == {"block": 9}
    assert {place.pressing_turn for place in booklet.places} == {0, 90}


@pytest.mark.parametrize("blocks", [nine_patch("2"), sawtooth_star("2"), churn_dash("4")], ids=["nine", "star", "dash"])
def test_where_blocks_may_not_be_turned_every_second_one_is_a_b_block(blocks: Blocks) -> None:
    booklet = quilt(blocks, turns="fixed")
    assert booklet.pressing.clash == 0
    assert kinds(booklet) == {"block": 5, "block.B": 4}
    assert {place.turn for place in booklet.places} == {0}


def test_on_point_the_inner_grid_is_the_one_that_is_turned() -> None:
    booklet = quilt(nine_patch("2"), on_point="1/2", size="3 x 4")
    assert (booklet.pressing.clash, booklet.pressing.turned) == (0, 6)


def test_rails_that_alternately_stand_and_lie_never_meet_end_to_end() -> None:
    tile = [["block", "block@90"], ["block@90", "block"]]
    booklet = quilt(rail_fence("2"), tile=tile, turns="fixed")
    assert (booklet.pressing.match_points, booklet.pressing.nested) == (CROSSINGS, CROSSINGS)
    assert kinds(booklet) == {"block": 9}


def test_plain_blocks_between_pieced_ones_leave_only_the_corners_to_match() -> None:
    booklet = quilt(nine_patch("2"), on_point="1/2", between=[["light"]], size="3 x 3")
    plain = quilt({"block": "dark 6 x 6"}, on_point="1/2", size="3 x 3")
    assert booklet.pressing.match_points == 9 * 4 + plain.pressing.match_points
    assert booklet.pressing.nested == booklet.pressing.match_points
    assert kinds(booklet) == {"block": 9, "P1": 4}


@pytest.mark.parametrize("blocks", [pinwheel("2"), FOUR_PATCH], ids=["pinwheel", "four patch"])
def test_four_patches_and_pinwheels_nest_on_all_edges_once_their_last_seam_is_spun(blocks: Blocks) -> None:
    """Pressed to one side the last seam meets itself on two edges (spin: katecollerandesigns.com rotate-pressing)."""
    booklet = quilt(blocks, turns="fixed")
    assert fewest_clashes(Top(seams_of_top(booklet)), booklet, alike=True) > 0
    assert (booklet.pressing.clash, booklet.pressing.open) == (0, 0)
    assert booklet.pressing.spun == 9
    assert kinds(booklet) == {"block": 9}


@pytest.mark.parametrize("size", ["1 x 1", "2 x 1", "3 x 2", "4 x 4"])
def test_every_crossing_of_the_rows_nests_straight_and_on_point(size: str) -> None:
    """On point by pressing to triangles and inner blocks (derived); straight row by row (grammilousgarden.blogspot)."""
    for sections in ({}, {"on_point": "1/2"}):
        booklet = quilt({"block": "dark 4 x 4"}, size=size, **sections)
        outcomes = Top(seams_of_top(booklet)).outcomes()
        assert set(outcomes.values()) <= {"nested"}
        assert booklet.pressing.nested == booklet.pressing.match_points == len(outcomes)
    across, down = map(int, size.split(" x "))
    assert quilt({"block": "dark 4 x 4"}, size=size).pressing.match_points == (across - 1) * (down - 1)


def test_seams_of_borders_meet_no_others_end_to_end() -> None:
    borders = [{"fabric": "red", "width": "1"}, {"fabric": "dark", "width": "3"}]
    plain, bordered = (quilt(nine_patch("2"), **more) for more in ({}, {"borders": borders}))
    assert plain.pressing == bordered.pressing


# ------------------------------------------------------------------------------------------------- always


@given(
    parts(3, 3, Fraction(2), simple=True).map(prints_from_1),
    st.sampled_from([0, 90, 180, 270]),
    st.booleans(),
    st.sampled_from(["free", "fixed"]),
)
@settings(max_examples=tries(20), deadline=None)
def test_a_block_written_turned_or_mirrored_nests_as_well_as_before(
    part: Any, turn: int, mirror: bool, turns: str
) -> None:
    """Of half-squares and geese; where corners meet on an edge the last sewn counts, and that the mirror changes."""
    fabrics = {**YARDAGE, "prints": {"source": "fat quarters"}}
    blocks = {"first": part, "used": use("first", turn, mirror=mirror)}
    counts = set()
    for block in blocks:
        pressing = quilt(blocks, tile=[[block]], size="2 x 2", turns=turns, fabrics=fabrics).pressing
        counts.add((pressing.match_points, pressing.clash, pressing.open > 0))
    assert len(counts) == 1


@given(
    parts(3, 3, Fraction(2), simple=True).map(prints_from_1),
    parts(3, 3, Fraction(2), simple=True).map(prints_from_1),
    st.booleans(),
    st.sampled_from(["free", "fixed"]),
)
@settings(max_examples=tries(10), deadline=None)
def test_a_whole_quilt_turned_or_mirrored_nests_as_well_as_before(
    one: Any, other: Any, on_point: bool, turns: str
) -> None:
    """Every block of a 2 x 2 set in its new place, itself turned or mirrored."""
    fabrics = {**YARDAGE, "prints": {"source": "fat quarters"}}
    cells = [["one", "other"], ["other", "one"]]
    quarter_turn = [list(column) for column in zip(*cells[::-1], strict=True)]
    mirrored = [line[::-1] for line in cells]
    counts = set()
    # On point the mirror's line runs through corners of the blocks: to mirror, then turn back by a quarter.
    for turn, mirror, tile in (
        (0, False, cells),
        (90, False, quarter_turn),
        (270 if on_point else 0, True, mirrored),
    ):
        blocks = {"one": one, "other": other}
        blocks |= {f"{name}Moved": use(name, turn, mirror=mirror) for name in ("one", "other")}
        moved = [[f"{name}Moved" for name in line] for line in tile]
        more = {"on_point": "1/2", "between": [["oneMoved"]]} if on_point else {}
        pressing = quilt(blocks, tile=moved, size="2 x 2", turns=turns, fabrics=fabrics, **more).pressing
        counts.add((pressing.match_points, pressing.clash, pressing.open > 0))
    assert len(counts) == 1


def test_all_copies_of_a_unit_are_pressed_alike() -> None:
    """One seam of the list stands for every copy; what is said inside a block holds wherever the block lies."""
    booklet = quilt(nine_patch("2"))
    units = units_by_id(booklet)
    inside = Counter(Top(list(seams_of(units["block"], booklet))).outcomes().values())
    assert inside == {"nested": 4}
    assert len([seam for seam in booklet.seams if seam.of == "block"]) == 2


def test_the_points_to_pin_are_those_that_clash() -> None:
    """Flipped corners are always pressed outward, so those of neighbours clash where they meet; that is said."""
    booklet = quilt(snowball("2"), size="3 x 2")
    clashing = {at for at, outcome in Top(seams_of_top(booklet)).outcomes().items() if outcome == "clash"}
    assert clashing == {(pin.x.to_float(), pin.y.to_float()) for pin in booklet.pressing.pins}
    shared_edges = 7
    assert len(clashing) == booklet.pressing.clash == 2 * shared_edges
    assert booklet.pressing.proven


def test_the_points_to_pin_on_point_are_told_as_the_quilt_lies() -> None:
    """Two corners that are flipped toward each other clash inside each block, and the proof finds each of them."""
    halves = ({"base": "light", "top-right": "dark"}, {"base": "light", "top-left": "dark"})
    row = [{"corners": corners, "corner": "2", "finished": "3 x 6"} for corners in halves]
    booklet = quilt({"block": {"row": row}}, size="2 x 3", on_point="1/2", turns="fixed")
    assert booklet.pressing.clash == len(booklet.pressing.pins) >= booklet.set.blocks
    assert findings_in(to_json(booklet)) == []
