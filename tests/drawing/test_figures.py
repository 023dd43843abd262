"""Figures of a hand-made booklet, as scenes: what they show, and that their text can be read."""

from __future__ import annotations

from collections import Counter

import pytest

from drawing.sample import BOOKLET
from seamleaf.drawing import draw_figures, draw_sketches
from seamleaf.drawing.figure import Sketch
from seamleaf.drawing.pens import Mark, RecordingPen

SKETCHES = {sketch.id: sketch for sketch in draw_sketches(BOOKLET)}
EVERY = pytest.mark.parametrize("sketch", SKETCHES.values(), ids=list(SKETCHES))


def marks_of(sketch: Sketch) -> list[Mark]:
    pen = RecordingPen()
    sketch.scene.draw(pen)
    return pen.marks


def tags_of(sketch: Sketch) -> Counter[str]:
    """Return how many groups carry each tag."""
    pen = RecordingPen()
    sketch.scene.draw(pen)
    return Counter(tags[-1] for tags in pen.groups if tags)


def test_every_part_of_the_booklet_has_its_figure() -> None:
    expected = {"quilt", "lines", "layout", "key", "legend", "centre", "backing", "binding", "border-1", "border-2"}
    expected |= {f"cut-{stem}" for stem in ("A-1", "A-2", "A-3", "A-4", "B-1", "B-2", "C-1", "D-1")}
    expected |= {f"step-{unit}" for unit in ("U1", "U2", "U3", "U4", "star", "T1", "T2")}
    expected |= {"block-star", "block-star-parts", "row-1", "row-2", "row-3"}

    assert set(SKETCHES) == expected


@EVERY
def test_no_text_is_under_nine_points(sketch: Sketch) -> None:
    assert all(mark.text.size >= 9 for mark in marks_of(sketch) if mark.text is not None)


@EVERY
def test_no_two_texts_overlap(sketch: Sketch) -> None:
    texts = [mark for mark in marks_of(sketch) if mark.text is not None]

    clashes = [
        (one.text.text, other.text.text)  # type: ignore[union-attr]
        for i, one in enumerate(texts)
        for other in texts[i + 1 :]
        if all(one.points[0][k] < other.points[1][k] and other.points[0][k] < one.points[1][k] for k in (0, 1))
    ]

    assert clashes == []


@EVERY
def test_all_that_is_drawn_lies_on_the_page(sketch: Sketch) -> None:
    for mark in marks_of(sketch):
        for x, y in mark.points:
            assert -0.01 <= x <= sketch.scene.w + 0.01
            assert -0.01 <= y <= sketch.scene.h + 0.01


@EVERY
def test_no_figure_is_wider_than_the_printed_page(sketch: Sketch) -> None:
    assert sketch.scene.w <= 482


def test_titles_end_like_sentences() -> None:
    assert all(figure.title.endswith(".") for figure in draw_figures(BOOKLET))
