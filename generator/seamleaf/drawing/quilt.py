"""The whole quilt: in colour, as lines to colour in, as a chart with block numbers; and each border as it is sewn."""

from __future__ import annotations

from typing import Final

from seamleaf.booklet.record import Booklet, BorderNote, Place
from seamleaf.drawing.arrows import press_arrow
from seamleaf.drawing.colours import INK, PALE, PAPER, SOFT, mix
from seamleaf.drawing.drafting import (
    EDGE,
    LABEL,
    NUMBER_RADIUS,
    PAGE,
    SEAM,
    SMALLEST,
    Panel,
    circled,
    draw_patch,
    lay_out,
)
from seamleaf.drawing.figure import Desk, Sketch
from seamleaf.drawing.labels import Line as TextLine
from seamleaf.drawing.labels import Room
from seamleaf.drawing.measures import box_text, size_text
from seamleaf.drawing.rows import chart_text, draw_place
from seamleaf.drawing.scene import Group, Ink, Path, Polygon, Rect, Shape, Spot
from seamleaf.drawing.stamps import Stamps
from seamleaf.drawing.wording import count_word

_WIDE: Final = 360.0
_TALL: Final = 440.0
_CHART: Final = 440.0
Sides = dict[str, tuple[Spot, ...]]


def quilt_sketches(desk: Desk) -> list[Sketch]:
    """Return ``quilt``, ``lines`` and ``layout``."""
    return [_quilt(desk), _lines(desk), _layout(desk)]


def border_sketches(desk: Desk) -> list[Sketch]:
    """Return ``border-1`` and so on."""
    return [_border(desk, border) for border in desk.booklet.borders]


def _scale(booklet: Booklet) -> float:
    return min(_WIDE / booklet.finished.w.to_float(), _TALL / booklet.finished.h.to_float())


def _centre_corner(booklet: Booklet, scale: float) -> Spot:
    """Return the top left corner of the joined centre on a page that begins at the quilt's own corner."""
    centre = booklet.set.centre
    return (
        (booklet.finished.w - centre.w).to_float() / 2 * scale,
        (booklet.finished.h - centre.h).to_float() / 2 * scale,
    )


def _quilt(desk: Desk) -> Sketch:
    booklet = desk.booklet
    scale = _scale(booklet)
    parts = _borders_flat(desk, scale)
    stamps = Stamps(desk, scale)
    left, top = _centre_corner(booklet, scale)
    for place in booklet.places:
        dx, dy = stamps.spot(place)
        shapes = draw_place(desk, place, stamps, line=0.25)[:-1]
        parts.append(Group(parts=tuple(shapes), dx=left + dx, dy=top + dy, tag=f"place {place.unit}"))
    parts.append(_binding_edge(desk, scale))
    size = box_text(booklet, booklet.finished.w, booklet.finished.h)
    title = (
        f"Make {booklet.pattern.title} in size {booklet.size.title}, {size}: {count_word(booklet.set.blocks)} blocks"
    )
    title += f" and {count_word(len(booklet.borders))} border{'s' if len(booklet.borders) != 1 else ''}."
    return Sketch(id="quilt", kind="quilt", title=title, scene=lay_out([Panel(parts=tuple(parts))], width=PAGE))


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
        parts += [Polygon(points=spots, ink=ink) for spots in _sides(booklet, border, scale).values()]
    stamps = Stamps(desk, scale)
    left, top = _centre_corner(booklet, scale)
    for place in booklet.places:
        dx, dy = stamps.spot(place)
        shapes = tuple(Path(steps=steps, ink=ink) for _, steps in stamps.stamp(place).fills)
        parts.append(Group(parts=shapes, dx=left + dx, dy=top + dy, tag=f"place {place.unit}"))
    w, h = booklet.finished.w.to_float() * scale, booklet.finished.h.to_float() * scale
    parts.append(Rect(x=0, y=0, w=w, h=h, ink=Ink(stroke=INK, width=EDGE)))
    title = f"Colour in {booklet.pattern.title}, size {booklet.size.title}, to try fabrics out."
    return Sketch(id="lines", kind="lines", title=title, scene=lay_out([Panel(parts=tuple(parts))], width=PAGE))


