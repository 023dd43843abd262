"""Step figures: stages of every method, patches counted, and press arrows that point where the seam says."""

from __future__ import annotations

import math
from collections import Counter
from dataclasses import replace
from typing import Literal

import pytest

from drawing.sample import BOOKLET, box, take, with_unit
from drawing.seen import NAMES, arrow_directions, marks, record, seen_booklet, sketches, tags, texts
from seamleaf.booklet import Booklet
from seamleaf.booklet.record import Press
from seamleaf.drawing import draw_sketches
from seamleaf.drawing.figure import Sketch


def step(booklet: Booklet, unit: str) -> Sketch:
    return next(sketch for sketch in draw_sketches(booklet) if sketch.id == f"step-{unit}")


def pressed(seam: str, press: Press) -> Booklet:
    seams = tuple(replace(s, press=press) if s.id == seam else s for s in BOOKLET.seams)
    return replace(BOOKLET, seams=seams)


@pytest.mark.parametrize(("press", "direction"), [("before", (-1, 0)), ("after", (1, 0))])
def test_across_an_upright_seam_before_points_left_and_after_right(
    press: Literal["before", "after"], direction: tuple[int, int]
) -> None:
    """S4 joins U2 and U1 of the row U3; S5 is turned the other way to tell them apart."""
    seams = tuple(replace(s, press="open") if s.id == "S5" else s for s in pressed("S4", press).seams)
    found = arrow_directions(step(replace(BOOKLET, seams=seams), "U3"), press)
    assert [(x > 0) - (x < 0) for x, _ in found] == [direction[0]]
    assert all(abs(y) < 1e-6 for _, y in found)


@pytest.mark.parametrize(("press", "direction"), [("before", -1), ("after", 1)])
def test_across_a_level_seam_before_points_up_and_after_down(press: Literal["before", "after"], direction: int) -> None:
    found = arrow_directions(step(pressed("S8", press), "star"), press)
    assert [(y > 0) - (y < 0) for _, y in found] == [direction]


@pytest.mark.parametrize(("press", "direction"), [("before", -1), ("after", 1)])
def test_across_a_sloping_seam_before_points_to_the_first_patch(
    press: Literal["before", "after"], direction: int
) -> None:
    """The half-square U2 has A2 at its upper left, and its seam S3 is of A2 and C1 in this order."""
    ((x, y),) = arrow_directions(step(pressed("S3", press), "U2"), press)
    assert ((x > 0) - (x < 0), (y > 0) - (y < 0)) == (direction, direction)


def test_a_part_that_lies_turned_turns_its_arrows_with_it() -> None:
    """In the block apart, the row U3 lies upright at the top and upside down at the bottom: its arrows point alike."""
    sketch = next(s for s in draw_sketches(BOOKLET) if s.id == "block-star-parts")
    level = [x > 0 for x, y in arrow_directions(sketch, "before") + arrow_directions(sketch, "after") if abs(y) < 1e-6]
    # S4 before and S5 after point outward from each U1; S6 after and S7 before point inward to B2.
    assert sorted(level) == [False, False, False, True, True, True]


def test_an_open_seam_has_an_arrow_with_two_heads() -> None:
    assert tags(step(BOOKLET, "star"))["press open"] == 1


def test_a_spun_seam_has_a_ring() -> None:
    shown = step(pressed("S8", "spin"), "star")
    assert tags(shown)["press spin"] == 1
    assert any(mark.kind == "path" and mark.tags[-1:] == ("press spin",) for mark in marks(shown))


