"""Strippy sets: columns of blocks, and between them strips that are as long as the columns (all derived)."""

from __future__ import annotations

from collections import Counter
from itertools import pairwise, product

import pytest

from patterns_for_tests import PRINTS, YARDAGE, booklet_of, booklets_of, inches, refusals_of
from proved import findings_in
from quilt_for_tests import patches_of_centre
from seamleaf.booklet import Booklet, to_json
from seamleaf.lengths import Length

GRIDS = tuple(product(range(1, 6), range(1, 6)))
NINE = {
    "nine": {"grid": ["DLD", "LDL", "DLD"], "key": {"D": "dark 2 x 2", "L": "light 2 x 2"}},
    "plain": "light 6 x 6",
}


def strippy(outer: str) -> dict[tuple[int, int], Booklet]:
    booklets = booklets_of(
        NINE,
        set="strippy",
        tile=[["nine", "plain"], ["plain", "nine"]],
        sashing={"fabric": "red", "width": "3 1/2", "outer": outer},
        sizes={f"s{m}-{n}": {"blocks": f"{m} x {n}"} for m, n in GRIDS},
    )
    return {(booklet.set.across, booklet.set.down): booklet for booklet in booklets.values()}


@pytest.fixture(scope="module", params=["true", "false"])
def quilts(request: pytest.FixtureRequest) -> tuple[int, dict[tuple[int, int], Booklet]]:
    """Return how many strips there are more than columns, and the quilts by columns and blocks in each."""
    return {"true": 1, "false": -1}[request.param], strippy(request.param)


def test_the_strips_widen_the_quilt_and_do_not_lengthen_it(
    quilts: tuple[int, dict[tuple[int, int], Booklet]],
) -> None:
    more, booklets = quilts
    for (m, n), booklet in booklets.items():
        centre = booklet.set.centre
        assert (centre.w, centre.h) == (Length(6) * m + inches("3 1/2") * (m + more), Length(6) * n)


def test_columns_and_strips_take_turns_and_each_is_a_row(quilts: tuple[int, dict[tuple[int, int], Booklet]]) -> None:
    more, booklets = quilts
    for (m, n), booklet in booklets.items():
        kinds = Counter(place.kind for place in booklet.places)
        assert kinds == Counter({"block": m * n, "sash": m + more})
        rows = [[booklet.places[item] for item in row.items] for row in booklet.rows]
        assert len(rows) == 2 * m + more
        assert booklet.set.rows == (n,) * m
        for row in rows:
            assert {place.kind for place in row} == {"block"} or [place.kind for place in row] == ["sash"]
            assert all(a.x == b.x and a.y < b.y for a, b in pairwise(row))
        assert all(a[0].x < b[0].x for a, b in pairwise(rows))


def test_patches_fill_the_centre_without_overlap(quilts: tuple[int, dict[tuple[int, int], Booklet]]) -> None:
    """By shapely."""
    for booklet in quilts[1].values():
        patches = [patch.polygon for patch in patches_of_centre(booklet)]
        whole = booklet.set.centre.w.to_float() * booklet.set.centre.h.to_float()
        assert sum(patch.area for patch in patches) == pytest.approx(whole)
        assert all(a.intersection(b).area < 1e-9 for i, a in enumerate(patches) for b in patches[:i])


def test_a_strip_is_cut_in_one_piece_as_long_as_a_column(quilts: tuple[int, dict[tuple[int, int], Booklet]]) -> None:
    """Two seam allowances more than it is finished, both ways; also where that is longer than the fabric is wide."""
    for (_, n), booklet in quilts[1].items():
        strips = [patch for patch in booklet.patches if patch.fabric == "red"]
        assert all((patch.w, patch.h) == (Length(4), Length(6 * n) + inches("1/2")) for patch in strips)


def test_a_long_strip_is_cut_along_the_fabric() -> None:
    """Ten strips of 60 1/2 in lie side by side in 40 in: one sheet as long as they are."""
    booklet = booklet_of(NINE, set="strippy", sashing={"fabric": "red", "width": "3 1/2"}, size="11 x 10")
    (sheet,) = [sheet for sheet in booklet.cutting if sheet.fabric == "red"]
    assert (sheet.times, sheet.sheet.h, len(sheet.parts)) == (1, inches("60 1/2"), 10)


def test_seams_of_a_column_go_down_and_those_beside_strips_to_the_strips() -> None:
    booklet = booklet_of(NINE, set="strippy", sashing={"fabric": "red", "width": "2", "outer": "true"}, size="2 x 3")
    assert [row.press for row in booklet.rows] == [(), ("after", "after"), (), ("after", "after"), ()]
    assert [(seam.axis, seam.press) for seam in booklet.seams if seam.of == "rows"] == [
        ("x", "before"),
        ("x", "after"),
    ] * 2


def test_blocks_of_a_column_nest_where_they_meet() -> None:
    """Every second block of a column is turned by a quarter, so all match points nest."""
    booklet = booklet_of(NINE, set="strippy", sashing={"fabric": "red", "width": "2"}, size="3 x 4")
    assert booklet.pressing.match_points == booklet.pressing.nested == 3 * (4 * 4 + 3 * 2)


def test_every_size_passes_the_proof(quilts: tuple[int, dict[tuple[int, int], Booklet]]) -> None:
    for booklet in quilts[1].values():
        assert findings_in(to_json(booklet).encode()) == []


def test_a_column_is_measured_as_it_lies() -> None:
    booklet = booklet_of(NINE, set="strippy", sashing={"fabric": "red", "width": "2"}, size="3 x 4")
    (gate,) = [gate for gate in booklet.gates if gate.after == "row"]
    assert (gate.of, gate.w, gate.h) == ("1", inches("6 1/2"), inches("24 1/2"))


def test_strips_cannot_come_from_a_bundle() -> None:
    (problem,) = refusals_of(
        NINE, fabrics={**YARDAGE, "bits": PRINTS}, set="strippy", sashing={"fabric": "bits", "width": "2"}
    )
    assert "from squares 10" in problem.found
    assert "yardage" in problem.expected
