"""The joined centre: the order in which rows are joined."""

from __future__ import annotations

import math
from typing import Final

from seamleaf.booklet.record import Place, Seam
from seamleaf.drawing.arrows import LENGTH, across, press_arrow
from seamleaf.drawing.chart import chart_scales, number_blocks, place_outline, position_number, row_starts, small_number
from seamleaf.drawing.colours import INK, PALE, PAPER
from seamleaf.drawing.drafting import (
    EDGE,
    PAGE,
    SMALLEST,
    Panel,
    label_lines,
    lay_out,
    scaled,
)
from seamleaf.drawing.figure import Desk, Sketch
from seamleaf.drawing.labels import Line as TextLine
from seamleaf.drawing.labels import Room, fit_first, set_lines
from seamleaf.drawing.pens import extent_of
from seamleaf.drawing.pins import pin_mark
from seamleaf.drawing.regions import spots_of
from seamleaf.drawing.scene import Group, Ink, Line, Shape, Spot, Text
from seamleaf.drawing.stamps import Stamps
from seamleaf.drawing.wording import count_word, say

_LAST: Final = "#d2d2d8"
_AWAY: Final = 12.0


def centre_sketch(desk: Desk) -> Sketch:
    """Return ``centre``: rows shaded by turns, their numbers at their starts, press arrows between them."""
    booklet = desk.booklet
    for scale in chart_scales(desk):
        stamps = Stamps(desk, scale)
        room = Room()
        spots = scaled(((pin.x.to_float(), pin.y.to_float()) for pin in booklet.pressing.pins), scale)
        pins = [pin_mark(spot) for spot in spots]
        for pin in pins:
            room.take(extent_of((pin,)))
        way, numbers = number_blocks(desk, stamps, (small_number, position_number), room)
        if way is small_number:
            break
    texts: list[Shape] = [*numbers]
    for place in booklet.places:
        if place.kind == "corner":
            texts += _write_last(desk, place, stamps, room)
    shapes = [place_outline(place, stamps, _shade(place)) for place in booklet.places]
    seams = [seam for seam in booklet.seams if seam.of == "rows"]
    half = f"rows.{booklet.set.half}"
    lines: list[Shape] = []
    for seam in seams:
        a, b = scaled(spots_of(seam.line), scale)
        width = EDGE * 2.5 if seam.id == half else EDGE
        lines.append(Line(start=a, end=b, ink=Ink(stroke=INK, width=width, rounded=True)))
    arrows = [_row_arrow(desk, seam, scale, room) for seam in seams]
    starts = row_starts(desk, stamps, scale)
    if any(row.beside for row in booklet.rows):
        title = say("figure.centre.beside")
    else:
        what = "figure.centre.columns" if booklet.set.run == "down" else "figure.centre.rows"
        title = say(what, n=len(booklet.rows), count=count_word(len(booklet.rows)))
    if booklet.set.half is not None:
        title += say("figure.centre.halves")
    title += say("figure.centre.corners") if booklet.set.corner_triangles else "."
    if pins:
        title += f" {say('figure.pin')}"
    panel = Panel(parts=(*shapes, *lines, *pins, *arrows, *texts, *starts))
    return Sketch(id="centre", kind="centre", title=title, scene=lay_out([panel], width=PAGE))


def _shade(place: Place) -> str:
    if place.row is None:
        return _LAST
    return PAPER if place.row % 2 else PALE


def _write_last(desk: Desk, place: Place, stamps: Stamps, room: Room) -> list[Text]:
    """Write on a corner triangle its label, and that it is sewn last, as far as there is room."""
    label = label_lines(desk.pieces(place.unit)[0].label)
    last = (*label, TextLine(text=say("figure.centre.last"), size=SMALLEST, bold=False))
    placed = fit_first(stamps.outline(place), [last, label], room)
    if placed is None:
        return []
    room.take(placed.extent)
    return set_lines(placed, INK)


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
