"""What a test sees of a figure: all that is drawn with its place, and what lies below a text."""

from __future__ import annotations

from collections import Counter
from functools import cache
from typing import Final

from accepted import accepted, accepted_names
from drawing import kinds
from drawing.recording import Mark, RecordingPen
from drawing.sample import BOOKLET
from seamleaf.booklet import Booklet
from seamleaf.drawing import draw_sketches
from seamleaf.drawing.figure import Sketch
from seamleaf.drawing.pens import Extent
from seamleaf.drawing.scene import Spot

ONE = "lamplight-crossing"
_PENS: dict[int, tuple[Sketch, RecordingPen]] = {}


NAMES: Final = (
    "sample",
    *(size if pattern == ONE else f"{pattern} {size}" for pattern, size in accepted_names()),
    *kinds.PLANS,
)
"""The hand-made booklet, the accepted ones of the whole demo, and those of every kind of sewing and setting.

Those of one pattern of the demo go by their size alone, the others by pattern and size.
"""


@cache
def seen_booklet(name: str) -> Booklet:
    """Return one of these booklets; none is read or planned before it is looked at."""
    if name == "sample" or name in kinds.PLANS:
        return BOOKLET if name == "sample" else kinds.booklet(name)
    pattern, _, size = name.rpartition(" ")
    return accepted(pattern or ONE, size)


@cache
def sketches(name: str) -> dict[str, Sketch]:
    """Return the figures of one of these booklets as scenes, by id."""
    return {sketch.id: sketch for sketch in draw_sketches(seen_booklet(name))}


def record(sketch: Sketch) -> RecordingPen:
    """Draw a figure on a recording pen, once for all that look at it."""
    kept = _PENS.get(id(sketch))
    if kept is None or kept[0] is not sketch:
        pen = RecordingPen()
        sketch.scene.draw(pen)
        kept = _PENS[id(sketch)] = (sketch, pen)
    return kept[1]


def marks(sketch: Sketch) -> list[Mark]:
    """Return all that a figure draws, in order."""
    return record(sketch).marks


def texts(sketch: Sketch) -> list[str]:
    """Return every line of text of a figure."""
    return [mark.text.text for mark in marks(sketch) if mark.text is not None]


def tags(sketch: Sketch) -> Counter[str]:
    """Return how many groups of a figure carry each tag."""
    return Counter(path[-1] for path in record(sketch).groups if path)


def extent(mark: Mark) -> Extent:
    """Return the box of one mark."""
    xs, ys = [x for x, _ in mark.points], [y for _, y in mark.points]
    return (min(xs), min(ys), max(xs), max(ys))


def overlap(one: Extent, other: Extent, slack: float = 0) -> bool:
    """Return whether two boxes share more than ``slack`` both ways."""
    return all(one[k] + slack < other[k + 2] and other[k] + slack < one[k + 2] for k in (0, 1))


def arrow_directions(sketch: Sketch, press: str) -> list[Spot]:
    """Return where the solid arrows of one kind point: from the middle of the shaft's end to the tip."""
    found = []
    for mark in marks(sketch):
        if mark.tags[-1:] == (f"press {press}",) and mark.kind == "polygon" and mark.ink and not mark.ink.stroke:
            points = mark.points
            tip, tail = points[3], ((points[0][0] + points[6][0]) / 2, (points[0][1] + points[6][1]) / 2)
            found.append((round(tip[0] - tail[0], 6), round(tip[1] - tail[1], 6)))
    return found
