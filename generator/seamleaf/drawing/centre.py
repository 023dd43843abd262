"""The joined centre: the order in which rows are joined, and the chart that blocks are laid out by."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Final

from seamleaf.booklet.record import Place, Row, Seam
from seamleaf.drawing.arrows import LENGTH, across, press_arrow
from seamleaf.drawing.colours import INK, PALE, PAPER, SOFT
from seamleaf.drawing.drafting import EDGE, LABEL, PAGE, SEAM, SMALLEST, Panel, circled, label_lines, lay_out, scaled
from seamleaf.drawing.figure import Desk, Sketch
from seamleaf.drawing.labels import Line as TextLine
from seamleaf.drawing.labels import Lines, Room, fit_first, set_lines
from seamleaf.drawing.pens import extent_of
from seamleaf.drawing.regions import spots_of
from seamleaf.drawing.scene import Circle, Group, Ink, Line, Polygon, Shape, Spot, Text
from seamleaf.drawing.stamps import Stamps
from seamleaf.drawing.wording import count_word

_CHART: Final = 430.0
_BLOCK: Final = 84.0
"""Largest side of a block on a chart."""
_LAST: Final = "#d2d2d8"
_AWAY: Final = 12.0


def centre_sketch(desk: Desk) -> Sketch:
    """Return ``centre``: rows shaded by turns, their numbers at their starts, press arrows between them."""
    booklet = desk.booklet
    scale = _scale(desk)
    stamps = Stamps(desk, scale)
    room = Room()
    texts: list[Shape] = []
    for place in booklet.places:
        texts += _write(place, stamps, _centre_lines(desk, place), room)
    shapes = [_outline(place, stamps, _shade(place)) for place in booklet.places]
    seams = [seam for seam in booklet.seams if seam.of == "rows"]
    ink = Ink(stroke=INK, width=EDGE, rounded=True)
    lines = [Line(start=a, end=b, ink=ink) for a, b in (scaled(spots_of(seam.line), scale) for seam in seams)]
    arrows = [_row_arrow(desk, seam, scale, room) for seam in seams]
    starts = [circled(row.row, _row_start(desk, row, stamps, scale), filled=True) for row in booklet.rows]
    dot = Ink(fill=PAPER, stroke=INK, width=EDGE)
    spots = scaled(((pin.x.to_float(), pin.y.to_float()) for pin in booklet.pressing.pins), scale)
    pins = [Circle(centre=spot, radius=3, ink=dot) for spot in spots]
    title = f"Join the {count_word(len(booklet.rows))} rows in the order of their numbers"
    title += ", then add the corner triangles last." if booklet.set.corner_triangles else "."
    if pins:
        title += " Pin at the ringed points, where seam allowances do not nest."
    panel = Panel(parts=(*shapes, *lines, *pins, *arrows, *texts, *starts))
    return Sketch(id="centre", kind="centre", title=title, scene=lay_out([panel], width=PAGE))


def layout_sketch(desk: Desk) -> Sketch:
    """Return ``layout``: each block's number, and below it the bundle pieces that it takes."""
    booklet = desk.booklet
    stamps = Stamps(desk, _scale(desk))
    room = Room()
    shapes = [_outline(place, stamps, PAPER if place.kind == "block" else PALE) for place in booklet.places]
    texts: list[Shape] = []
    for place in booklet.places:
        if place.number:
            texts += _write(place, stamps, _layout_lines(place), room)
    title = f"Lay out the {count_word(booklet.set.blocks)} blocks by their numbers, row and place in the row"
    printed = any(place.prints for place in booklet.places)
    title += "; below each number stand the prints that the block takes." if printed else "."
    return Sketch(
        id="layout", kind="layout", title=title, scene=lay_out([Panel(parts=(*shapes, *texts))], width=PAGE)
    )  # fmt: skip


def _scale(desk: Desk) -> float:
    centre, block = desk.booklet.set.centre, desk.booklet.set.block
    return min(_CHART / max(centre.w, centre.h).to_float(), _BLOCK / max(block.w, block.h).to_float())


