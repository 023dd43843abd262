"""The quilt on a wide ground, as other sites show it beside a link."""

from __future__ import annotations

from typing import Final

from seamleaf.booklet.record import Booklet
from seamleaf.drawing.figure import Desk, Figure, Sketch
from seamleaf.drawing.quilt import quilt_sketches
from seamleaf.drawing.scene import Group, Ink, Rect, Scene

COVER_SIZE: Final = (1200, 630)
"""Pixels of a picture for link previews (common practice, no source)."""
_GROUND: Final = "#f3f1ec"
_AIR: Final = 22.0


def draw_cover(booklet: Booklet) -> Figure:
    """Return the picture of a quilt for link previews; it has no words, since it is shown small, beside a title."""
    desk = Desk(booklet)
    quilt = quilt_sketches(desk)[0]
    across, down = COVER_SIZE
    h = max(quilt.scene.h + 2 * _AIR, (quilt.scene.w + 2 * _AIR) * down / across)
    w = h * across / down
    ground = Rect(x=0, y=0, w=w, h=h, ink=Ink(fill=_GROUND))
    top = Group(parts=quilt.scene.parts, dx=(w - quilt.scene.w) / 2, dy=(h - quilt.scene.h) / 2)
    scene = Scene(w=w, h=h, parts=(ground, top))
    return desk.finish(Sketch(id="cover", kind="cover", title=quilt.title, scene=scene))
