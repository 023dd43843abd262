"""Cutting figures: each strip of yardage and each bundle piece to scale, with its ruler cuts numbered in order."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Final

from seamleaf.booklet.record import Cut, Sheet, SheetPart
from seamleaf.drawing.colours import INK, PALE, PAPER, SOFT
from seamleaf.drawing.drafting import (
    CUT,
    DASH,
    EDGE,
    LABEL,
    MARGIN,
    NUMBER_RADIUS,
    PAGE,
    SEAM,
    SMALLEST,
    circled,
    draw_patch,
    fit_page,
    label_lines,
    line_height,
    plate,
    words,
)
from seamleaf.drawing.figure import Desk, Sketch
from seamleaf.drawing.hatching import Family, hatch
from seamleaf.drawing.labels import Line as TextLine
from seamleaf.drawing.labels import Room, fit, set_lines
from seamleaf.drawing.measures import box_text
from seamleaf.drawing.metrics import text_width
from seamleaf.drawing.scene import Group, Ink, Line, Path, Polygon, Shape, Spot, Step, closed
from seamleaf.drawing.wording import capital, count_word, counted
from seamleaf.lengths import ZERO, Length

_WIDE: Final = PAGE - 2 * MARGIN - 2 * (2 * NUMBER_RADIUS + 4)
_SQUARE: Final = 250.0
"""Largest side of a bundle piece on the page."""
_TALL: Final = 330.0
_MOST_LINES: Final = 6
_TOOTH: Final = 3.2
_LINE_GAP: Final = 30.0
_REST: Final = (Family(along=(0.5**0.5, -(0.5**0.5)), spacing=9),)


def cut_sketches(desk: Desk) -> list[Sketch]:
    """Return a figure for every sheet of the cutting plan, in its order."""
    seen: dict[str, int] = {}
    sketches = []
    for index, sheet in enumerate(desk.booklet.cutting):
        letter = desk.fabrics[sheet.fabric].letter
        seen[letter] = seen.get(letter, 0) + 1
        sketches.append(sheet_sketch(desk, sheet, figure_id=f"cut-{letter}-{seen[letter]}", index=index))
    return sketches


def sheet_sketch(desk: Desk, sheet: Sheet, *, figure_id: str, index: int) -> Sketch:
    """Return the figure of one sheet."""
    fabric = desk.fabrics[sheet.fabric]
    bundle = fabric.source != "yardage"
    scale, breaks = _scale_and_breaks(sheet, bundle=bundle)
    parts: list[Shape] = []
    y = 0.0
    for start, end in pairwise(breaks):
        window = _Window(start=start, end=end, height=sheet.sheet.h, scale=scale)
        parts.append(Group(parts=tuple(_draw_window(desk, sheet, window, pinked=fabric.pinked)), dy=y))
        y += sheet.sheet.h.to_float() * scale + _LINE_GAP
    size = box_text(desk.booklet, sheet.sheet.w, sheet.sheet.h)
    what = "square" if bundle else "strip"
    caption = f"Fabric {_name(desk, sheet)}: {size} · cut {sheet.times} alike"
    middle = min(_WIDE, (sheet.sheet.w.to_float() if len(breaks) == 2 else _widest(breaks)) * scale) / 2
    parts.append(words(middle, y - _LINE_GAP + 16 + line_height(), caption))
    labels = counted([part.label for part in sheet.parts])
    title = (
        f"Cut {count_word(sheet.times)} {what}{'s' if sheet.times > 1 else ''} of fabric {_name(desk, sheet)}, {size}, "
        f"in {count_word(len(sheet.cuts))} numbered cut{'s' if len(sheet.cuts) != 1 else ''}, each into {labels}."
    )
    return Sketch(
        id=figure_id,
        kind="cut",
        title=title,
        desc=_sizes_told(desk, sheet.parts),
        scene=fit_page(parts),
        about={"fabric": sheet.fabric, "sheet": str(index)},
    )


def pieces_after(sheet: Sheet) -> list[tuple[Length, Length, Length, Length]]:
    """Follow the cuts and return all pieces that they leave, as left, top, right, bottom."""
    pieces = [(ZERO, ZERO, sheet.sheet.w, sheet.sheet.h)]
    for cut in sheet.cuts:
        pieces = [half for piece in pieces for half in _halves(piece, cut)]
    return pieces


def _halves(piece: tuple[Length, Length, Length, Length], cut: Cut) -> list[tuple[Length, Length, Length, Length]]:
    left, top, right, bottom = piece
    if cut.axis == "x" and left < cut.at < right and cut.span[0] <= top and bottom <= cut.span[1]:
        return [(left, top, cut.at, bottom), (cut.at, top, right, bottom)]
    if cut.axis == "y" and top < cut.at < bottom and cut.span[0] <= left and right <= cut.span[1]:
        return [(left, top, right, cut.at), (left, cut.at, right, bottom)]
    return [piece]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Window:
    """The part of a sheet between two breaks, drawn as one line of the figure."""

    start: Length
    end: Length
    height: Length
    scale: float

    def x(self, at: Length) -> float:
        return (at - self.start).to_float() * self.scale

    def y(self, at: Length) -> float:
        return at.to_float() * self.scale

    @property
    def size(self) -> Spot:
        return (self.x(self.end), self.y(self.height))

    def holds(self, left: Length, right: Length) -> bool:
        return self.start <= left and right <= self.end


def _scale_and_breaks(sheet: Sheet, *, bundle: bool) -> tuple[float, tuple[Length, ...]]:
    """Return the scale, and where a long strip is broken into lines so that its labels stay legible."""
    w, h = sheet.sheet.w.to_float(), sheet.sheet.h.to_float()
    if bundle:
        return (_SQUARE / max(w, h), (ZERO, sheet.sheet.w))
    places = _break_places(sheet)
    best: tuple[float, tuple[Length, ...]] = (min(_WIDE / w, _TALL / h), (ZERO, sheet.sheet.w))
    for lines in range(1, _MOST_LINES + 1):
        breaks = _break(places, w / lines)
        scale = min(_WIDE / _widest(breaks), _TALL / h)
        if lines > 1 and (h * scale + _LINE_GAP) * (len(breaks) - 1) > _TALL:
            break
        best = (scale, breaks)
        if all(_legible(part, scale) for part in sheet.parts):
            break
    return best


def _legible(part: SheetPart, scale: float) -> bool:
    wide = text_width(part.label, LABEL, bold=True) + 4
    return part.w.to_float() * scale >= wide and part.h.to_float() * scale >= LABEL + 4


def _break_places(sheet: Sheet) -> tuple[Length, ...]:
    """Return where a cut runs through the whole height, so that the strip may be drawn broken there."""
    through = {c.at for c in sheet.cuts if c.axis == "x" and c.span == (ZERO, sheet.sheet.h)}
    free = [at for at in through if not any(p.x < at < p.x + p.w for p in sheet.parts)]
    return (ZERO, *sorted(free), sheet.sheet.w)


def _break(places: Sequence[Length], aim: float) -> tuple[Length, ...]:
    """Return breaks for lines of about ``aim``: each line ends at the place nearest to its share."""
    breaks = [places[0]]
    share = aim
    while share < places[-1].to_float() - aim / 2:
        nearest = min(places, key=lambda at: (abs(at.to_float() - share), at))
        if nearest > breaks[-1] and nearest < places[-1]:
            breaks.append(nearest)
        share += aim
    return (*breaks, places[-1])


def _widest(breaks: Sequence[Length]) -> float:
    return max((b - a).to_float() for a, b in pairwise(breaks))


def _name(desk: Desk, sheet: Sheet) -> str:
    letter = desk.fabrics[sheet.fabric].letter
    return letter if sheet.print is None else f"{letter} print {sheet.print}"


def _sizes_told(desk: Desk, parts: Sequence[SheetPart]) -> str:
    labels = list(dict.fromkeys(part.label for part in parts))
    told = [f"{label} {desk.cut_size(label)}" for label in labels]
    return capital("; ".join(told)) + "." if told else ""


def _draw_window(desk: Desk, sheet: Sheet, window: _Window, *, pinked: bool) -> list[Shape]:
    """Draw one line of a sheet: rests, patches, edges, cuts with their numbers."""
    w, h = window.size
    room = Room()
    corners: tuple[Spot, ...] = ((0, 0), (w, 0), (w, h), (0, h))
    shapes: list[Shape] = [
        Polygon(points=corners, ink=Ink(fill=PAPER)),
        Path(steps=hatch(corners, _REST), ink=Ink(stroke=PALE, width=1.5)),
    ]
    numbers, dashes = _draw_cuts(sheet, window, room)
    shown = [part for part in sheet.parts if window.holds(part.x, part.x + part.w)]
    shapes += [_draw_part(desk, part, window, room) for part in shown]
    shapes += _draw_rests(desk, sheet, window, room)
    shapes += _edges(sheet, window, pinked=pinked)
    return [*shapes, *dashes, *numbers]


def _draw_part(desk: Desk, part: SheetPart, window: _Window, room: Room) -> Group:
    left, top = window.x(part.x), window.y(part.y)
    right, bottom = window.x(part.x + part.w), window.y(part.y + part.h)
    size = box_text(desk.booklet, part.w, part.h, unit=False)
    texts = [label_lines(part.label, size), label_lines(part.label)]
    spots = ((left, top), (right, top), (right, bottom), (left, bottom))
    look = desk.look_of(part.label)
    parts: list[Shape] = [draw_patch(spots, look, texts=texts, room=room)]
    shape = desk.patches[part.label].shape
    if shape in ("halved", "quartered"):
        ink = Ink(stroke=look.ink, width=SEAM, dash=DASH)
        parts.insert(0, parts.pop())
        lines: list[Shape] = [Line(start=(left, bottom), end=(right, top), ink=ink)]
        if shape == "quartered":
            lines.append(Line(start=(left, top), end=(right, bottom), ink=ink))
        patch = parts[0]
        assert isinstance(patch, Group)  # noqa: S101 -- what draw_patch returns; the diagonals go below its text
        parts = [Group(parts=(*patch.parts[:2], *lines, *patch.parts[2:]))]
    return Group(parts=tuple(parts), tag=f"patch {part.label}")


def _draw_rests(desk: Desk, sheet: Sheet, window: _Window, room: Room) -> list[Shape]:
    """Write the size of each rest into it, where there is room."""
    shapes: list[Shape] = []
    for left, top, right, bottom in pieces_after(sheet):
        if not window.holds(left, right) or any(_within(part, left, top, right, bottom) for part in sheet.parts):
            continue
        spots = (
            (window.x(left), window.y(top)), (window.x(right), window.y(top)),
            (window.x(right), window.y(bottom)), (window.x(left), window.y(bottom)),
        )  # fmt: skip
        text = f"rest {box_text(desk.booklet, right - left, bottom - top, unit=False)}"
        placed = fit(spots, (TextLine(text=text, size=SMALLEST, bold=False),), room)
        if placed is not None:
            room.take(placed.extent)
            shapes += [plate(placed.extent, PAPER), *set_lines(placed, INK)]
    return shapes


def _within(part: SheetPart, left: Length, top: Length, right: Length, bottom: Length) -> bool:
    return left <= part.x and part.x + part.w <= right and top <= part.y and part.y + part.h <= bottom


def _edges(sheet: Sheet, window: _Window, *, pinked: bool) -> list[Shape]:
    """Draw the edge of the sheet: pinked teeth, or straight with a break mark where the drawing is broken."""
    w, h = window.size
    if pinked:
        ink = Ink(stroke=INK, width=CUT, dash=(3, 1.5))
        return [Path(steps=closed(_teeth(w, h)), ink=ink)]
    edge = Ink(stroke=INK, width=EDGE, rounded=True)
    shapes: list[Shape] = [Line(start=(0, 0), end=(w, 0), ink=edge), Line(start=(0, h), end=(w, h), ink=edge)]
    for x, whole in ((0.0, window.start == ZERO), (w, window.end == sheet.sheet.w)):
        shapes += [Line(start=(x, 0), end=(x, h), ink=edge)] if whole else _break_mark(x, h)
    return shapes


def _break_mark(x: float, h: float) -> list[Shape]:
    """Draw a wavering line that reaches past the edges: the strip goes on in the next line."""
    reach, n = 4.0, max(2, round((h + 8) / 8))
    step = (h + 2 * reach) / n
    steps: list[Step] = [("M", (x, -reach))]
    steps += [("L", (x + (2.5 if i % 2 else -2.5), -reach + (i + 0.5) * step)) for i in range(n)]
    steps.append(("L", (x, h + reach)))
    return [
        Path(steps=tuple(steps), ink=Ink(stroke=PAPER, width=4)),
        Path(steps=tuple(steps), ink=Ink(stroke=SOFT, width=CUT)),
    ]


def _teeth(w: float, h: float) -> list[Spot]:
    """Return the outline of a pinked piece: its valleys lie on the measured edge, its peaks outside."""
    corners: list[Spot] = [(0, 0), (w, 0), (w, h), (0, h), (0, 0)]
    spots: list[Spot] = []
    for (x1, y1), (x2, y2) in pairwise(corners):
        length = abs(x2 - x1) + abs(y2 - y1)
        n = max(4, round(length / 6))
        ux, uy = (x2 - x1) / n, (y2 - y1) / n
        ox, oy = (y2 - y1) / length * _TOOTH, -(x2 - x1) / length * _TOOTH
        for i in range(n):
            spots.append((x1 + ux * i, y1 + uy * i))
            spots.append((x1 + ux * (i + 0.5) + ox, y1 + uy * (i + 0.5) + oy))
    return spots


def _draw_cuts(sheet: Sheet, window: _Window, room: Room) -> tuple[list[Shape], list[Shape]]:
    """Return the numbers and the dashed lines of the cuts that this window shows, and note their boxes."""
    numbers: list[Shape] = []
    dashes: list[Shape] = []
    for cut in sheet.cuts:
        line = _cut_line(cut, window)
        if line is None:
            continue
        start, end = line
        dashes.append(Line(start=start, end=end, ink=Ink(stroke=PAPER, width=2.5)))
        dashes.append(Line(start=start, end=end, ink=Ink(stroke=INK, width=CUT, dash=DASH)))
        spot = _number_spot(start, end, window, room)
        room.take(_circle_box(spot))
        numbers.append(circled(cut.n, spot))
    return numbers, dashes


def _cut_line(cut: Cut, window: _Window) -> tuple[Spot, Spot] | None:
    """Return both ends of a cut in the window; a cut along a break shows at the end of the line before."""
    if cut.axis == "x":
        if not (window.start < cut.at <= window.end):
            return None
        x = window.x(cut.at)
        return ((x, window.y(cut.span[0])), (x, window.y(cut.span[1])))
    first, last = max(cut.span[0], window.start), min(cut.span[1], window.end)
    if first >= last:
        return None
    y = window.y(cut.at)
    return ((window.x(first), y), (window.x(last), y))


def _number_spot(start: Spot, end: Spot, window: _Window, room: Room) -> Spot:
    """Return where the number goes: outside the sheet if the cut reaches its edge, else on the cut itself."""
    w, h = window.size
    (x1, y1), (x2, y2) = start, end
    away = NUMBER_RADIUS + 4
    spots: list[Spot] = []
    for out in (away, away + 2 * NUMBER_RADIUS + 1):
        if x1 == x2:
            spots += [(x1, -out)] * (y1 <= 0.01) + [(x1, h + out)] * (y2 >= h - 0.01)
        else:
            spots += [(-out, y1)] * (x1 <= 0.01) + [(w + out, y1)] * (x2 >= w - 0.01)
    spots += [(x1 + (x2 - x1) * k / 16, y1 + (y2 - y1) * k / 16) for k in (8, 4, 12, 2, 14, 6, 10, 1, 15)]
    return next((spot for spot in spots if room.is_free(_circle_box(spot))), spots[0])


def _circle_box(spot: Spot) -> tuple[float, float, float, float]:
    x, y = spot
    r = NUMBER_RADIUS + 0.5
    return (x - r, y - r, x + r, y + r)
