"""How things lie in their figures: a block as the pattern draws it, a border before it is mitred with the next."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Any, Final

import pytest

from drawing.seen import marks
from patterns_for_tests import booklet_of, file_of, geese, grid, half_rectangle, half_square, three_triangle
from proved import findings_in
from published import finished
from seamleaf.booklet import to_json
from seamleaf.drawing import draw_sketches
from seamleaf.drawing.scene import Spot

SLACK: Final = 0.5
MITRED: list[dict[str, Any]] = [
    {"fabric": "red", "width": "1", "corner": "mitred"},
    {"fabric": "light", "width": "2", "corner": "mitred", "joined": "true"},
]


@pytest.mark.parametrize(
    ("part", "fabric", "corner"),
    [
        (half_square("red", "light", "4"), "red", (0, 0)),
        (half_square("light", "red", "4"), "light", (0, 0)),
        (half_square("red", "light", "4", 90), "red", (1, 0)),
        (three_triangle("red", "light", "dark", "4", 180), "red", (1, 1)),
        (geese("light", "red", "4 x 2", "down"), "red", (0, 1)),
        (geese("red", "light", "2 x 4", "left"), "light", (0, 0)),
        (half_rectangle("red", "light", "2 x 4", 90), "red", (1, 0)),
    ],
)
def test_a_block_that_is_one_part_is_drawn_as_the_pattern_says(part: Any, fabric: str, corner: tuple[int, int]) -> None:
    """A part is sewn in a frame of its own, where it may lie another way round."""
    booklet = booklet_of({"block": part}, size="1 x 2")
    fabric_of = {patch.label: patch.fabric for patch in booklet.patches}
    block = next(sketch for sketch in draw_sketches(booklet) if sketch.id == "block-block")
    seen = [mark for mark in marks(block) if mark.tags[-1:] and mark.tags[-1].startswith("patch ") and mark.points]
    xs, ys = [x for mark in seen for x, _ in mark.points], [y for mark in seen for _, y in mark.points]
    at = (min, max)[corner[0]](xs), (min, max)[corner[1]](ys)
    held = {fabric_of[mark.tags[-1].removeprefix("patch ")] for mark in seen if _has_right_angle(mark.points, at)}
    assert held == {fabric}
    assert findings_in(to_json(booklet)) == []


def _has_right_angle(spots: Sequence[Spot], at: Spot) -> bool:
    """Whether a corner of an outline lies there, between a level edge and an upright one."""
    index = next((i for i, spot in enumerate(spots) if math.dist(spot, at) < SLACK), None)
    if index is None:
        return False
    beside = spots[index - 1], spots[(index + 1) % len(spots)]
    return all(min(abs(x - at[0]), abs(y - at[1])) < SLACK for x, y in beside)


def test_a_border_that_is_mitred_with_the_next_shows_no_mitre_of_its_own() -> None:
    text = file_of({"four": grid(["DL", "LD"], D="dark 6 x 6", L="light 6 x 6")}, borders=MITRED).decode()
    done = finished(text, "mitred")
    figures = {figure.id: figure for figure in next(iter(done.figures.values()))}
    inner, outer = figures["border-1"], figures["border-2"]
    assert "not sew them to the quilt yet" in inner.title
    assert "not sew" not in outer.title
    assert "Corner" not in inner.svg
    assert "Corner" in outer.svg
