"""The charts that blocks are laid out by: as the quilt hangs, and on point with the sewing rows level as well."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from functools import partial
from typing import Final

from seamleaf.booklet.record import Place
from seamleaf.drawing.colours import INK, PALE, PAPER, SOFT
from seamleaf.drawing.drafting import LABEL, NUMBER_RADIUS, PAGE, SEAM, SMALLEST, Panel, circled, lay_out
from seamleaf.drawing.figure import Desk, Sketch
from seamleaf.drawing.labels import Line, Lines, Room, fit, set_lines
from seamleaf.drawing.pens import extent_of
from seamleaf.drawing.scene import Group, Ink, Polygon, Shape, Text
from seamleaf.drawing.stamps import Stamps
from seamleaf.drawing.wording import count_word, say

_CHARTS: Final = (300.0, 360.0, 430.0)
"""Longest sides tried for a chart, until all that is to be written on its blocks has room."""
_BLOCK: Final = 84.0
"""Largest side of a block on a chart."""
_AWAY: Final = 12.0
_STEPS: Final = 4
"""How many places a row's number is tried at, one further out than the other."""
_TURNS: Final = {90: "quarter", 180: "half", 270: "three-quarters"}


def layout_sketches(desk: Desk) -> list[Sketch]:
    """Return ``layout``, and on point ``layout-rows``, which is the same with its diagonal rows level."""
    if desk.booklet.set.kind == "straight":
        return [_chart(desk, turned=False)]
    return [_chart(desk, turned=True), _chart(desk, turned=False)]


def _chart(desk: Desk, *, turned: bool) -> Sketch:
    """Draw each block's number with A or B, how far it lies turned, and the bundle pieces that it takes."""
    booklet = desk.booklet
    ways = (partial(_in_full, desk), partial(_large, desk), partial(_small, desk), partial(_position, desk))
    for scale in chart_scales(desk, turned=turned):
        stamps = Stamps(desk, scale, turned=turned)
        way, texts = number_blocks(desk, stamps, ways, Room())
        if way is ways[0]:
            break
    shapes = [place_outline(place, stamps, PAPER if place.kind == "block" else PALE) for place in booklet.places]
    starts = row_starts(desk, stamps, scale, level=turned) if turned or way is ways[-1] else []
    blocks = [place for place in booklet.places if place.number]
    line = "columns" if booklet.set.run == "down" else "level" if turned else "rows"
    told = [say(f"figure.layout.{line}", n=booklet.set.blocks, count=count_word(booklet.set.blocks))]
    if way is ways[0] and any(place.prints for place in blocks):
        told.append(say("figure.layout.prints"))
    if any(_variant(desk, place) for place in blocks):
        told.append(say("figure.layout.variants"))
    if way is ways[0] and any(_turn(desk, place) for place in blocks):
        told.append(say("figure.layout.turned"))
    panel = Panel(parts=(*shapes, *texts, *starts))
    name = "layout-rows" if turned else "layout"
    return Sketch(id=name, kind="layout", title=" ".join(told), scene=lay_out([panel], width=PAGE))


def chart_scales(desk: Desk, *, turned: bool = False) -> list[float]:
    """Return scales to try for a chart, the smallest first; ``turned`` lays the rows of a set on point level."""
    centre, block = desk.booklet.set.centre, desk.booklet.set.block
    sides = centre.w.to_float(), centre.h.to_float()
    longest = sum(sides) * math.sqrt(0.5) if turned else max(sides)
    most = _BLOCK / max(block.w, block.h).to_float()
    return [min(chart / longest, most) for chart in _CHARTS]


def _variant(desk: Desk, place: Place) -> str:
    return desk.units[place.unit].variant or ""


def _turn(desk: Desk, place: Place) -> str:
    """Return how a block lies against the figures of its block; on point those show it as it lies in its row."""
    turn = _TURNS.get((place.turn - (45 if desk.booklet.set.kind == "on-point" else 0)) % 360)
    return say(f"figure.turn.{turn}") if turn else ""


