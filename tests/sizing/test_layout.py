"""How many blocks, triangles and rows a set has, and where they lie: all sets of 1..8 x 1..8 blocks."""

from __future__ import annotations

import math
from collections import Counter
from fractions import Fraction
from itertools import pairwise, product

import pytest

from patterns_for_tests import booklets_of, pattern_of, use
from seamleaf.booklet import Booklet
from seamleaf.lengths import Length
from seamleaf.sizing import Quilt, size_quilt
from seamleaf.sizing.spots import Spot

GRIDS = tuple(product(range(1, 9), range(1, 9)))
SIDE = 3
SIZES = {f"s{m}-{n}": {"blocks": f"{m} x {n}"} for m, n in GRIDS}
PLAIN = {"plain": f"dark {SIDE} x {SIDE}"}


@pytest.fixture(scope="module")
def on_point() -> dict[tuple[int, int], Booklet]:
    booklets = booklets_of(PLAIN, on_point="1/2", sizes=SIZES)
    return {(booklet.set.across, booklet.set.down): booklet for booklet in booklets.values()}


@pytest.fixture(scope="module")
def straight() -> dict[tuple[int, int], Booklet]:
    booklets = booklets_of(PLAIN, sizes=SIZES)
    return {(booklet.set.across, booklet.set.down): booklet for booklet in booklets.values()}


def test_on_point_the_inner_grid_adds_a_block_at_every_crossing_of_the_outer(
    on_point: dict[tuple[int, int], Booklet],
) -> None:
    """N = mn + (m-1)(n-1) (derived; 18 for 3 x 4 at inflorescencedesigns.com/quilting-on-the-diagonal)."""
    for (m, n), booklet in on_point.items():
        assert booklet.set.blocks == m * n + (m - 1) * (n - 1)
        assert 2 * booklet.set.blocks == (2 * m - 1) * (2 * n - 1) + 1
        assert booklet.set.blocks == sum(place.kind == "block" for place in booklet.places)


def test_on_point_the_edges_take_2_m_n_2_side_triangles_and_four_corners(
    on_point: dict[tuple[int, int], Booklet],
) -> None:
    """T = 2(m+n-2) (derived; 12 for 4 x 4 from 3 squares at kristamoser.com/post/quilt-math-made-easy)."""
    for (m, n), booklet in on_point.items():
        kinds = Counter(place.kind for place in booklet.places)
        assert booklet.set.side_triangles == kinds["side"] == 2 * (m + n - 2)
        assert booklet.set.corner_triangles == kinds["corner"] == 4


def test_side_triangles_come_four_from_a_square_and_corners_two(on_point: dict[tuple[int, int], Booklet]) -> None:
    """Squares = ceil(T / 4), corners 2 squares (ehow.com/how_8171657); what is left over is spare."""
    for booklet in on_point.values():
        patches = {patch.shape: patch for patch in booklet.patches if patch.use == "triangle"}
        squares = {shape: cut_squares(booklet, patch.label) for shape, patch in patches.items()}
        assert squares.get("quartered", 0) == math.ceil(booklet.set.side_triangles / 4)
        assert squares["halved"] == 2
        assert patches["halved"].spare == 0
        if "quartered" in patches:
            assert patches["quartered"].spare == -booklet.set.side_triangles % 4


def cut_squares(booklet: Booklet, label: str) -> int:
    return sum(sheet.times * sum(part.label == label for part in sheet.parts) for sheet in booklet.cutting)


def test_on_point_there_are_m_n_1_diagonal_rows_that_grow_and_shrink_by_two(
    on_point: dict[tuple[int, int], Booklet],
) -> None:
    """Row k has min(2k-1, 2(m+n-k)-1, 2 min(m, n)-1) blocks (derived)."""
    for (m, n), booklet in on_point.items():
        assert len(booklet.rows) == m + n - 1
        assert booklet.set.rows == tuple(
            min(2 * k - 1, 2 * (m + n - k) - 1, 2 * min(m, n) - 1) for k in range(1, m + n)
        )
        assert sum(booklet.set.rows) == booklet.set.blocks


