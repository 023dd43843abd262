"""Row figures: each row laid level with its triangles, numbers and press arrows; and the joined centre."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Final

from seamleaf.booklet.record import Place, Row, Seam
from seamleaf.drawing.arrows import LENGTH, across, press_arrow, turn_mark
from seamleaf.drawing.colours import INK, PALE, PAPER, SOFT, mix
from seamleaf.drawing.drafting import EDGE, LABEL, PAGE, SEAM, SMALLEST, Panel, circled, lay_out
from seamleaf.drawing.figure import Desk, Sketch
from seamleaf.drawing.labels import Line as TextLine
from seamleaf.drawing.labels import Room, fit, set_lines
from seamleaf.drawing.metrics import text_width
from seamleaf.drawing.pens import extent_of
from seamleaf.drawing.regions import spots_of
from seamleaf.drawing.scene import Circle, Group, Ink, Path, Polygon, Shape, Spot, Text
from seamleaf.drawing.stamps import Stamps, colour_at
from seamleaf.drawing.wording import count_word

_MAP: Final = 92.0
_ROW: Final = 340.0
_MOST: Final = 6
"""Blocks and triangles in one line of a row figure; longer rows go on in further lines."""
_BLOCK: Final = 72.0
_GAP: Final = 16.0
_CHART: Final = 430.0
_SHOWN: Final = "#4a4a55"


def row_sketches(desk: Desk) -> list[Sketch]:
    """Return ``row-1`` and so on, then ``centre``."""
    if not desk.booklet.rows:
        return []
    return [*(_row_sketch(desk, row) for row in desk.booklet.rows), _centre_sketch(desk)]


def _row_sketch(desk: Desk, row: Row) -> Sketch:
    places = [desk.booklet.places[index] for index in row.items]
    blocks = [place for place in places if place.kind == "block" and place.number]
    panels = [
        Panel(parts=tuple(_map(desk, row.row)), tag="map"),
        Panel(parts=tuple(_lines(desk, row, places)), tag=f"row {row.row}"),
    ]
    turned = [place.number for place in blocks if place.number and place.pressing_turn % 360]
    title = f"Sew row {row.row} from left to right: {_contents(places)}. {_row_pressing(row)}"
    if turned:
        title += f" Turn {', '.join(turned)} by a quarter first."
    return Sketch(
        id=f"row-{row.row}",
        kind="row",
        title=title,
        scene=lay_out(panels, width=PAGE, least=0),
        about={"row": str(row.row)},
    )


def _contents(places: Sequence[Place]) -> str:
    """Return what a row holds, a run of blocks as one clause."""
    clauses: list[str] = []
    run: list[str] = []
    for place in (*places, None):
        if place is not None and place.kind == "block" and place.number:
            run.append(place.number)
            continue
        if run:
            clauses.append(f"block {run[0]}" if len(run) == 1 else f"blocks {run[0]} to {run[-1]}")
            run = []
        if place is not None:
            clauses.append(f"side triangle {place.unit}" if place.kind == "side" else place.unit)
    return ", ".join(clauses)


def _row_pressing(row: Row) -> str:
    told = {"before": "toward the start of the row", "after": "toward the end of the row", "open": "open"}
    kinds = list(dict.fromkeys(row.press))
    if not kinds:
        return ""
    if len(kinds) == 1:
        return f"Press {'the seam' if len(row.press) == 1 else 'all seams'} {told.get(kinds[0], 'open')}."
    return "Press each seam as its arrow shows."


def _lines(desk: Desk, row: Row, places: Sequence[Place]) -> list[Shape]:
    """Draw the items of a row level, a gap and an arrow at each seam, broken into lines when there are many."""
    count = len(places)
    lines = math.ceil(count / _MOST)
    per_line = math.ceil(count / lines)
    widest = max(max(u.finished.w, u.finished.h) for u in (desk.units[p.unit] for p in places)).to_float()
    side = min(_BLOCK, (_ROW - per_line * _GAP) / per_line)
    stamps = Stamps(desk, side / widest, turned=desk.booklet.set.kind == "on-point")
    base = stamps.spot(places[count // 2])[1]
    shapes: list[Shape] = []
    y = x = 0.0
    for i, place in enumerate(places):
        if i and i % per_line == 0:
            y += side + 30
            x = 0.0
        stamp = stamps.stamp(place)
        left = min(px for px, _ in stamp.outline)
        right = max(px for px, _ in stamp.outline)
        spot = (x - left, y + stamps.spot(place)[1] - base)
        shapes.append(
            Group(parts=tuple(draw_place(desk, place, stamps)), dx=spot[0], dy=spot[1], tag=f"place {place.unit}")
        )
        if place.number:
            shapes += _number_above(place, spot[0], y - side / 2 - 5)
        x += right - left
        if i < len(row.press):
            shapes.append(press_arrow((x + _GAP / 2, y), (1.0, 0.0), row.press[i], length=_GAP - 1))
        x += _GAP
    return shapes


def _number_above(place: Place, x: float, y: float) -> list[Shape]:
    number = place.number or ""
    shapes: list[Shape] = [Text(x=x, y=y, text=number, size=LABEL, bold=True, colour=INK)]
    if place.pressing_turn % 360:
        shapes.append(turn_mark((x + text_width(number, LABEL, bold=True) / 2 + 9, y - 2)))
    return shapes


def draw_place(desk: Desk, place: Place, stamps: Stamps, *, line: float = 0.5) -> list[Shape]:
    """Draw what lies at a place, about its own centre: one path a fabric, then its outline."""
    stamp = stamps.stamp(place)
    shapes: list[Shape] = []
    for use, steps in stamp.fills:
        colour = colour_at(desk, use, place)
        edge = mix(colour, desk.look(*use).ink, 45)
        shapes.append(Path(steps=steps, ink=Ink(fill=colour, stroke=edge, width=line, rounded=True)))
    shapes.append(Polygon(points=stamp.outline, ink=Ink(stroke=INK, width=SEAM, rounded=True)))
    return shapes


def _map(desk: Desk, shown: int) -> list[Shape]:
    """Draw the centre small, upright, with one row standing out."""
    centre = desk.booklet.set.centre
    scale = _MAP / max(centre.w.to_float(), centre.h.to_float())
    stamps = Stamps(desk, scale)
    shapes: list[Shape] = []
    for place in desk.booklet.places:
        fill = _SHOWN if place.row == shown else PALE
        dx, dy = stamps.spot(place)
        ink = Ink(fill=fill, stroke=PAPER, width=0.6, rounded=True)
        shapes.append(Group(parts=(Polygon(points=stamps.stamp(place).outline, ink=ink),), dx=dx, dy=dy))
    return shapes


def _centre_sketch(desk: Desk) -> Sketch:
    """Draw the joined centre: rows shaded by turns, their numbers at their starts, arrows between them."""
    booklet = desk.booklet
    centre = booklet.set.centre
    scale = _CHART / max(centre.w.to_float(), centre.h.to_float())
    stamps = Stamps(desk, scale)
    room = Room()
    shapes: list[Shape] = []
    for place in booklet.places:
        fill = {0: PALE, 1: PAPER}[(place.row or 0) % 2] if place.row is not None else "#d2d2d8"
        shapes.append(_chart_place(place, stamps, fill))
    texts: list[Shape] = []
    for place in booklet.places:
        text = place.number or ("last" if place.kind == "corner" else "")
        texts += (
            chart_text(place, stamps, [(TextLine(text=text, size=SMALLEST, bold=bool(place.number)),)], room)
            if text
            else []
        )
    arrows = [_row_arrow(desk, seam, scale) for seam in booklet.seams if seam.of == "rows"]
    starts = [circled(row.row, _row_start(desk, row, stamps), filled=True) for row in booklet.rows]
    pins: list[Shape] = [
        Circle(
            centre=(pin.x.to_float() * scale, pin.y.to_float() * scale),
            radius=3,
            ink=Ink(fill=PAPER, stroke=INK, width=EDGE),
        )
        for pin in booklet.pressing.pins
    ]
    title = f"Join the {count_word(len(booklet.rows))} rows in the order of their numbers"
    title += ", then add the corner triangles last." if booklet.set.corner_triangles else "."
    panel = Panel(parts=(*shapes, *pins, *arrows, *texts, *starts))
    return Sketch(id="centre", kind="centre", title=title, scene=lay_out([panel], width=PAGE))


def _chart_place(place: Place, stamps: Stamps, fill: str) -> Group:
    dx, dy = stamps.spot(place)
    ink = Ink(fill=fill, stroke=SOFT, width=SEAM, rounded=True)
    return Group(parts=(Polygon(points=stamps.stamp(place).outline, ink=ink),), dx=dx, dy=dy, tag=f"place {place.unit}")


def chart_text(place: Place, stamps: Stamps, options: Sequence[tuple[TextLine, ...]], room: Room) -> list[Text]:
    """Write the first text that fits into the outline of a place."""
    dx, dy = stamps.spot(place)
    spots = tuple((x + dx, y + dy) for x, y in stamps.stamp(place).outline)
    placed = next((p for p in (fit(spots, lines, room) for lines in options) if p is not None), None)
    if placed is None:
        return []
    room.take(placed.extent)
    return set_lines(placed, INK)


def _row_start(desk: Desk, row: Row, stamps: Stamps) -> Spot:
    """Return where a row's number goes: beyond its first item, where the row begins."""
    first = desk.booklet.places[row.items[0]]
    dx, dy = stamps.spot(first)
    left, _, _, bottom = extent_of((Polygon(points=stamps.stamp(first).outline, ink=Ink()),))
    if desk.booklet.set.kind != "on-point":
        return (dx + left - 12, dy)
    centre = desk.booklet.set.centre
    h = centre.h.to_float() * (_CHART / max(centre.w.to_float(), centre.h.to_float()))
    at_left = dx + left <= 1
    return (-12.0, dy) if at_left else (dx, h + 12) if dy + bottom >= h - 1 else (dx + left - 8, dy + bottom + 8)


def _row_arrow(desk: Desk, seam: Seam, scale: float) -> Group:
    line = spots_of(seam.line)
    (x1, y1), (x2, y2) = line
    middle = ((x1 + x2) / 2 * scale, (y1 + y2) / 2 * scale)
    toward = across((line[0], line[1]))
    if _row_number(seam.first) > _row_number(seam.second):
        toward = (-toward[0], -toward[1])
    block = desk.booklet.set.block.w.to_float() * scale
    return press_arrow(middle, toward, seam.press, length=max(10.0, min(LENGTH, block * 0.4)))


def _row_number(text: str) -> int:
    digits = "".join(char for char in text if char.isdigit())
    return int(digits) if digits and text.startswith("row") else 0
