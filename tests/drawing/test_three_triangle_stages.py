"""Three-triangle squares, in mirrored pairs and from triangles: every stage shows what a maker does."""

from __future__ import annotations

import pytest

from drawing.kinds import PLAIN
from drawing.seen import marks
from drawing.test_stages import fills, presses, segments, stages, step_of
from patterns_for_tests import booklet_of, three_triangle, use
from seamleaf.drawing.drafting import STITCH
from seamleaf.drawing.figure import Sketch

HAND = three_triangle("light", "dark", "red", "4")
PAIR = booklet_of(
    {"hand": HAND, "block": {"row": [use("hand"), use("hand", mirror=True)]}}, tile=[["block"]], fabrics=PLAIN
)
ALONE = booklet_of({"hand": HAND}, fabrics=PLAIN)


def pair() -> Sketch:
    return step_of(PAIR, "hand")


def test_a_pair_is_marked_and_sewn_twice() -> None:
    """Mark, sew both sides, cut and press the half-squares; mark across the seam, sew both sides, cut, press."""
    shown = stages(pair())
    counted = [(len(segments(panel, ())), len(segments(panel, STITCH))) for panel in shown.values()]
    assert counted == [(1, 0), (1, 2), (0, 0), (1, 2), (0, 2), (0, 0)]
    assert [presses(panel) for panel in shown.values()] == [0, 0, 1, 0, 0, 2]


def test_the_second_mark_runs_across_the_first() -> None:
    shown = list(stages(pair()).values())
    slopes = [(b[1] - a[1]) / (b[0] - a[0]) for panel in (shown[0], shown[3]) for a, b in segments(panel, ())]
    assert slopes == pytest.approx([-1, 1])


def test_the_plain_square_lies_on_a_half_square_of_both_quarters() -> None:
    """Of the half-square below, both fabrics look out."""
    plain, right, bottom = (region.label for region in PAIR.units[0].regions)
    panel = stages(pair())["stage 4"]
    (above,) = fills(panel, f"patch {plain}")
    for label in (right, bottom):
        (below,) = fills(panel, f"patch {label}")
        assert below.difference(above).area > 0


def test_the_last_picture_shows_the_unit_and_its_mirror_image() -> None:
    """Each outline mirrored at the middle of the picture is another of the same label."""
    panel = stages(pair())["finished hand"]
    for region in PAIR.units[0].regions:
        one, other = fills(panel, f"patch {region.label}")
        across = (one.bounds[0] + other.bounds[2]) / 2
        mirrored = {(round(2 * across - x, 6), round(y, 6)) for x, y in one.exterior.coords}
        assert mirrored == {(round(x, 6), round(y, 6)) for x, y in other.exterior.coords}
    assert pair().title.endswith("Half of them lie mirrored.")
    said = " ".join(mark.text.text for mark in marks(pair()) if mark.text is not None)
    assert "As many one way round as the other." in said


def test_from_triangles_the_two_quarters_are_sewn_first() -> None:
    shown = list(stages(step_of(ALONE, "hand")).values())
    assert [presses(panel) for panel in shown] == [0, 1, 1]
    assert [sum(len(fills(panel, f"patch {r.label}")) for r in ALONE.units[0].regions) for panel in shown] == [3, 3, 3]