def _in_full(desk: Desk, place: Place) -> Lines:
    prints = " + ".join(str(number) for number in place.prints)
    below = [Line(text=text, size=SMALLEST, bold=False) for text in (_turn(desk, place), prints) if text]
    return (*_large(desk, place), *below)


def _large(desk: Desk, place: Place) -> Lines:
    return (Line(text=f"{place.number or ''} {_variant(desk, place)}".strip(), size=LABEL, bold=True),)


def _small(desk: Desk, place: Place) -> Lines:
    return (Line(text=f"{place.number or ''}{_variant(desk, place)}", size=SMALLEST, bold=True),)


def _position(desk: Desk, place: Place) -> Lines:
    (line,) = position_number(place)
    return (Line(text=f"{line.text}{_variant(desk, place)}", size=SMALLEST, bold=True),)


def small_number(place: Place) -> Lines:
    """Return a block's number, small."""
    return (Line(text=place.number or "", size=SMALLEST, bold=True),)


def position_number(place: Place) -> Lines:
    """Return the place in the row alone; the row's own number then stands at its start."""
    return (Line(text=(place.number or "").rpartition(".")[2], size=SMALLEST, bold=True),)


def place_outline(place: Place, stamps: Stamps, fill: str) -> Group:
    """Draw the outline of what lies at a place, where it lies."""
    dx, dy = stamps.spot(place)
    ink = Ink(fill=fill, stroke=SOFT, width=SEAM, rounded=True)
    return Group(parts=(Polygon(points=stamps.stamp(place).outline, ink=ink),), dx=dx, dy=dy, tag=f"place {place.unit}")


def number_blocks(
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


def row_starts(desk: Desk, stamps: Stamps, scale: float, *, level: bool = False) -> list[Shape]:
    """Write each row's number outside the centre, where the row begins, and clear of the last one.

    Args:
        level: whether the rows lie level on the page, though the set is on point.

    """
    bottom = desk.booklet.set.centre.h.to_float() * scale
    room = Room()
    extents = [extent_of((Polygon(points=stamps.outline(place), ink=Ink()),)) for place in desk.booklet.places]
    for place, extent in zip(desk.booklet.places, extents, strict=True):
        if level and place.row is None:  # a corner triangle lies beside the rows
            room.take(extent)
    starts: list[Shape] = []
    for row in desk.booklet.rows:
        left, upper, right, lower = extents[row.items[0]]
        if desk.booklet.set.run == "down":
            starts.append(_above(row.row, (left + right) / 2, room))
            continue
        across, down = (left + right) / 2, (upper + lower) / 2
        at_left = level or desk.booklet.set.kind == "straight" or left < 1
        if desk.booklet.places[row.items[0]].kind == "sash" and desk.booklet.set.kind == "on-point":
            # Such a row ends between two triangles. Its number goes beyond them, where the row would run on to.
            if level:
                left = min(each[0] for each in extents if each[1] <= down <= each[3])
            else:
                way = min(across, bottom - down)
                across, down = across - way, down + way
                at_left = across < 1
        for away in (_AWAY + step * (2 * NUMBER_RADIUS + 2) for step in range(_STEPS)):
            x, y = ((left if level else 0) - away, down) if at_left else (across, bottom + away)
            box = (x - NUMBER_RADIUS, y - NUMBER_RADIUS, x + NUMBER_RADIUS, y + NUMBER_RADIUS)
            if room.is_free(box):
                break
        room.take(box)
        starts.append(circled(row.row, (x, y), filled=True))
    return starts


def _above(number: int, x: float, room: Room) -> Shape:
    """Write a column's number above the centre, clear of the last one."""
    for y in (-_AWAY, -_AWAY - 2 * NUMBER_RADIUS - 2):
        box = (x - NUMBER_RADIUS, y - NUMBER_RADIUS, x + NUMBER_RADIUS, y + NUMBER_RADIUS)
        if room.is_free(box):
            break
    room.take(box)
    return circled(number, (x, y), filled=True)