def _layout(desk: Desk) -> Sketch:
    """Draw a chart of the centre with each block's number and the bundle pieces that it takes."""
    booklet = desk.booklet
    centre = booklet.set.centre
    scale = _CHART / max(centre.w.to_float(), centre.h.to_float())
    stamps = Stamps(desk, scale)
    room = Room()
    parts: list[Shape] = []
    texts: list[Shape] = []
    for place in booklet.places:
        dx, dy = stamps.spot(place)
        ink = Ink(fill=PAPER if place.kind == "block" else PALE, stroke=SOFT, width=SEAM, rounded=True)
        parts.append(Group(parts=(Polygon(points=stamps.stamp(place).outline, ink=ink),), dx=dx, dy=dy))
        if place.number:
            texts += chart_text(place, stamps, _chart_lines(place), room)
    title = f"Lay out the {count_word(booklet.set.blocks)} blocks by their numbers, row and place in the row"
    title += (
        "; below each number stand the prints that the block takes." if any(p.prints for p in booklet.places) else "."
    )
    panel = Panel(parts=(*parts, *texts))
    return Sketch(id="layout", kind="layout", title=title, scene=lay_out([panel], width=PAGE))


def _chart_lines(place: Place) -> list[tuple[TextLine, ...]]:
    number = TextLine(text=place.number or "", size=LABEL, bold=True)
    prints = TextLine(text=" + ".join(str(n) for n in place.prints), size=SMALLEST, bold=False)
    small = TextLine(text=place.number or "", size=SMALLEST, bold=True)
    return [(number, prints), (number,), (small,)] if place.prints else [(number,), (small,)]


# ----------------------------------------------------------------------------------------------- borders


def _sides(booklet: Booklet, border: BorderNote, scale: float) -> Sides:
    """Return the finished outlines of a border's strips, in sewing order, and of its cornerstones."""
    quilt_w, quilt_h = booklet.finished.w.to_float(), booklet.finished.h.to_float()
    before_w, before_h = border.before.w.to_float(), border.before.h.to_float()
    b = border.width.to_float()
    left, top = (quilt_w - before_w) / 2, (quilt_h - before_h) / 2
    right, bottom = left + before_w, top + before_h
    xs, ys = (left - b, left, right, right + b), (top - b, top, bottom, bottom + b)
    edges = [strip.edge for strip in border.strips]
    sides_first = bool(edges) and edges[0] in ("left", "right")
    # What a strip reaches at its two ends: the inner corner, or the outer one where it is sewn over the others' ends.
    tall = (1, 2) if border.corner == "cornerstone" or sides_first else (0, 3)
    wide = (1, 2) if border.corner == "cornerstone" or not sides_first else (0, 3)
    corner = border.corner == "mitred"
    spots: dict[str, list[tuple[int, int]]] = {}
    for edge in edges:
        if edge in ("left", "right"):
            outer, inner = (0, 1) if edge == "left" else (3, 2)
            spots[edge] = (
                [(outer, 0), (inner, 1), (inner, 2), (outer, 3)]
                if corner
                else [(outer, tall[0]), (inner, tall[0]), (inner, tall[1]), (outer, tall[1])]
            )
        else:
            outer, inner = (0, 1) if edge == "top" else (3, 2)
            spots[edge] = (
                [(0, outer), (3, outer), (2, inner), (1, inner)]
                if corner
                else [(wide[0], outer), (wide[1], outer), (wide[1], inner), (wide[0], inner)]
            )
    if border.corner == "cornerstone":
        for i, j in ((0, 0), (2, 0), (2, 2), (0, 2)):
            spots[f"corner {i}{j}"] = [(i, j), (i + 1, j), (i + 1, j + 1), (i, j + 1)]
    return {name: tuple((xs[i] * scale, ys[j] * scale) for i, j in corners) for name, corners in spots.items()}


def _borders_flat(desk: Desk, scale: float) -> list[Shape]:
    parts: list[Shape] = []
    for border in desk.booklet.borders:
        for name, spots in _sides(desk.booklet, border, scale).items():
            colour = _strip_look(desk, border, name)
            edge = Ink(fill=colour, stroke=mix(colour, INK, 25), width=0.25, rounded=True)
            parts.append(Group(parts=(Polygon(points=spots, ink=edge),), tag=f"border {border.order}"))
    return parts