@pytest.mark.parametrize(
    ("grid", "outer", "inner", "total", "sides", "rows"),
    [
        # knitnkwilt.wordpress.com: 8 side triangles from 2 squares
        ((3, 3), 9, 4, 13, 8, (1, 3, 5, 3, 1)),
        # kristamoser.com/post/quilt-math-made-easy: 16 pieced, 9 plain, 12 sides
        ((4, 4), 16, 9, 25, 12, (1, 3, 5, 7, 5, 3, 1)),
        # inflorescencedesigns.com/quilting-on-the-diagonal: 18 blocks
        ((3, 4), 12, 6, 18, 10, (1, 3, 5, 5, 3, 1)),
    ],
)
def test_published_layouts_on_point(
    on_point: dict[tuple[int, int], Booklet],
    grid: tuple[int, int],
    outer: int,
    inner: int,
    total: int,
    sides: int,
    rows: tuple[int, ...],
) -> None:
    booklet = on_point[grid]
    assert (outer, inner) == (grid[0] * grid[1], (grid[0] - 1) * (grid[1] - 1))
    assert (booklet.set.blocks, booklet.set.side_triangles, booklet.set.rows) == (total, sides, rows)


def test_on_point_the_centre_is_m_diagonals_wide_and_n_high_exactly(on_point: dict[tuple[int, int], Booklet]) -> None:
    for (m, n), booklet in on_point.items():
        assert (booklet.set.centre.w, booklet.set.centre.h) == (Length(0, m * SIDE), Length(0, n * SIDE))


def test_a_3_x_4_quilt_of_12_inch_blocks_on_point_is_about_51_x_68() -> None:
    """Finished diagonal 17 to the nearest 1/8: 51 x 68 (civilwarquilts.blogspot.com 2018/04)."""
    (booklet,) = booklets_of({"plain": "dark 12 x 12"}, on_point="1/2", size="3 x 4").values()
    assert booklet.set.centre.w == Length(0, 36)
    assert booklet.set.centre.h == Length(0, 48)
    assert (booklet.set.centre.w.round_nearest(Fraction(1)), booklet.set.centre.h.round_nearest(Fraction(1))) == (
        51,
        68,
    )


def test_on_point_blocks_and_triangles_make_up_the_area_of_the_centre(
    on_point: dict[tuple[int, int], Booklet],
) -> None:
    """2mn B^2 = B^2 (N + T/2 + 1), exactly: a side triangle is half a block, a corner a quarter."""
    for booklet in on_point.values():
        parts = booklet.set.blocks + Length(booklet.set.side_triangles) / 2 + Length(booklet.set.corner_triangles) / 4
        assert booklet.set.centre.w * booklet.set.centre.h == parts * SIDE * SIDE


def test_in_a_straight_set_rows_and_blocks_are_what_the_grid_says(straight: dict[tuple[int, int], Booklet]) -> None:
    for (m, n), booklet in straight.items():
        assert booklet.set.blocks == m * n
        assert booklet.set.rows == (m,) * n
        assert (booklet.set.side_triangles, booklet.set.corner_triangles) == (0, 0)
        assert (booklet.set.centre.w, booklet.set.centre.h) == (m * SIDE, n * SIDE)
        assert [place.row for place in booklet.places] == [j + 1 for j in range(n) for _ in range(m)]


# -------------------------------------------------------------------------------------------------- rows


def test_row_1_holds_the_top_left_corner_and_rows_go_on_away_from_it(on_point: dict[tuple[int, int], Booklet]) -> None:
    """All centres of an on-point row k lie on x + y = k diagonals."""
    for booklet in on_point.values():
        for row in booklet.rows:
            on_line = {booklet.places[index].x + booklet.places[index].y for index in row.items}
            assert on_line == {Length(0, row.row * SIDE)}


def test_a_row_runs_from_left_to_right_without_a_gap(
    on_point: dict[tuple[int, int], Booklet], straight: dict[tuple[int, int], Booklet]
) -> None:
    """On point from the lower left to the upper right: each block is one block side further."""
    step = Length(0, SIDE) / 2
    for booklet in on_point.values():
        for row in booklet.rows:
            blocks = [booklet.places[index] for index in row.items if booklet.places[index].kind == "block"]
            assert all((b.x - a.x, a.y - b.y) == (step, step) for a, b in pairwise(blocks))
    for booklet in straight.values():
        for row in booklet.rows:
            places = [booklet.places[index] for index in row.items]
            assert all((b.x - a.x, b.y) == (SIDE, a.y) for a, b in pairwise(places))


def test_every_row_ends_in_side_triangles_but_at_two_corners_of_the_quilt(
    on_point: dict[tuple[int, int], Booklet],
) -> None:
    """A row that ends in a corner block waits for that corner's triangle, which is sewn last."""
    for booklet in on_point.values():
        ends = [booklet.places[index].kind for row in booklet.rows for index in (row.items[0], row.items[-1])]
        inside = [booklet.places[index].kind for row in booklet.rows for index in row.items[1:-1]]
        if booklet.set.blocks > 1:
            assert Counter(ends) == {"side": booklet.set.side_triangles, "block": 2}
        assert set(inside) <= {"block"}
        assert booklet.set.across == 1 or booklet.places[booklet.rows[0].items[-1]].kind == "side"


