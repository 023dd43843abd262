"""Seams that the trade presses one way, whatever they meet: outward.

Sources: stitch-and-flip, square in a square, log cabin, partial rings, setting triangles and borders are common
practice, no source; flying geese to the sky, so that nothing is folded over the tip, likewise.
"""

from __future__ import annotations

import pytest

from bench.pressing import RUNS, timed
from blocks_for_tests import quilt_text
from patterns_for_tests import booklet_of
from quilt_for_tests import units_by_id
from seams_for_tests import Laid, after_on_top, dot, minus, seams_of
from traditional_blocks import Blocks, log_cabin, snowball

ECONOMY: Blocks = {"block": {"diamond": {"centre": "dark", "corners": "light"}, "finished": "8 x 8"}}
COURTHOUSE: Blocks = {
    "block": {
        "around": {"centre": "red 2 x 2", "logs": ["light 1", "light 1", "dark 1", "dark 1"], "direction": "opposite"}
    }
}
RING: Blocks = {"block": {"partial": {"centre": "red 2 x 2", "ring": "light 2 x 4"}}}
OUTWARD = {
    "snowball": snowball("2"),
    "square in a square": ECONOMY,
    "log cabin": log_cabin("2", "1"),
    "courthouse steps": COURTHOUSE,
    "partial ring": RING,
}


def outward(seam: Laid, centre: tuple[float, float]) -> bool:
    """Whether a seam is pressed away from a point."""
    middle = ((seam.a[0] + seam.b[0]) / 2, (seam.a[1] + seam.b[1]) / 2)
    side = {"after": 1, "before": -1}[seam.press]
    return side * dot(seam.after, minus(middle, centre)) > 0


@pytest.mark.parametrize("blocks", OUTWARD.values(), ids=OUTWARD)
@pytest.mark.parametrize("size", ["1 x 1", "3 x 3"])
def test_every_seam_of_these_blocks_is_pressed_away_from_the_middle_alone_and_among_others(
    blocks: Blocks, size: str
) -> None:
    booklet = booklet_of(blocks, tile=[["block"]], size=size)
    block = units_by_id(booklet)["block"]
    centre = (block.finished.w.to_float() / 2, block.finished.h.to_float() / 2)
    seams = list(seams_of(block, booklet))
    assert seams
    assert all(outward(seam, centre) for seam in seams)


@pytest.mark.parametrize("point", ["up", "down", "left", "right"])
def test_geese_are_pressed_away_from_the_goose(point: str) -> None:
    finished = "4 x 2" if point in ("up", "down") else "2 x 4"
    geese = {"geese": {"goose": "dark", "sky": "light"}, "finished": finished, "point": point}
    booklet = booklet_of({"block": {"row": [geese]}}, tile=[["block"]], size="2 x 2")
    (flight,) = (unit for unit in booklet.units if unit.how == "geese")
    w, h = flight.finished.w.to_float(), flight.finished.h.to_float()
    seams = list(seams_of(flight, booklet))
    assert len(seams) == 2
    assert all(outward(seam, (w / 2, h)) for seam in seams)  # units are drawn point up: the middle of the long side


def test_setting_triangles_corners_and_borders_are_pressed_outward() -> None:
    borders = [{"fabric": "red", "width": "1"}, {"fabric": "dark", "width": "3"}]
    booklet = booklet_of({"block": "dark 4 x 4"}, tile=[["block"]], size="3 x 4", on_point="1/2", borders=borders)
    centre = (booklet.set.centre.w.to_float() / 2, booklet.set.centre.h.to_float() / 2)
    triangles = {place.unit for place in booklet.places if place.kind in ("side", "corner")}
    laid = {
        seam.id: Laid(key=("", 0), a=one, b=other, after=after_on_top(seam, booklet), press=seam.press)
        for seam in booklet.seams
        for one, other in [[(x.to_float(), y.to_float()) for x, y in seam.line]]
        if seam.of.startswith("border") or triangles & {seam.first, seam.second}
    }
    sides, corners, edges = 2 * (3 + 4 - 2), 4, 2 * 4
    assert len(laid) == sides + corners + edges
    assert all(outward(seam, centre) for seam in laid.values())


def test_the_script_that_times_pressing_times_the_plan_that_is_made() -> None:
    booklet, seconds = timed(quilt_text("Nine patch", on_point=True, across=1, down=1).encode())
    assert booklet.pressing.match_points == 4
    assert len(seconds) % RUNS == 0 < len(seconds)