def _strip_look(desk: Desk, border: BorderNote, name: str) -> str:
    if name.startswith("corner") and border.corners is not None:
        return desk.look_of(border.corners).colour
    return desk.look(border.fabric, None).colour


def _border(desk: Desk, border: BorderNote) -> Sketch:
    """Draw the quilt so far in grey, this border in its fabric, its strips numbered in sewing order."""
    booklet = desk.booklet
    scale = _scale(booklet)
    parts: list[Shape] = []
    for earlier in booklet.borders[: border.order - 1]:
        ink = Ink(fill=PALE, stroke=SOFT, width=SEAM, rounded=True)
        parts += [Polygon(points=spots, ink=ink) for spots in _sides(booklet, earlier, scale).values()]
    stamps = Stamps(desk, scale)
    left, top = _centre_corner(booklet, scale)
    ink = Ink(fill=PALE, stroke="#c4c4cb", width=SEAM, rounded=True)
    for place in booklet.places:
        dx, dy = stamps.spot(place)
        parts.append(Group(parts=(Polygon(points=stamps.stamp(place).outline, ink=ink),), dx=left + dx, dy=top + dy))
    look = desk.look(border.fabric, None)
    sides = _sides(booklet, border, scale)
    for name, spots in sides.items():
        cornerstone = name.startswith("corner") and border.corners is not None
        shown = desk.look_of(border.corners) if cornerstone and border.corners is not None else look
        parts.append(draw_patch(spots, shown, tag=f"strip {name}"))
    for spots in sides.values():
        parts.append(Polygon(points=spots, ink=Ink(stroke=INK, width=EDGE, rounded=True)))
    arrows, numbers = _border_marks(desk, border, sides)
    told = [
        f"{i} {strip.edge} {border.label} {box_text(booklet, strip.w, strip.length, unit=False)}"
        for i, strip in enumerate(border.strips, start=1)
    ]
    order = ", ".join(strip.edge for strip in border.strips)
    title = (
        f"Sew border {border.order} of fabric {desk.fabrics[border.fabric].letter} on in this order: {order}. "
        f"Finished width {size_text(booklet, border.width)} {booklet.unit}."
    )
    caption = f"{border.label}: {size_text(booklet, border.width)} {booklet.unit} finished"
    panel = Panel(parts=(*parts, *arrows, *numbers), caption=caption)
    return Sketch(
        id=f"border-{border.order}",
        kind="border",
        title=title,
        desc=f"Expected cut sizes: {'; '.join(told)}.",
        scene=lay_out([panel], width=PAGE),
        about={"border": str(border.order), "fabric": border.fabric},
    )


def _border_marks(desk: Desk, border: BorderNote, sides: Sides) -> tuple[list[Shape], list[Shape]]:
    """Return the press arrows, each across its seam, and the numbers just outside the strips."""
    seams = {
        axis: [s for s in desk.booklet.seams if s.of == f"border {border.order}" and s.axis == axis] for axis in "xy"
    }
    arrows: list[Shape] = []
    numbers: list[Shape] = []
    for i, strip in enumerate(border.strips, start=1):
        spots = sides[strip.edge]
        xs, ys = [x for x, _ in spots], [y for _, y in spots]
        left, right, top, bottom = min(xs), max(xs), min(ys), max(ys)
        away = NUMBER_RADIUS + 4
        upright = strip.edge in ("left", "right")
        along = seams["x" if upright else "y"]
        seam = along.pop(0) if along else None
        if upright:
            at = left - away if strip.edge == "left" else right + away
            numbers.append(circled(i, (at, (top + bottom) / 2), filled=True))
            arrow_at = (right if strip.edge == "left" else left, top + (bottom - top) * 0.3)
        else:
            at = top - away if strip.edge == "top" else bottom + away
            numbers.append(circled(i, ((left + right) / 2, at), filled=True))
            arrow_at = (left + (right - left) * 0.3, bottom if strip.edge == "top" else top)
        if seam is not None:
            arrows.append(press_arrow(arrow_at, (1.0, 0.0) if upright else (0.0, 1.0), seam.press))
    return arrows, numbers
