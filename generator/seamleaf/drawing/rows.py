"""Row figures: each row laid level, or upright as a column, with triangles, block numbers and press arrows."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from typing import Final

from seamleaf.booklet.record import Place, Row
from seamleaf.drawing.arrows import press_arrow, turn_mark
from seamleaf.drawing.colours import INK, PALE, PAPER
from seamleaf.drawing.drafting import LABEL, PAGE, SEAM, SMALLEST, Panel, label_lines, lay_out
from seamleaf.drawing.figure import Desk, Sketch
from seamleaf.drawing.labels import fit, set_lines
from seamleaf.drawing.metrics import text_width
from seamleaf.drawing.pens import extent_of
from seamleaf.drawing.scene import Group, Ink, Path, Polygon, Shape, Spot, Step, Text, closed
from seamleaf.drawing.stamps import Stamps, draw_place
from seamleaf.drawing.wording import listed, say

_MAP: Final = 92.0
MOST_PLACES: Final = 1000
"""Places of a map beyond which it shows whole rows: every row has a map, and of many places nobody sees the lines."""
_ROW: Final = 340.0
_BLOCK: Final = 72.0
_LEAST_BLOCK: Final = 40.0
"""Side of a block below which a row goes on in a further line."""
_GAP: Final = 16.0
_LINE_GAP: Final = 14.0
_MOST_TALL: Final = 600.0
_COLUMN: Final = 480.0
_STRIP: Final = 240.0
"""Length of a column, and of one that is a single strip."""
_BESIDE: Final = 13.0
_SHOWN: Final = "#4a4a55"
_SEWN: Final = "#b4b4bd"
"""Of the rows before it."""
_EDGE: Final = Ink(stroke=INK, width=SEAM, rounded=True)


def row_sketches(desk: Desk) -> list[Sketch]:
    """Return ``row-1`` and so on, all to one scale, which the row with the least room for its blocks gives.

    A row that is one long sash or strip needs none: there is nothing to sew.
    """
    small = _Map(desk)
    several = [row for row in desk.booklet.rows if len(row.items) > 1]
    block = _side(desk)
    large = min((_breaks(desk, _places(desk, row), _BLOCK)[0] * block for row in several), default=_BLOCK)
    sewn = [row for row in desk.booklet.rows if len(row.items) > 1 or _places(desk, row)[0].kind == "block"]
    return [_row_sketch(desk, row, small, large) for row in sewn]


def _places(desk: Desk, row: Row) -> list[Place]:
    return [desk.booklet.places[index] for index in row.items]


def _side(desk: Desk) -> float:
    return max(desk.booklet.set.block.w, desk.booklet.set.block.h).to_float()


def _row_sketch(desk: Desk, row: Row, small: _Map, large: float) -> Sketch:
    places = _places(desk, row)
    blocks = [place for place in places if place.kind == "block" and place.number]
    panels = [
        Panel(parts=small.draw(row.row), tag="map"),
        Panel(parts=tuple(_lines(desk, row, places, large)), tag=f"row {row.row}"),
    ]
    turned = [place.number for place in blocks if place.number and place.pressing_turn % 360]
    name = "column" if desk.booklet.set.run == "down" else "row"
    way = f"whole-{name}" if len(places) == 1 else "beside" if row.beside else name
    told = [say(f"figure.row.{way}", number=row.row, contents=_contents(desk, places)), _row_pressing(row, name)]
    if turned:
        amount = "half" if any(place.pressing_turn % 360 == 180 for place in blocks) else "quarter"
        told.append(say(f"figure.row.turn.{amount}", n=len(turned), blocks=listed(turned)))
    told += _triangles_later(row, places)
    return Sketch(
        id=f"row-{row.row}",
        kind="row",
        title=" ".join(filter(None, told)),
        scene=lay_out(panels, width=PAGE, least=0),
        about={"row": str(row.row)},
    )


def _contents(desk: Desk, places: Sequence[Place]) -> str:
    """Return what a row holds, a run of blocks as one clause."""
    clauses: list[str] = []
    run: list[str] = []
    for place in (*places, None):
        if place is not None and place.kind == "block" and place.number:
            run.append(place.number)
            continue
        if run:
            clauses.append(say("figure.row.blocks", n=len(run), first=run[0], last=run[-1]))
            run = []
        if place is not None:
            clauses.append(name_of(desk, place))
    return ", ".join(clauses)


def _row_pressing(row: Row, name: str) -> str:
    kinds = list(dict.fromkeys(row.press))
    if not kinds:
        return ""
    if len(kinds) > 1:
        return say("figure.press.arrows")
    way = f"figure.way.{name}-{kinds[0]}" if kinds[0] in ("before", "after") else "figure.way.open"
    return say("figure.press.all", n=len(row.press), way=say(way))


def _triangles_later(row: Row, places: Sequence[Place]) -> list[str]:
    """Tell when side triangles are sewn on that are longer than their row is wide."""
    if row.beside is None:
        return []
    told = []
    for item in row.left_open:
        end = "left" if item == row.items[0] else "right"
        told.append(say(f"figure.row.open-{end}", other=row.row + 1))
    rest = sum(place.kind == "side" for place in places) - len(row.left_open)
    which = "both" if rest != 1 else "other" if row.left_open else "one"
    return [*told, say(f"figure.row.join-{which}", other=row.beside)]


def _breaks(desk: Desk, places: Sequence[Place], large: float) -> tuple[float, list[int]]:
    """Return the scale of a row whose blocks are at most so large, and how many items stand in each of its lines."""
    down = desk.booklet.set.run == "down"
    exact = Stamps(desk, 1, turned=desk.booklet.set.kind == "on-point")
    sizes = [_span(exact.stamp(place).outline, 1 if down else 0) for place in places]
    if down:
        return break_lines(sizes, _side(desk), _STRIP if len(places) == 1 else _COLUMN, _ROW - _BESIDE, large)
    return break_lines(sizes, _side(desk), _ROW, _MOST_TALL, large)


def _lines(desk: Desk, row: Row, places: Sequence[Place], large: float) -> list[Shape]:
    """Draw the items of a row level, a gap and an arrow at each seam, broken into lines when there are many."""
    turned = desk.booklet.set.kind == "on-point"
    scale, lines = _breaks(desk, places, large)
    if desk.booklet.set.run == "down":
        return _columns(desk, row, places, Stamps(desk, scale), lines)
    stamps = Stamps(desk, scale, turned=turned)
    base = stamps.spot(places[len(places) // 2])[1]
    shapes: list[Shape] = []
    index = 0
    top = 0.0
    for count in lines:
        drawn = _line(desk, row, range(index, index + count), places, stamps, base)
        _, upper, _, lower = extent_of(tuple(drawn))
        shapes.append(Group(parts=tuple(drawn), dy=top - upper))
        top += lower - upper + _LINE_GAP
        index += count
    return shapes


def _line(desk: Desk, row: Row, indexes: range, places: Sequence[Place], stamps: Stamps, base: float) -> list[Shape]:
    """Draw some neighbours of a row from left to right; after each, the arrow of the seam to the next."""
    shapes: list[Shape] = []
    x = 0.0
    for i in indexes:
        place = places[i]
        stamp = stamps.stamp(place)
        left, upper, right, _ = extent_of((Polygon(points=stamp.outline, ink=Ink()),))
        dx, dy = x - left, stamps.spot(place)[1] - base
        parts: list[Shape] = [*draw_place(desk, place, stamps), Polygon(points=stamp.outline, ink=_EDGE)]
        parts += _label(desk, place, stamp.outline)
        shapes.append(Group(parts=tuple(parts), dx=dx, dy=dy, tag=f"place {place.unit}"))
        if place.number:
            shapes += _number_above(place, dx + (left + right) / 2, dy + upper - 5)
        x += right - left
        if i < len(row.press):
            shapes.append(press_arrow((x + _GAP / 2, 0), (1.0, 0.0), row.press[i], length=_GAP - 1))
        x += _GAP
    return shapes


def _columns(desk: Desk, row: Row, places: Sequence[Place], stamps: Stamps, columns: Sequence[int]) -> list[Shape]:
    """Draw the items of a column upright, broken into several beside each other when there are many."""
    shapes: list[Shape] = []
    start, across = 0, 0.0
    for count in columns:
        drawn: list[Shape] = []
        y = 0.0
        for i in range(start, start + count):
            place, outline = places[i], stamps.stamp(places[i]).outline
            left, upper, _, lower = extent_of((Polygon(points=outline, ink=Ink()),))
            parts: list[Shape] = [*draw_place(desk, place, stamps), Polygon(points=outline, ink=_EDGE)]
            parts += _label(desk, place, outline)
            drawn.append(Group(parts=tuple(parts), dy=y - upper, tag=f"place {place.unit}"))
            if place.number:
                drawn += _number_above(place, left - _BESIDE, y - upper + LABEL / 3)
            y += lower - upper
            if i < len(row.press):
                drawn.append(press_arrow((0, y + _GAP / 2), (0.0, 1.0), row.press[i], length=_GAP - 1))
            y += _GAP
        low, _, high, _ = extent_of(tuple(drawn))
        shapes.append(Group(parts=tuple(drawn), dx=across - low))
        across += high - low + _LINE_GAP
        start += count
    return shapes


def break_lines(
    sizes: Sequence[float], block: float, room: float, most: float, large: float = _BLOCK
) -> tuple[float, list[int]]:
    """Return the scale, and how many items stand in each line: as few lines as leave blocks large enough to see.

    A line has ``room`` for items of these sizes; all lines together are at most about ``most`` across. A side of
    ``block`` is drawn no larger than ``large``.
    """
    best = (0.0, [len(sizes)])
    for count in range(1, len(sizes) + 1):
        lines = _evenly(sizes, count)
        ends = [sum(lines[:i]) for i in range(len(lines) + 1)]
        fits = [(room - _GAP * (end - start)) / sum(sizes[start:end]) for start, end in pairwise(ends)]
        scale = min(large / block, *fits)
        tall = len(lines) * (scale * block + _LINE_GAP + LABEL + 5)
        if best[0] > 0 and tall > most:
            break
        best = (scale, lines)
        if scale * block >= min(_LEAST_BLOCK, large):
            break
    return best


def _evenly(widths: Sequence[float], count: int) -> list[int]:
    """Break items into lines of about the same width; a line that would stay empty is left out."""
    share = sum(widths) / count
    lines = [0] * count
    done = 0.0
    for width in widths:
        lines[min(int((done + width / 2) / share), count - 1)] += 1
        done += width
    return [items for items in lines if items]


def _span(outline: tuple[Spot, ...], axis: int) -> float:
    places = [spot[axis] for spot in outline]
    return max(places) - min(places)


def _label(desk: Desk, place: Place, spots: tuple[Spot, ...]) -> list[Text]:
    """Write the patch's label on what is a single patch, as a setting triangle or a sash is, or else just above it."""
    pieces = desk.pieces(place.unit)
    if len(pieces) != 1:
        return []
    lines = label_lines(pieces[0].label)
    placed = fit(spots, lines)
    if placed is not None:
        return set_lines(placed, desk.look_of(pieces[0].label).ink)
    if place.number:
        return []
    left, top, right, _ = extent_of((Polygon(points=spots, ink=Ink()),))
    return [Text(x=(left + right) / 2, y=top - 5, text=lines[0].text, size=SMALLEST, colour=INK)]


