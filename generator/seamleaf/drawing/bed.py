"""The quilt on a bed, seen from above: the sizes of a pattern side by side, all to one scale.

The mattress shows through as a dashed outline, so that the drop at the sides and the foot can be seen.
"""

from __future__ import annotations

from typing import Final

from seamleaf.drawing.colours import INK, PALE, PAPER, SOFT
from seamleaf.drawing.drafting import DASH, EDGE, SEAM, Panel, lay_out
from seamleaf.drawing.figure import Desk, Sketch
from seamleaf.drawing.measures import box_text
from seamleaf.drawing.quilt import whole_quilt
from seamleaf.drawing.scene import Group, Ink, Rect, Shape
from seamleaf.drawing.wording import say
from seamleaf.lengths import measures_of

_SCALE: Final = 1.6
"""Points an inch, in every size and every pattern."""
_NARROW_INCHES: Final = 48
"""A bed up to this width has one pillow."""
_HEAD: Final = 3.0
"""Inches of headboard."""
_PILLOW: Final = (24.0, 13.0)
_CORNER: Final = 2.0


def bed_sketch(desk: Desk) -> Sketch:
    """Return ``bed``."""
    booklet, bed = desk.booklet, desk.booklet.size.bed
    inch = float(measures_of(booklet.unit).inch)
    scale = _SCALE / inch
    w, h = bed.w.to_float() * scale, bed.h.to_float() * scale
    wide, high = booklet.finished.w.to_float() * scale, booklet.finished.h.to_float() * scale
    cover = booklet.size.cover
    top = -cover.tuck.to_float() * scale if cover is not None else max(h - high, 0.0)
    soft = Ink(fill=PAPER, stroke=SOFT, width=EDGE)
    parts: list[Shape] = [
        Rect(
            x=0, y=-_HEAD * _SCALE, w=w, h=_HEAD * _SCALE, corner=_CORNER, ink=Ink(fill=PALE, stroke=SOFT, width=EDGE)
        ),
        Rect(x=0, y=0, w=w, h=h, corner=_CORNER, ink=soft),
        *(_pillow(x, ink=Ink(fill=PALE, stroke=SOFT, width=EDGE)) for x in _pillows(w)),
        Group(parts=tuple(whole_quilt(desk, scale)), dx=(w - wide) / 2, dy=top, tag="quilt"),
        Rect(x=0, y=0, w=w, h=h, corner=_CORNER, ink=Ink(stroke=PAPER, width=1.8)),
        Rect(x=0, y=0, w=w, h=h, corner=_CORNER, ink=Ink(stroke=INK, width=SEAM, dash=DASH)),
    ]
    size = box_text(booklet, bed.w, bed.h)
    title = say("figure.bed", **desk.names, mattress=size)
    return Sketch(id="bed", kind="bed", title=title, scene=lay_out([Panel(parts=tuple(parts))], least=0))


def _pillows(width: float) -> list[float]:
    """Return the left edges of the pillows."""
    w = _PILLOW[0] * _SCALE
    if width <= _NARROW_INCHES * _SCALE:
        return [(width - w) / 2]
    return [width / 4 - w / 2, width * 3 / 4 - w / 2]


def _pillow(x: float, *, ink: Ink) -> Shape:
    return Rect(x=x, y=2 * _SCALE, w=_PILLOW[0] * _SCALE, h=_PILLOW[1] * _SCALE, corner=4, ink=ink)