def _shade(place: Place) -> str:
    if place.row is None:
        return _LAST
    return PAPER if place.row % 2 else PALE


def _outline(place: Place, stamps: Stamps, fill: str) -> Group:
    dx, dy = stamps.spot(place)
    ink = Ink(fill=fill, stroke=SOFT, width=SEAM, rounded=True)
    return Group(parts=(Polygon(points=stamps.stamp(place).outline, ink=ink),), dx=dx, dy=dy, tag=f"place {place.unit}")


def _write(place: Place, stamps: Stamps, options: Sequence[Lines], room: Room) -> list[Text]:
    """Write the first text that fits into the outline of a place."""
    placed = fit_first(stamps.outline(place), options, room)
    if placed is None:
        return []
    room.take(placed.extent)
    return set_lines(placed, INK)


def _centre_lines(desk: Desk, place: Place) -> list[Lines]:
    if place.number:
        return [(TextLine(text=place.number, size=SMALLEST, bold=True),)]
    if place.kind == "corner":
        label = desk.pieces(place.unit)[0].label
        return [(*label_lines(label), TextLine(text="last", size=SMALLEST, bold=False)), label_lines(label)]
    return []


def _layout_lines(place: Place) -> list[Lines]:
    number, small = (TextLine(text=place.number or "", size=size, bold=True) for size in (LABEL, SMALLEST))
    prints = TextLine(text=" + ".join(str(n) for n in place.prints), size=SMALLEST, bold=False)
    return [*([(number, prints)] if place.prints else []), (number,), (small,)]


def _row_start(desk: Desk, row: Row, stamps: Stamps, scale: float) -> Spot:
    """Return where a row's number goes: outside the centre, where the row begins."""
    first = desk.booklet.places[row.items[0]]
    left, top, right, bottom = extent_of((Polygon(points=stamps.outline(first), ink=Ink()),))
    if desk.booklet.set.kind == "straight" or left < 1:
        return (-_AWAY, (top + bottom) / 2)
    return ((left + right) / 2, desk.booklet.set.centre.h.to_float() * scale + _AWAY)


def _row_arrow(desk: Desk, seam: Seam, scale: float, room: Room) -> Group:
    """Draw the arrow of a seam between rows, or of a corner: near its middle, clear of the numbers."""
    (x1, y1), (x2, y2) = scaled(spots_of(seam.line), scale)
    block = desk.booklet.set.block.w.to_float() * scale
    length = max(10.0, min(LENGTH, block * 0.4))
    size = math.hypot(x2 - x1, y2 - y1)
    arrow: Group | None = None
    for step in (0, 1, -1, 2, -2, 3, -3):
        t = 0.5 + step * block / 4 / size
        if 0 < t < 1:
            middle = (x1 + (x2 - x1) * t, y1 + (y2 - y1) * t)
            arrow = press_arrow(middle, _toward_second(desk, seam, scale), seam.press, length=length)
            if room.is_free(extent_of((arrow,))):
                break
    assert arrow is not None  # noqa: S101 -- the first step is the middle of the seam
    room.take(extent_of((arrow,)))
    return arrow


def _toward_second(desk: Desk, seam: Seam, scale: float) -> Spot:
    """Return the direction across a seam toward its second part: the later row, or outward to a corner."""
    line = scaled(spots_of(seam.line), scale)
    dx, dy = across((line[0], line[1]))
    if seam.first.startswith("row ") and seam.second.startswith("row "):
        forward = int(seam.first.removeprefix("row ")) < int(seam.second.removeprefix("row "))
    else:
        centre = desk.booklet.set.centre
        x, y = ((line[0][k] + line[1][k]) / 2 - (centre.w, centre.h)[k].to_float() * scale / 2 for k in (0, 1))
        forward = (x * dx + y * dy > 0) == (seam.second in desk.units)
    return (dx, dy) if forward else (-dx, -dy)
