"""The whole quilt: in colour, each block in its own prints, and as lines to colour in."""

from __future__ import annotations

from dataclasses import replace
from typing import Final

from seamleaf.booklet.record import Booklet
from seamleaf.drawing.borders import border_sides, centre_corner, strip_look
from seamleaf.drawing.colours import INK, PAPER, grey_of
from seamleaf.drawing.drafting import EDGE, PAGE, SEAM, Panel, lay_out
from seamleaf.drawing.figure import Desk, Sketch
from seamleaf.drawing.measures import box_text
from seamleaf.drawing.pieced_strips import draw_strip, strip_patches, strip_unit
from seamleaf.drawing.scene import Group, Ink, Path, Polygon, Rect, Shape
from seamleaf.drawing.stamps import Stamps, draw_place
from seamleaf.drawing.wording import count_word, say

_WIDE: Final = 360.0
_TALL: Final = 440.0


def quilt_sketches(desk: Desk) -> list[Sketch]:
    """Return ``quilt``, ``grey`` and ``lines``."""
    quilt = _quilt(desk)
    return [quilt, _grey(desk, quilt), _lines(desk)]


def _scale(booklet: Booklet) -> float:
    return min(_WIDE / booklet.finished.w.to_float(), _TALL / booklet.finished.h.to_float())


def _quilt(desk: Desk) -> Sketch:
    booklet = desk.booklet
    parts = whole_quilt(desk, _scale(booklet))
    size = box_text(booklet, booklet.finished.w, booklet.finished.h)
    blocks = say("figure.quilt.blocks", n=booklet.set.blocks, count=count_word(booklet.set.blocks))
    borders = say("figure.quilt.borders", n=len(booklet.borders), count=count_word(len(booklet.borders)))
    title = say("figure.quilt.make", **desk.names, quilt=size, blocks=blocks, borders=borders)
    return Sketch(id="quilt", kind="quilt", title=title, scene=lay_out([Panel(parts=tuple(parts))], width=PAGE))


def whole_quilt(desk: Desk, scale: float) -> list[Shape]:
    """Draw the quilt, bound; ``scale`` is in points a unit of length."""
    booklet = desk.booklet
    parts = _borders(desk, scale)
    stamps = Stamps(desk, scale)
    left, top = centre_corner(booklet, scale, within=booklet.finished)
    for place in booklet.places:
        dx, dy = stamps.spot(place)
        shapes = draw_place(desk, place, stamps, seams=False)
        parts.append(Group(parts=tuple(shapes), dx=left + dx, dy=top + dy, tag=f"place {place.unit}"))
    parts.append(_binding_edge(desk, scale))
    return parts


def _grey(desk: Desk, quilt: Sketch) -> Sketch:
    """Draw the same picture in the greys that are as light, to see whether light and dark alone carry the design."""
    title = say("figure.quilt.grey", **desk.names)
    scene = replace(quilt.scene, parts=tuple(_greyed(part) for part in quilt.scene.parts))
    return Sketch(id="grey", kind="grey", title=title, scene=scene)


def _greyed(shape: Shape) -> Shape:
    if isinstance(shape, Group):
        return replace(shape, parts=tuple(_greyed(part) for part in shape.parts))
    if isinstance(shape, (Path, Polygon, Rect)):
        fill, stroke = (grey_of(colour) if colour else colour for colour in (shape.ink.fill, shape.ink.stroke))
        return replace(shape, ink=replace(shape.ink, fill=fill, stroke=stroke))
    return shape


def _borders(desk: Desk, scale: float) -> list[Shape]:
    parts: list[Shape] = []
    for border in desk.booklet.borders:
        for name, spots in border_sides(desk.booklet, border, scale).items():
            if strip_unit(border, name):
                pieced = tuple(draw_strip(desk, border, name, spots, seams=False))
                parts.append(Group(parts=pieced, tag=f"border {border.order}"))
                continue
            colour = strip_look(desk, border, name).colour
            ink = Ink(fill=colour, stroke=colour, width=0.5, rounded=True)
            parts.append(Group(parts=(Polygon(points=spots, ink=ink),), tag=f"border {border.order}"))
    return parts


def _binding_edge(desk: Desk, scale: float) -> Shape:
    booklet = desk.booklet
    w, h = booklet.finished.w.to_float() * scale, booklet.finished.h.to_float() * scale
    if booklet.binding is None:
        return Rect(x=0, y=0, w=w, h=h, ink=Ink(stroke=INK, width=EDGE))
    colour = desk.look(booklet.binding.fabric, None).colour
    rim = Rect(x=0, y=0, w=w, h=h, ink=Ink(stroke=colour, width=2.5))
    return Group(parts=(rim, Rect(x=-1.25, y=-1.25, w=w + 2.5, h=h + 2.5, ink=Ink(stroke=INK, width=SEAM))))


def _lines(desk: Desk) -> Sketch:
    """Draw only the seams, for trying out colours with pencils."""
    booklet = desk.booklet
    scale = _scale(booklet)
    ink = Ink(fill=PAPER, stroke=INK, width=0.5, rounded=True)
    parts: list[Shape] = []
    for border in booklet.borders:
        for name, spots in border_sides(booklet, border, scale).items():
            inside = [outline for _, outline in strip_patches(desk, border, name, spots)]
            parts += [Polygon(points=tuple(each), ink=ink) for each in inside or (spots,)]
    stamps = Stamps(desk, scale)
    left, top = centre_corner(booklet, scale, within=booklet.finished)
    for place in booklet.places:
        dx, dy = stamps.spot(place)
        shapes = tuple(Path(steps=steps, ink=ink) for _, steps in stamps.stamp(place).fills)
        parts.append(Group(parts=shapes, dx=left + dx, dy=top + dy, tag=f"place {place.unit}"))
    w, h = booklet.finished.w.to_float() * scale, booklet.finished.h.to_float() * scale
    parts.append(Rect(x=0, y=0, w=w, h=h, ink=Ink(stroke=INK, width=EDGE)))
    title = say("figure.quilt.lines", **desk.names)
    return Sketch(id="lines", kind="lines", title=title, scene=lay_out([Panel(parts=tuple(parts))], width=PAGE))