@pytest.mark.parametrize("name", NAMES)
def test_each_join_shows_its_parts_apart_and_then_whole(name: str) -> None:
    """Every patch is there twice, every seam has one arrow, and every part that is a unit carries its name."""
    strips = {strip.unit for border in seen_booklet(name).borders for strip in border.strips}
    for unit in seen_booklet(name).units:
        if unit.how == "join":
            sketch = sketches(name)[f"step-{unit.id}"]
            block = sketches(name).get(f"block-{unit.id}")
            shown = tags(sketch)
            patches = {tag: n for tag, n in shown.items() if tag.startswith("patch ")}
            assert all(n % 2 == 0 for n in patches.values())
            if block is not None:
                whole = {tag: n for tag, n in tags(block).items() if tag.startswith("patch ")}
                assert patches == {tag: 2 * n for tag, n in whole.items()}
            assert sum(n for tag, n in shown.items() if tag.startswith("press ")) == len(unit.seams)
            written = texts(sketch)
            for part in unit.from_:
                if part.unit is not None and unit.id not in strips:  # a border's strip repeats one unit
                    assert written.count(part.unit) == sum(other.unit == part.unit for other in unit.from_)


@pytest.mark.parametrize(("method", "cut_pieces", "stitched"), [("two", 2, 2), ("four", 4, 4), ("eight", 8, 4)])
def test_half_squares_are_marked_sewn_cut_and_pressed(method: str, cut_pieces: int, stitched: int) -> None:
    """Two at a time: a seam on each side of one diagonal; four: round the edge; eight: beside both diagonals.

    Common practice, no source.
    """
    sketch = step(with_unit("U2", method=method), "U2")
    shown = tags(sketch)
    stage = [f"stage {i}" for i in (1, 2, 3)]
    seams = [m for m in marks(sketch) if m.kind == "line" and m.ink is not None and m.ink.dash == (2.5, 1.5)]
    assert [tag for tag in shown if tag.startswith(("stage", "finished"))] == [*stage, "finished U2"]
    assert shown["cut C1 on A2"] == cut_pieces
    assert sum(m.tags[0] == "stage 2" for m in seams) == stitched
    # Besides its own seam a piece may keep a stub of another, where seams cross at a corner or in the middle.
    whole = [m for m in seams if m.tags[0] == "stage 3" and math.dist(*m.points) > 20]
    assert len(whole) == cut_pieces


def test_the_lighter_square_is_the_one_that_is_marked() -> None:
    """Gold on deep blue: C1 lies on top with its wrong side up. Common practice, no source."""
    assert any("C1 on A2" in line for line in texts(step(BOOKLET, "U2")))


def test_geese_four_at_a_time_take_one_large_and_four_small_squares() -> None:
    shown = step(BOOKLET, "U1")
    groups = Counter((path[0], path[-1]) for path in record(shown).groups if len(path) > 1)
    assert all(groups[f"stage {i}", "patch A1"] == 1 for i in (1, 2, 3, 4))
    # Two on the square; the two pressed up on a half; and those two with the one that is added.
    assert [groups[f"stage {i}", "patch B1"] for i in (1, 2, 3, 4)] == [2, 2, 2, 3]


def test_geese_by_stitch_and_flip_show_both_ends() -> None:
    takes = (take("A1", 2, 1), take("B1", 1, 1), take("B1", 3, 1))
    sketch = step(with_unit("U1", method="flip", from_=takes, makes=1), "U1")
    told = " ".join(texts(sketch))
    assert "outside the seam" in told
    assert [tag for tag in tags(sketch) if tag.startswith("stage")] == ["stage 1", "stage 2", "stage 3"]
    assert sketch.title.startswith("Sew one A1 and two B1 into flying geese U1, by stitch and flip.")


def test_cut_triangles_are_shown_apart_with_their_seams() -> None:
    sketch = step(with_unit("U1", method="triangles", makes=1), "U1")
    shown = tags(sketch)
    assert (shown["patch A1"], shown["patch B1"]) == (2, 4)
    assert shown["press after"] == 2


def test_a_trim_is_told_instead_of_a_measure() -> None:
    told = " ".join(texts(step(with_unit("U2", trim=box(2, 2)), "U2")))
    assert "Trim to" in told
    assert "Measure" not in told


def test_setting_triangles_are_cut_twice_at_the_sides_and_once_at_the_corners() -> None:
    """Common practice, no source: so that the long edge of each lies along the straight grain."""
    assert tags(step(BOOKLET, "T1"))["patch A3"] == 4
    assert tags(step(BOOKLET, "T2"))["patch A4"] == 2