def name_of(desk: Desk, place: Place) -> str:
    """Return what words call a place: what it is, and its label if it is a single patch, else its unit."""
    pieces = desk.pieces(place.unit)
    name = pieces[0].label if len(pieces) == 1 else place.unit
    kind = "strip" if place.kind == "sash" and desk.booklet.set.run == "down" else place.kind
    return say(f"figure.place.{kind}", name=name)


def _number_above(place: Place, x: float, y: float) -> list[Shape]:
    number = place.number or ""
    shapes: list[Shape] = [Text(x=x, y=y, text=number, size=LABEL, bold=True, colour=INK)]
    if place.pressing_turn % 360:
        shapes.append(turn_mark((x + text_width(number, LABEL, bold=True) / 2 + 9, y - 2)))
    return shapes


def _whole(outlines: list[tuple[int | None, tuple[Spot, ...]]]) -> list[tuple[int | None, tuple[Spot, ...]]]:
    """Join the outlines of very many places to one a row."""
    if len(outlines) <= MOST_PLACES:
        return outlines
    rows: dict[int, list[Spot]] = {}
    for row, outline in outlines:
        if row is not None:
            rows.setdefault(row, []).extend(outline)
    return [
        *((row, around_spots(spots)) for row, spots in rows.items()),
        *(each for each in outlines if each[0] is None),
    ]


