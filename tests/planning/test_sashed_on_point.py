"""A sashed quilt on point from its file to the proof: what is cut, the order of its joins, and how it nests."""

from __future__ import annotations

import json
from collections.abc import Callable
from typing import Any

import pytest

from patterns_for_tests import booklet_of, booklets_of, grid
from proved import findings_in
from seamleaf.booklet import Booklet, to_json
from seamleaf.drawing import draw_sketches
from seamleaf.lengths import Length

NINE = {"nine": grid(["DLD", "LDL", "DLD"], D="dark 2 x 2", L="light 2 x 2")}
SASHING = {"fabric": "red", "width": "1", "cornerstone": "dark"}
GRIDS = ((1, 1), (1, 4), (2, 3), (3, 3), (2, 5), (5, 2))
"""One block; one column; a little longer; square; so much longer or wider that rows have both kinds of triangles."""


@pytest.fixture(scope="module")
def quilts() -> dict[str, Booklet]:
    return booklets_of(
        NINE,
        on_point="1/2",
        sashing=SASHING,
        borders=[{"fabric": "dark", "width": "2"}],
        sizes={f"s{m}-{n}": {"blocks": f"{m} x {n}"} for m, n in GRIDS},
    )


@pytest.mark.parametrize("name", [f"s{m}-{n}" for m, n in GRIDS])
def test_every_seam_is_one_straight_line_in_the_order_given(quilts: dict[str, Booklet], name: str) -> None:
    assert findings_in(to_json(quilts[name])) == []


def test_between_sashes_alone_it_can_be_sewn_too() -> None:
    for count in (1, 3):
        booklet = booklet_of(NINE, on_point="1/2", sashing=SASHING | {"outer": "false"}, size=f"{count} x {count}")
        assert findings_in(to_json(booklet)) == []


@pytest.mark.parametrize("outer", ["true", "false"])
def test_with_long_sashes_it_can_be_sewn_too(outer: str) -> None:
    """Each row of sashes is one piece; rows so wide that they have both kinds of triangles among them."""
    grids = ((1, 1), (3, 3), (2, 5)) if outer == "true" else ((1, 1), (3, 3))
    sashing = {"fabric": "red", "width": "1", "outer": outer}
    sizes = {f"s{m}-{n}": {"blocks": f"{m} x {n}"} for m, n in grids}
    for booklet in booklets_of(NINE, on_point="1/2", sashing=sashing, sizes=sizes).values():
        assert findings_in(to_json(booklet)) == []
        assert all(len(row.items) == 1 for row in booklet.rows if row.row % 2 == (outer == "true"))


def test_every_match_point_nests(quilts: dict[str, Booklet]) -> None:
    for booklet in quilts.values():
        assert booklet.pressing.nested == booklet.pressing.match_points > 0


def test_sashing_counts_as_part_of_the_block_when_triangles_are_cut() -> None:
    """12 in blocks with 2 in sashes take side squares as for 14 in, 21 1/8, and corner squares as for 16 in, 12 1/4.

    Charts: quilterscache.com/H/howtomakesettingtriangles.html, 2002, and lukas.is-a-geek.org/tani/chart.htm.
    That sashing counts: ehow.com/how_8171657; that it counts twice at corners: derived.
    """
    booklet = booklet_of({"plain": "dark 12 x 12"}, on_point="0", sashing=SASHING | {"width": "2"}, size="3 x 4")
    squares = {patch.shape: patch.w for patch in booklet.patches if patch.use == "triangle"}
    assert squares == {"quartered": Length(169) / 8, "halved": Length(49) / 4}


def test_only_rows_with_both_kinds_of_triangles_leave_a_seam_open(quilts: dict[str, Booklet]) -> None:
    """Row by row of blocks (derived): with 2 across and 5 down the third and fourth have a triangle of each kind."""
    open_rows = {name: [row.row for row in booklet.rows if row.left_open] for name, booklet in quilts.items()}
    assert open_rows == {"s1-1": [], "s1-4": [4, 6], "s2-3": [], "s3-3": [], "s2-5": [6, 8], "s5-2": [6, 8]}
    for booklet in quilts.values():
        for row in booklet.rows:
            sides = [item for item in row.items if booklet.places[item].kind == "side"]
            assert (row.beside is None) == (not sides)


def test_the_figure_of_a_row_tells_when_its_triangles_are_sewn_on(quilts: dict[str, Booklet]) -> None:
    titles = {sketch.id: sketch.title for sketch in draw_sketches(quilts["s2-5"])}
    assert titles["row-2"].endswith("Join it to row 1, then sew both triangles to the two rows together.")
    assert "leave the last of that seam open until row 7 is joined, then close it" in titles["row-6"]
    assert titles["centre"].startswith("Join each row of blocks to the sashes beside it")


def _joined_too_early(value: Any) -> None:
    """Put the seams between rows before those of the triangles that must come first."""
    value["seams"].sort(key=lambda seam: seam["of"] != "rows")


def _not_said_to_be_open(value: Any) -> None:
    for row in value["rows"]:
        row["left_open"] = []


def _no_row_beside(value: Any) -> None:
    for row in value["rows"]:
        row["beside"] = None


def _seam_too_short(value: Any) -> None:
    """Let the seam of a triangle end where its row does."""
    row, seams = value["rows"][1], {seam["id"]: seam for seam in value["seams"]}
    triangle, other = seams[f"row{row['row']}.1"], seams[f"row{row['row']}.2"]
    triangle["line"] = [[x, y] for x, y in other["line"]]


def _sash_turned(value: Any) -> None:
    place = next(place for place in value["places"] if place["kind"] == "sash")
    place["turn"] = (place["turn"] + 90) % 360


@pytest.mark.parametrize(
    "spoil", [_joined_too_early, _not_said_to_be_open, _no_row_beside, _seam_too_short, _sash_turned]
)
def test_the_proof_refuses_an_order_that_cannot_be_sewn(
    quilts: dict[str, Booklet], spoil: Callable[[Any], None]
) -> None:
    value = json.loads(to_json(quilts["s2-5"]))
    spoil(value)
    assert findings_in(json.dumps(value))


def test_labels_stay_the_same_whatever_the_number_of_long_sashes() -> None:
    """A small size has fewer lengths of them; borders and binding keep their labels, and each length its own."""
    sizes = {f"s{m}-{n}": {"blocks": f"{m} x {n}"} for m, n in ((1, 1), (2, 3), (4, 4))}
    sections = {"borders": [{"fabric": "red", "width": "2"}], "binding": {"fabric": "red"}, "sizes": sizes}
    sashing = {"fabric": "red", "width": "1"}
    for shape in ({"on_point": "1/2"}, {}):
        booklets = booklets_of(NINE, sashing=sashing, **shape, **sections)
        red = [
            {patch.use: patch.label for patch in booklet.patches if patch.fabric == "red" and patch.use != "block"}
            for booklet in booklets.values()
        ]
        assert red[0] == red[1] == red[2]
        labels = {patch.label for patch in booklets["s4-4"].patches}
        assert all(patch.label in labels for booklet in booklets.values() for patch in booklet.patches)
