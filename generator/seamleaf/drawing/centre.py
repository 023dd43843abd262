"""The joined centre: the order in which rows are joined, and the chart that blocks are laid out by."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from typing import Final

from seamleaf.booklet.record import Place, Seam
from seamleaf.drawing.arrows import LENGTH, across, press_arrow
from seamleaf.drawing.colours import INK, PALE, PAPER, SOFT
from seamleaf.drawing.drafting import (
    EDGE,
    LABEL,
    NUMBER_RADIUS,
    PAGE,
    SEAM,
    SMALLEST,
    Panel,
    circled,
    label_lines,
    lay_out,
    scaled,
)
from seamleaf.drawing.figure import Desk, Sketch
from seamleaf.drawing.labels import Line as TextLine
from seamleaf.drawing.labels import Lines, Room, fit, fit_first, set_lines
from seamleaf.drawing.pens import extent_of
from seamleaf.drawing.pins import pin_mark
from seamleaf.drawing.regions import spots_of
from seamleaf.drawing.scene import Group, Ink, Line, Polygon, Shape, Spot, Text
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
    spots = scaled(((pin.x.to_float(), pin.y.to_float()) for pin in booklet.pressing.pins), scale)
    pins = [pin_mark(spot) for spot in spots]
    for pin in pins:
        room.take(extent_of((pin,)))
    _, numbers = _number_blocks(desk, stamps, (_small, _position), room)
    texts: list[Shape] = [*numbers]
    for place in booklet.places:
        if place.kind == "corner":
            texts += _write_last(desk, place, stamps, room)
    shapes = [_outline(place, stamps, _shade(place)) for place in booklet.places]
    seams = [seam for seam in booklet.seams if seam.of == "rows"]
    ink = Ink(stroke=INK, width=EDGE, rounded=True)
    lines = [Line(start=a, end=b, ink=ink) for a, b in (scaled(spots_of(seam.line), scale) for seam in seams)]
    arrows = [_row_arrow(desk, seam, scale, room) for seam in seams]
    starts = _row_starts(desk, stamps, scale)
    title = f"Join the {count_word(len(booklet.rows))} rows in the order of their numbers"
    if any(row.beside for row in booklet.rows):
        title = "Join each row of blocks to the sashes beside it and sew on its side triangles, as its figure says. "
        title += "Then join all rows in the order of their numbers"
    title += ", then add the corner triangles last." if booklet.set.corner_triangles else "."
    if pins:
        title += " Pin at the ringed dots, where seam allowances do not nest."
    panel = Panel(parts=(*shapes, *lines, *pins, *arrows, *texts, *starts))
    return Sketch(id="centre", kind="centre", title=title, scene=lay_out([panel], width=PAGE))


def layout_sketch(desk: Desk) -> Sketch:
    """Return ``layout``: each block's number, and below it the bundle pieces that it takes."""
    booklet = desk.booklet
    scale = _scale(desk)
    stamps = Stamps(desk, scale)
    shapes = [_outline(place, stamps, PAPER if place.kind == "block" else PALE) for place in booklet.places]
    way, texts = _number_blocks(desk, stamps, (_with_prints, _large, _small, _position), Room())
    starts = _row_starts(desk, stamps, scale) if way is _position else []
    title = f"Lay out the {count_word(booklet.set.blocks)} blocks by their numbers, row and place in the row"
    printed = way is _with_prints and any(place.prints for place in booklet.places)
    title += "; below each number stand the prints that the block takes." if printed else "."
    panel = Panel(parts=(*shapes, *texts, *starts))
    return Sketch(id="layout", kind="layout", title=title, scene=lay_out([panel], width=PAGE))


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


def _number_blocks(
    desk: Desk, stamps: Stamps, ways: Sequence[Callable[[Place], Lines]], room: Room
) -> tuple[Callable[[Place], Lines], list[Text]]:
    """Write the numbers of all blocks alike: in the first way that fits all, or in the last as far as it goes."""
    blocks = [(place, stamps.outline(place)) for place in desk.booklet.places if place.number]
    for way in ways:
        placed = [fit(spots, way(place), room) for place, spots in blocks]
        if None not in placed:
            break
    texts: list[Text] = []
    for found in placed:
        if found is not None:
            room.take(found.extent)
            texts += set_lines(found, INK)
    return way, texts


def _with_prints(place: Place) -> Lines:
    prints = " + ".join(str(number) for number in place.prints)
    return (*_large(place), TextLine(text=prints, size=SMALLEST, bold=False)) if prints else _large(place)


def _large(place: Place) -> Lines:
    return (TextLine(text=place.number or "", size=LABEL, bold=True),)


def _small(place: Place) -> Lines:
    return (TextLine(text=place.number or "", size=SMALLEST, bold=True),)


def _position(place: Place) -> Lines:
    """Return the place in the row alone; the row's own number then stands at its start."""
    return (TextLine(text=(place.number or "").rpartition(".")[2], size=SMALLEST, bold=True),)


def _write_last(desk: Desk, place: Place, stamps: Stamps, room: Room) -> list[Text]:
    """Write on a corner triangle its label, and that it is sewn last, as far as there is room."""
    label = label_lines(desk.pieces(place.unit)[0].label)
    last = (*label, TextLine(text="last", size=SMALLEST, bold=False))
    placed = fit_first(stamps.outline(place), [last, label], room)
    if placed is None:
        return []
    room.take(placed.extent)
    return set_lines(placed, INK)


def _row_starts(desk: Desk, stamps: Stamps, scale: float) -> list[Shape]:
    """Write each row's number outside the centre, where the row begins, and clear of the last one."""
    bottom = desk.booklet.set.centre.h.to_float() * scale
    room = Room()
    starts: list[Shape] = []
    for row in desk.booklet.rows:
        left, upper, right, lower = extent_of(
            (Polygon(points=stamps.outline(desk.booklet.places[row.items[0]]), ink=Ink()),)
        )
        at_left = desk.booklet.set.kind == "straight" or left < 1
        for away in (_AWAY, _AWAY + 2 * NUMBER_RADIUS + 2):
            x, y = (-away, (upper + lower) / 2) if at_left else ((left + right) / 2, bottom + away)
            box = (x - NUMBER_RADIUS, y - NUMBER_RADIUS, x + NUMBER_RADIUS, y + NUMBER_RADIUS)
            if room.is_free(box):
                break
        room.take(box)
        starts.append(circled(row.row, (x, y), filled=True))
    return starts


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
