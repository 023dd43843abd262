"""Sets on point with sashing: how many of everything, and that all of it fills the centre."""

from __future__ import annotations

from collections import Counter
from itertools import product
from typing import Any

import pytest

from patterns_for_tests import pattern_of, refusals_of
from seamleaf.lengths import Length
from seamleaf.reading import Pattern
from seamleaf.sizing import Quilt, size_quilt

SIDE, WIDTH = Length(12), Length(2)
GRIDS = tuple(product(range(1, 9), range(1, 9)))


def sashed(outer: str | None, grids: tuple[tuple[int, int], ...], **sashing: Any) -> Pattern:
    all_ = {"fabric": "red", "width": "2", "cornerstone": "dark", "outer": outer} | sashing
    return pattern_of(
        {"plain": "dark 12 x 12"},
        on_point="0",
        sizes={f"s{m}-{n}": {"blocks": f"{m} x {n}"} for m, n in grids},
        sashing={key: value for key, value in all_.items() if value is not None},
    )


@pytest.fixture(scope="module")
def quilts() -> dict[tuple[int, int], Quilt]:
    pattern = sashed(None, GRIDS)
    return {(m, n): size_quilt(pattern, f"s{m}-{n}") for m, n in GRIDS}


def counts(quilt: Quilt) -> Counter[str]:
    return Counter(spot.kind for spot in quilt.layout.spots)


def test_sashes_lie_all_round_unless_the_pattern_says_otherwise(quilts: dict[tuple[int, int], Quilt]) -> None:
    """N = mn + (m-1)(n-1) blocks have 2N + 2(m+n-1) sashes and N + 2(m+n-1) + 1 cornerstones (derived)."""
    for (m, n), quilt in quilts.items():
        blocks = m * n + (m - 1) * (n - 1)
        found = counts(quilt)
        assert found["block"] == blocks
        assert found["sash"] == 2 * blocks + 2 * (m + n - 1)
        assert found["cornerstone"] == blocks + 2 * (m + n - 1) + 1
        assert (found["side"], found["corner"]) == (2 * (m + n - 2), 4)


def test_without_outer_sashes_those_at_the_edge_and_their_cornerstones_are_left_out() -> None:
    """2N - 2(m+n-1) sashes and N - 2(m+n-1) + 1 cornerstones (derived)."""
    grids = tuple((n, n) for n in range(1, 7))
    pattern = sashed("false", grids)
    for m, n in grids:
        quilt = size_quilt(pattern, f"s{m}-{n}")
        found, blocks = counts(quilt), m * n + (m - 1) * (n - 1)
        assert (found["sash"], found["cornerstone"]) == (2 * blocks - 2 * (m + n - 1), blocks - 2 * (m + n - 1) + 1)
        assert quilt.layout.w == ((SIDE + WIDTH) * m - WIDTH).times_root2()
        assert area(quilt) == quilt.layout.w * quilt.layout.h


def test_the_points_of_the_outer_cornerstones_lie_on_the_edge(quilts: dict[tuple[int, int], Quilt]) -> None:
    """The centre is (m(B+s) + s) sqrt 2 by (n(B+s) + s) sqrt 2 (derived)."""
    half = WIDTH.times_root2() / 2
    for (m, n), quilt in quilts.items():
        assert quilt.layout.w == ((SIDE + WIDTH) * m + WIDTH).times_root2()
        assert quilt.layout.h == ((SIDE + WIDTH) * n + WIDTH).times_root2()
        stones = [spot for spot in quilt.layout.spots if spot.kind == "cornerstone"]
        assert min(stone.x for stone in stones) == min(stone.y for stone in stones) == half
        assert max(stone.x for stone in stones) == quilt.layout.w - half
        assert max(stone.y for stone in stones) == quilt.layout.h - half


def area(quilt: Quilt) -> Length:
    total = Length(0)
    for spot in quilt.layout.spots:
        whole = spot.w * spot.h
        total = total + (whole / 2 if spot.kind in ("side", "corner") else whole)
    return total


def test_the_areas_of_all_that_is_sewn_add_up_to_the_centre(quilts: dict[tuple[int, int], Quilt]) -> None:
    for quilt in quilts.values():
        assert area(quilt) == quilt.layout.w * quilt.layout.h


@pytest.mark.parametrize(("m", "n", "blocks", "sashes", "stones"), [(3, 4, 18, 48, 31), (4, 5, 32, 80, 49)])
def test_two_layouts_counted_by_hand(
    quilts: dict[tuple[int, int], Quilt], m: int, n: int, blocks: int, sashes: int, stones: int
) -> None:
    """18 blocks for 3 x 4 (inflorescencedesigns.com/quilting-on-the-diagonal); sashes and cornerstones derived."""
    found = counts(quilts[m, n])
    assert (found["block"], found["sash"], found["cornerstone"]) == (blocks, sashes, stones)


def test_rows_of_blocks_and_rows_of_sashes_take_turns(quilts: dict[tuple[int, int], Quilt]) -> None:
    for (m, n), quilt in quilts.items():
        rows = [{quilt.layout.spots[index].kind for index in row} for row in quilt.layout.rows]
        assert len(rows) == 2 * (m + n - 1) + 1
        assert all(("block" in row) == (number % 2 == 1) for number, row in enumerate(rows))
        assert all(row == {"sash", "cornerstone"} for row in rows[::2])


def test_sashes_that_end_at_the_edge_are_refused_where_a_seam_would_be_inset() -> None:
    (problem,) = refusals_of(
        {"plain": "dark 12 x 12"},
        on_point="0",
        size="2 x 3",
        sashing={"fabric": "red", "width": "2", "cornerstone": "dark", "outer": "false"},
    )
    assert "2 x 3 blocks on point with sashes between them only" in problem.sentence("test")


def test_without_cornerstones_each_row_of_sashes_is_one_as_long_as_all_of_them(
    quilts: dict[tuple[int, int], Quilt],
) -> None:
    """N + m + n - 1 short sashes at the ends of N blocks in m + n - 1 rows, and m + n long ones (derived)."""
    pattern = sashed(None, GRIDS, cornerstone=None)
    for m, n in GRIDS:
        quilt, other = size_quilt(pattern, f"s{m}-{n}"), quilts[m, n]
        long = [spot for spot in quilt.layout.spots if spot.kind == "sash" and spot.h > SIDE]
        assert counts(quilt)["sash"] - len(long) == m * n + (m - 1) * (n - 1) + m + n - 1
        assert (len(long), counts(quilt)["cornerstone"]) == (m + n, 0)
        assert (quilt.layout.w, quilt.layout.h) == (other.layout.w, other.layout.h)
        assert area(quilt) == quilt.layout.w * quilt.layout.h


def test_long_sashes_that_end_at_the_edge_are_as_long_as_the_shorter_row() -> None:
    pattern = sashed("false", ((4, 4),), cornerstone=None)
    quilt = size_quilt(pattern, "s4-4")
    long = [spot.h for spot in quilt.layout.spots if spot.kind == "sash" and spot.column % 2]
    assert long == [(SIDE + WIDTH) * (blocks - 1) + SIDE for blocks in (1, 3, 5, 5, 3, 1)]
    assert area(quilt) == quilt.layout.w * quilt.layout.h