def test_every_place_but_the_corners_is_in_one_row(on_point: dict[tuple[int, int], Booklet]) -> None:
    for booklet in on_point.values():
        found = Counter(index for row in booklet.rows for index in row.items)
        rows = {index: row.row for row in booklet.rows for index in row.items}
        assert set(found.values()) == {1}
        assert [place.row for place in booklet.places] == [rows.get(i) for i in range(len(booklet.places))]
        assert [place.kind for place in booklet.places if place.row is None] == ["corner"] * 4


# ------------------------------------------------------------------------------------------ tiles, turns


def test_column_i_row_j_takes_the_tile_at_j_mod_rows_and_i_mod_columns() -> None:
    blocks = {name: f"{name} 2 x 2" for name in ("light", "dark", "red")}
    pattern = pattern_of(blocks, tile=[["light", "dark"], ["red", "light"], ["dark", "dark"]], size="5 x 4")
    spots = size_quilt(pattern, "one").layout.spots
    tile = (("light", "dark"), ("red", "light"), ("dark", "dark"))
    for spot in spots:
        assert spot.cell is not None
        assert spot.cell.block == tile[spot.line % 3][spot.column % 2]


def test_on_point_the_inner_grid_takes_its_own_tile_or_else_the_same() -> None:
    blocks = {name: f"{name} 2 x 2" for name in ("light", "dark", "red")}
    own = size_quilt(pattern_of(blocks, tile=[["light"]], between=[["dark", "red"]], on_point="0", size="4 x 3"), "one")
    same = size_quilt(pattern_of(blocks, tile=[["light", "dark"]], on_point="0", size="4 x 3"), "one")

    def block(spot: Spot) -> str | None:
        return spot.cell.block if spot.cell else None

    def inner(quilt: Quilt) -> list[str | None]:
        return [block(spot) for spot in quilt.layout.spots if spot.inner and spot.kind == "block"]

    assert inner(own) == ["dark", "red", "dark"] * 2
    assert inner(same) == ["light", "dark", "light"] * 2


def test_a_turned_cell_turns_its_block_clockwise_and_on_point_by_45_degrees_more() -> None:
    blocks = {"half": {"row": ["light 2 x 4", "dark 2 x 4"]}}
    tile = [["half", "half@90"], ["half@180", "half@270"]]
    (level,) = booklets_of(blocks, tile=tile, turns="fixed").values()
    (pointed,) = booklets_of(blocks, tile=tile, turns="fixed", on_point="0").values()
    assert [place.turn for place in level.places] == [0, 90, 180, 270]
    assert [place.turn for place in pointed.places if place.kind == "block"] == [45, 135, 225, 315, 45]


def test_a_block_that_is_another_one_turned_is_the_same_unit() -> None:
    """A maker sews one kind of block and turns it."""
    blocks = {"half": {"row": ["light 2 x 4", "dark 2 x 4"]}, "other": use("half", 90)}
    (booklet,) = booklets_of(blocks, tile=[["half", "other"]], turns="fixed", size="2 x 1").values()
    assert [(place.unit, place.turn) for place in booklet.places] == [("half", 0), ("half", 90)]


# ---------------------------------------------------------------------------------------------- sashing


@pytest.mark.parametrize("outer", ["false", "true"])
def test_sashes_and_cornerstones_of_a_straight_set_are_as_many_as_the_grid_has_edges_and_corners(outer: str) -> None:
    """Inner only m(n-1) + n(m-1) and (m-1)(n-1); with outer ones m(n+1) + n(m+1) and (m+1)(n+1) (derived)."""
    grids = list(product(range(1, 6), range(1, 6)))
    booklets = booklets_of(
        PLAIN,
        sashing={"fabric": "light", "width": "1", "cornerstone": "red", "outer": outer},
        sizes={f"s{m}-{n}": {"blocks": f"{m} x {n}"} for m, n in grids},
    )
    more = 1 if outer == "true" else -1
    for (m, n), booklet in zip(grids, booklets.values(), strict=True):
        kinds = Counter(place.kind for place in booklet.places)
        assert kinds["block"] == booklet.set.blocks == m * n
        assert kinds["sash"] == m * (n + more) + n * (m + more)
        assert kinds["cornerstone"] == (m + more) * (n + more)
        assert (booklet.set.centre.w, booklet.set.centre.h) == (m * SIDE + m + more, n * SIDE + n + more)
        assert booklet.set.rows == (m,) * n
        assert len(booklet.rows) == n + n + more