def around_spots(spots: Sequence[Spot]) -> tuple[Spot, ...]:
    """Return the corners of the convex outline around spots, by Andrew's monotone chain (1979)."""
    found: list[Spot] = []
    for way in (sorted(set(spots)), sorted(set(spots), reverse=True)):
        half: list[Spot] = []
        for x, y in way:
            while len(half) > 1 and _turn(half[-2], half[-1], (x, y)) <= 0:
                half.pop()
            half.append((x, y))
        found += half[:-1]
    return tuple(found)


def _turn(a: Spot, b: Spot, c: Spot) -> float:
    """Return twice the area of a triangle, above zero where it turns to the right on the page."""
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])


class _Map:
    """The centre small and upright, on which one row stands out from those already sewn, in grey, and the others."""

    def __init__(self, desk: Desk) -> None:
        centre = desk.booklet.set.centre
        stamps = Stamps(desk, _MAP / max(centre.w, centre.h).to_float())
        outlines = [(place.row, stamps.outline(place)) for place in desk.booklet.places]
        self._rows = [(row, closed(outline)) for row, outline in _whole(outlines)]

    def draw(self, shown: int) -> tuple[Shape, ...]:
        """Draw it with one row dark."""
        kinds: dict[str, list[Step]] = {PALE: [], _SEWN: [], _SHOWN: []}
        for row, steps in self._rows:
            kinds[_SHOWN if row == shown else _SEWN if row is not None and row < shown else PALE].extend(steps)
        return tuple(
            Path(steps=tuple(steps), ink=Ink(fill=fill, stroke=PAPER, width=0.6, rounded=True))
            for fill, steps in kinds.items()
            if steps
        )
