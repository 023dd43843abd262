"""Booklet to scenes, scenes to SVG: every figure of one size.

Takes a booklet and returns figures, each with its SVG text and the sentence that stands for it. This package is the
only place that knows SVG, and it does no arithmetic about fabric: it scales, places and flattens what the booklet says.
"""

from __future__ import annotations

from seamleaf.booklet.record import Booklet
from seamleaf.drawing.backing import backing_sketch
from seamleaf.drawing.bed import bed_sketch
from seamleaf.drawing.block import block_sketches
from seamleaf.drawing.borders import border_sketches
from seamleaf.drawing.centre import centre_sketch
from seamleaf.drawing.chart import layout_sketches
from seamleaf.drawing.cover import COVER_SIZE, draw_cover
from seamleaf.drawing.cutting import cut_sketches
from seamleaf.drawing.drawn import Drawn
from seamleaf.drawing.figure import Desk, Figure, Sketch
from seamleaf.drawing.finishing import binding_sketches
from seamleaf.drawing.gauges import gauge_sketches
from seamleaf.drawing.key import key_sketch, legend_sketch
from seamleaf.drawing.plain import plain_quilt
from seamleaf.drawing.quilt import quilt_sketches
from seamleaf.drawing.rows import row_sketches
from seamleaf.drawing.steps import step_sketches
from seamleaf.drawing.wording import speaking
from seamleaf.drawing.wrong_side import wrong_sketches
from seamleaf.words import Words, english

__all__ = ["COVER_SIZE", "Drawn", "Figure", "draw_cover", "draw_figures", "draw_sketches", "plain_quilt"]


def draw_figures(booklet: Booklet, words: Words | None = None, drawn: Drawn | None = None) -> tuple[Figure, ...]:
    """Return every figure of one size, by the stages of the work; the same booklet and words give the same bytes.

    Args:
        booklet: of the size.
        words: what they say; English if not given.
        drawn: remembers those that do not say the titles, if given.

    """
    words = words or english()
    with speaking(words):
        desk = Desk(booklet)

        def draw() -> tuple[Figure, ...]:
            return tuple(map(desk.finish, _sketches(desk)))

        named = tuple(map(desk.finish, _named(desk)))
        return named + (draw() if drawn is None else drawn.once(desk.booklet, words, draw))


def draw_sketches(booklet: Booklet) -> tuple[Sketch, ...]:
    """Return the same figures as scenes, for tests and for other output than SVG."""
    desk = Desk(booklet)
    return (*_named(desk), *_sketches(desk))


def _named(desk: Desk) -> list[Sketch]:
    """Return the figures that say what the pattern and the size are called."""
    return [*quilt_sketches(desk), bed_sketch(desk)]


def _sketches(desk: Desk) -> list[Sketch]:
    """Return the others."""
    return [
        *layout_sketches(desk),
        key_sketch(desk),
        legend_sketch(desk),
        *cut_sketches(desk),
        *step_sketches(desk),
        *wrong_sketches(desk),
        *block_sketches(desk),
        *row_sketches(desk),
        centre_sketch(desk),
        *border_sketches(desk),
        backing_sketch(desk),
        *binding_sketches(desk),
        *gauge_sketches(desk),
    ]
