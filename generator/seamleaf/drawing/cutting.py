"""Cutting figures: each strip of yardage and each bundle piece to scale, with its ruler cuts numbered in order."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise
from math import dist
from typing import Final

from seamleaf.booklet.record import Sheet, SheetPart
from seamleaf.drawing.colours import INK, PALE, PAPER, SOFT
from seamleaf.drawing.cut_numbers import AWAY, FIRST_ONLY, WAYS, PlacedCuts, Way, draw_dashes, draw_numbers, place_cuts
from seamleaf.drawing.drafting import (
    CUT,
    DASH,
    EDGE,
    MARGIN,
    NUMBER_RADIUS,
    PAGE,
    SEAM,
    SMALLEST,
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
from seamleaf.drawing.labels import Lines, Placed, Room, centre_of, fit, set_lines
from seamleaf.drawing.measures import box_text
from seamleaf.drawing.metrics import wrap
from seamleaf.drawing.pens import Extent, around, extent_of
from seamleaf.drawing.scene import Group, Ink, Line, Path, Polygon, Shape, Spot, Step, closed
from seamleaf.drawing.windows import Held, Window, break_places, held_by, outlined, rests_of, windows
from seamleaf.drawing.wording import count_word, counted, say
from seamleaf.lengths import Length

_WIDE: Final = PAGE - 2 * MARGIN - 2 * (AWAY + NUMBER_RADIUS)
_WIDTHS: Final = (_WIDE * 0.7, _WIDE * 0.85, _WIDE)
"""Widths tried for the lines of a strip that is broken: large dark patches take much ink."""
_TALL: Final = 320.0
"""Height of a sheet that needs no enlarging."""
_MOST_TALL: Final = 570.0
"""Height of a drawing with the numbers around it: a sheet holds it with its caption and a line of what to do."""
_ROW_OF_NUMBERS: Final = AWAY + NUMBER_RADIUS + 1
_ROOMS: Final = tuple(_MOST_TALL - k * _ROW_OF_NUMBERS for k in range(5))
"""Heights tried for the lines of a strip: up to two rows of numbers stand above them, and up to two below."""
_SLIP: Final = 0.01
"""What floats may be off by when a drawing is as tall as it may be."""
_SQUARES: Final = (250.0, 320.0, 400.0, _WIDE)
"""Sides tried for a bundle piece, until all its labels and numbers have room."""
_LINES: Final = 6
_FACTORS: Final = (0.6, 0.8, 1.0, 1.3, 1.6, 2.0, 2.5, 3.2, 4.0)
"""Scales tried for one line of a strip, that of the unbroken strip being 1."""
_LINE_GAP: Final = 30.0
_TOOTH: Final = 3.6
_STRIP: Final = 3
"""How many times as long as it is wide a patch is that its text may run along."""
_CLOSE: Final = 1.0
"""Least distance of a text that runs along a narrow strip from its edges."""
_NOTE: Final = 9.5
"""Size of what is said below a sheet."""
_LEAST_NOTE: Final = 220.0
_REST: Final = (Family(along=(0.5**0.5, -(0.5**0.5)), spacing=9),)


def cut_sketches(desk: Desk) -> list[Sketch]:
    """Return a figure for every sheet of the cutting plan: ``cut-A-1`` is the first sheet of fabric A."""
    seen: dict[str, int] = {}
    sketches = []
    for index, sheet in enumerate(desk.booklet.cutting):
        letter = desk.fabrics[sheet.fabric].letter
        seen[letter] = seen.get(letter, 0) + 1
        sketches.append(_sheet_sketch(desk, sheet, f"cut-{letter}-{seen[letter]}", index))
    return sketches


def _sheet_sketch(desk: Desk, sheet: Sheet, figure_id: str, index: int) -> Sketch:
    drawn = _draw_legibly(desk, sheet)
    size = box_text(desk.booklet, sheet.sheet.w, sheet.sheet.h)
    name = desk.look(sheet.fabric, None).name if sheet.print is None else desk.look(sheet.fabric, sheet.print).name
    if sheet.mixed:
        name = desk.fabrics[sheet.fabric].letter
    times = say("figure.cut.times", n=sheet.times)
    left, _, right, bottom = drawn.extent
    told = [say("figure.cut.caption", name=name, size=size, times=times)]
    if drawn.repeats:
        told += wrap(say("figure.cut.repeats"), _NOTE, max(right - left, _LEAST_NOTE))
    if len(drawn.scales) > 1:
        told.append(say("figure.cut.uneven"))
    if drawn.left_out:
        told += wrap(
            say("figure.cut.left-out", numbers=", ".join(map(str, sorted(drawn.left_out)))),
            _NOTE,
            max(right - left, _LEAST_NOTE),
        )
    if drawn.silent:
        silent = ", ".join(f"{label} {desk.cut_size(label)}" for label in sorted(drawn.silent))
        told += wrap(say("figure.cut.silent", labels=silent), _NOTE, max(right - left, _LEAST_NOTE))
    caption = [words((left + right) / 2, bottom + 19 + i * line_height(), each) for i, each in enumerate(told)]
    labels = list(dict.fromkeys(part.label for part in sheet.parts))
    return Sketch(
        id=figure_id,
        kind="cut",
        title=_title(desk, sheet, name, size),
        desc="; ".join(f"{label} {desk.cut_size(label)}" for label in labels),
        scene=fit_page((*drawn.shapes, *caption), around((drawn.extent, extent_of(tuple(caption))))),
        about={"fabric": sheet.fabric, "sheet": str(index)},
    )


def _title(desk: Desk, sheet: Sheet, name: str, size: str) -> str:
    what = "strips" if desk.fabrics[sheet.fabric].source == "yardage" else "pieces"
    start = say(f"figure.cut.{what}", n=sheet.times, count=count_word(sheet.times), name=name, size=size)
    labels = [part.label for part in sheet.parts]
    if not sheet.cuts:
        return say("figure.cut.whole", start=start, labels=counted(labels))
    cuts = len(sheet.cuts)
    return say("figure.cut.gives", n=cuts, start=start, count=count_word(cuts), labels=counted(labels))


@dataclass(frozen=True, slots=True, kw_only=True)
class _Drawn:
    shapes: tuple[Shape, ...]
    height: float
    extent: Extent = (0.0, 0.0, 0.0, 0.0)
    """Of all lines of a sheet; nobody asks for that of one."""
    silent: frozenset[str] = frozenset()
    """Labels that did not, on some patch."""
    repeats: bool = False
    """Whether some cuts go without a number."""
    left_out: tuple[int, ...] = ()
    """Numbers of cuts that have no room for them."""
    scales: frozenset[float] = frozenset()
    """Points to the inch or centimetre, of each of its lines."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Placed:
    """One line of a sheet with places for all that is written in it, before it is drawn."""

    window: Window
    held: Held
    cuts: PlacedCuts
    labels: tuple[Placed | None, ...]
    """Of each patch that the line holds."""
    room: Room
    astray: float
    """How far labels stand from the middle of their patches, all together."""

    @property
    def legible(self) -> bool:
        """Whether every label and every number found room of its own."""
        return self.cuts.clear and None not in self.labels


class _Cloth:
    """A sheet with what is asked of it at every scale."""

    def __init__(self, desk: Desk, sheet: Sheet) -> None:
        self.desk, self.sheet = desk, sheet
        self.rests = rests_of(sheet)
        self._held: dict[tuple[Length, Length], Held] = {}
        self._texts: dict[tuple[str, Length, Length], tuple[Lines, Lines, Lines]] = {}

    def held(self, window: Window) -> Held:
        """Return what a window of it holds."""
        key = (window.start, window.end)
        if key not in self._held:
            self._held[key] = held_by(window, self.sheet, self.rests)
        return self._held[key]

    def texts(self, part: SheetPart) -> tuple[Lines, Lines, Lines]:
        """Return what may be written on a patch, the most telling first: with its size, without, and small."""
        key = (part.label, part.w, part.h)
        if key not in self._texts:
            small = (TextLine(text=part.label, size=SMALLEST, bold=True),)
            both = label_lines(part.label, self.desk.box_text(part.w, part.h))
            self._texts[key] = both, label_lines(part.label), small
        return self._texts[key]


def _draw_legibly(desk: Desk, sheet: Sheet) -> _Drawn:
    """Draw a sheet as small as it stays legible: bundle pieces ever larger, strips broken into ever more lines."""
    is_strip = desk.fabrics[sheet.fabric].source == "yardage"
    if is_strip:
        broken = [(lines, wide, tall) for lines in range(2, _LINES + 1) for wide in _WIDTHS for tall in _ROOMS]
        sizes = [(1, _WIDE, _TALL), *((1, _WIDE, tall) for tall in _ROOMS), *broken]
    else:
        sizes = [(1, side, side) for side in _SQUARES]
    cloth, places = _Cloth(desk, sheet), break_places(sheet)
    chosen: tuple[Window, ...] = ()
    for lines, width, height in sizes:
        each = windows(sheet, places, lines, width, height)
        if each == chosen or (chosen and _height_of(each) > _MOST_TALL + _SLIP):
            continue
        if not chosen or _height_of(each) <= _ROOMS[-1] + _SLIP:
            chosen = each
        drawn = _try_lines(cloth, (_place_window(cloth, window, whole=False) for window in each))
        if drawn is not None and _fits(drawn):
            return drawn
    if is_strip:
        for lines in range(2, _LINES + 1):
            each = windows(sheet, places, lines, _WIDE, _TALL)
            drawn = _try_lines(cloth, (_enlarged(cloth, window) for window in each))
            if drawn is not None and _fits(drawn):
                return drawn
    # A label stands on all of its patches or on none: who counts them in the figure counts all.
    silent = _draw_whole(cloth, chosen, frozenset()).silent
    return _draw_whole(cloth, chosen, silent)


def _draw_whole(cloth: _Cloth, lines: Sequence[Window], silent: frozenset[str]) -> _Drawn:
    """Draw the lines of a sheet, legible or not."""
    drawn = _try_lines(cloth, (_place_window(cloth, window, silent, ways=(FIRST_ONLY,)) for window in lines))
    assert drawn is not None  # noqa: S101 -- nothing that is drawn whole is given up
    return drawn


def _fits(drawn: _Drawn) -> bool:
    """Return whether a drawing is no taller than it may be."""
    _, top, _, bottom = drawn.extent
    return bottom - top <= _MOST_TALL + _SLIP


def _height_of(lines: Sequence[Window]) -> float:
    """Return how tall the lines of a sheet are together."""
    y = 0.0
    for line in lines:
        y += line.size[1] + _LINE_GAP
    return y - _LINE_GAP


def _try_lines(cloth: _Cloth, lines: Iterable[_Placed | None]) -> _Drawn | None:
    """Draw the lines of a sheet below each other, unless one of them was given up."""
    placed = []
    for line in lines:
        if line is None:
            return None
        placed.append(line)
    return _draw_lines([_draw_placed(cloth, line) for line in placed])


def _draw_lines(lines: Sequence[_Drawn]) -> _Drawn:
    """Set the lines of a sheet below each other."""
    shapes: list[Shape] = []
    y = 0.0
    for line in lines:
        shapes.append(Group(parts=line.shapes, dy=y))
        y += line.height + _LINE_GAP
    silent = frozenset[str]().union(*(line.silent for line in lines))
    repeats = any(line.repeats for line in lines)
    return _Drawn(
        shapes=tuple(shapes),
        height=y - _LINE_GAP,
        extent=extent_of(tuple(shapes)),
        silent=silent,
        repeats=repeats,
        left_out=tuple(n for line in lines for n in line.left_out),
        scales=frozenset[float]().union(*(line.scales for line in lines)),
    )


def _enlarged(cloth: _Cloth, window: Window) -> _Placed | None:
    """Place one line of a sheet by itself, no larger than it needs to be legible: each line then has its own scale."""
    least, most = _WIDE / cloth.sheet.sheet.w.to_float(), _WIDE / (window.end - window.start).to_float()
    for factor in _FACTORS:
        placed = _place_window(cloth, replace(window, scale=min(most, least * factor)), whole=False)
        if placed is not None or least * factor > most:
            break
    return placed


def _place_window(
    cloth: _Cloth,
    window: Window,
    silent: frozenset[str] = frozenset(),
    *,
    ways: Sequence[Way] = WAYS,
    whole: bool = True,
) -> _Placed | None:
    """Place all of one line of a sheet, the numbers of its cuts where they leave room for all labels but silent ones.

    Of several ways that do, the one whose labels stand nearest to the middle of their patches is taken.
    Unless it is to be drawn ``whole``, it is given up as soon as something finds no room.
    """
    best: _Placed | None = None
    for way in ways:
        if way.aside and best is not None and best.legible:
            break
        placed = _place_all(cloth, window, way, silent, whole=whole)
        if placed is not None and (
            best is None or (not placed.legible, placed.astray) < (not best.legible, best.astray)
        ):
            best = placed
        if best is not None and best.legible and best.astray == 0:
            break
    return best


def _place_all(cloth: _Cloth, window: Window, way: Way, silent: frozenset[str], *, whole: bool) -> _Placed | None:
    """Place the numbers of one line of a sheet, then its labels."""
    room, held, scale = Room(), cloth.held(window), window.scale
    cuts = place_cuts(cloth.sheet.cuts, held, window.size, scale, room, way, whole=whole)
    if cuts is None:
        return None
    labels: list[Placed | None] = []
    astray: list[float] = []
    for part, corner, opposite in held.parts:
        spots = outlined(corner, opposite, scale)
        placed = None if part.label in silent else _place_label(cloth.texts(part), part, spots, room)
        if placed is not None:
            astray.append(round(dist(placed.centre, centre_of(spots)), 3))
        elif not whole:
            return None
        labels.append(placed)
    return _Placed(window=window, held=held, cuts=cuts, labels=tuple(labels), room=room, astray=sum(astray))


def _draw_placed(cloth: _Cloth, line: _Placed) -> _Drawn:
    """Draw one line of a sheet: rests, patches, edges, cuts with their numbers."""
    desk, sheet, window, room = cloth.desk, cloth.sheet, line.window, line.room
    w, h = window.size
    patches: list[Shape] = []
    for (part, corner, opposite), placed in zip(line.held.parts, line.labels, strict=True):
        patches.append(_draw_part(desk, part, outlined(corner, opposite, window.scale), placed, room))
    outline = ((0.0, 0.0), (w, 0.0), (w, h), (0.0, h))
    ground: list[Shape] = [
        Polygon(points=outline, ink=Ink(fill=PAPER)),
        Path(steps=hatch(outline, _REST), ink=Ink(stroke=PALE, width=1.5)),
    ]
    sized = _draw_rests(desk, line.held, window.scale, room)
    edges = _edges(sheet, window, pinked=desk.fabrics[sheet.fabric].pinked)
    return _Drawn(
        shapes=(*ground, *patches, *sized, *edges, *draw_dashes(line.cuts), *draw_numbers(line.cuts)),
        height=h,
        silent=frozenset(
            part.label for (part, _, _), placed in zip(line.held.parts, line.labels, strict=True) if placed is None
        ),
        repeats=line.cuts.repeats,
        left_out=line.cuts.left_out,
        scales=frozenset((round(window.scale, 6),)),
    )


def _place_label(
    texts: tuple[Lines, Lines, Lines], part: SheetPart, spots: tuple[Spot, ...], room: Room
) -> Placed | None:
    """Find room for the label of a patch, with its size if that fits too; along a strip that is too narrow for it."""
    both, label, small = texts
    is_strip = part.h > part.w * _STRIP
    placed = (
        fit(spots, both, room)
        or (fit(spots, both, room, turned=True) if is_strip else None)
        or fit(spots, label, room)
        or (fit(spots, label, room, turned=True) if is_strip else None)
        or fit(spots, small, room, air=_CLOSE)
        or (fit(spots, small, room, turned=True, air=_CLOSE) if is_strip else None)
    )
    if placed is not None:
        room.take(placed.extent)
    return placed


def _draw_part(desk: Desk, part: SheetPart, spots: tuple[Spot, ...], placed: Placed | None, room: Room) -> Group:
    """Draw one patch of a sheet with its label; one that runs along a strip leaves room for the size further on."""
    look = desk.look_of(part.label)
    ink = Ink(stroke=look.ink, width=SEAM, dash=DASH)
    patch = desk.patches[part.label]
    # The diagonal of a rectangle that lies turned by a quarter falls: its triangles are of one hand all the same.
    once = ((3, 1),) if part.w == patch.w else ((0, 2),)
    diagonals = {"halved": once, "quartered": ((3, 1), (0, 2))}.get(patch.shape, ())
    lines = [Line(start=spots[i], end=spots[j], ink=ink) for i, j in diagonals]
    drawn = draw_patch(spots, look, placed=placed, under=lines, tag=f"patch {part.label}")
    if placed is None or not placed.turned or len(placed.lines) > 1:
        return drawn
    size = (TextLine(text=desk.box_text(part.w, part.h), size=SMALLEST, bold=False),)
    further = fit(spots, size, room, turned=True, air=_CLOSE)
    if further is None:
        return drawn
    room.take(further.extent)
    return replace(drawn, parts=(*drawn.parts, plate(further.extent, look.colour), *set_lines(further, look.ink)))


def _draw_rests(desk: Desk, held: Held, scale: float, room: Room) -> list[Shape]:
    """Write the size of each rest into it, where there is room."""
    shapes: list[Shape] = []
    for rest, corner, opposite in held.rests:
        text = say("figure.cut.rest", size=desk.box_text(rest[2] - rest[0], rest[3] - rest[1]))
        placed = fit(outlined(corner, opposite, scale), (TextLine(text=text, size=SMALLEST, bold=False),), room)
        if placed is not None:
            room.take(placed.extent)
            shapes += [plate(placed.extent, PAPER), *set_lines(placed, INK)]
    return shapes


def _edges(sheet: Sheet, window: Window, *, pinked: bool) -> list[Shape]:
    """Draw the edge of the sheet: pinked teeth, or straight with a break mark where the drawing is broken."""
    w, h = window.size
    if pinked:
        return [Path(steps=closed(_teeth(w, h)), ink=Ink(stroke=INK, width=CUT, dash=(4.5, 1.5)))]
    edge = Ink(stroke=INK, width=EDGE, rounded=True)
    shapes: list[Shape] = [Line(start=(0, y), end=(w, y), ink=edge) for y in (0.0, h)]
    for x, whole in ((0.0, window.start == 0), (w, window.end == sheet.sheet.w)):
        shapes += [Line(start=(x, 0), end=(x, h), ink=edge)] if whole else _break_mark(x, h)
    return shapes


def _break_mark(x: float, h: float) -> list[Shape]:
    """Draw a wavering line that reaches past the edges: the strip goes on in the next line."""
    reach = 4.0
    n = max(2, round((h + 2 * reach) / 8))
    step = (h + 2 * reach) / n
    bends: list[Step] = [("L", (x + (2.5 if i % 2 else -2.5), (i + 0.5) * step - reach)) for i in range(n)]
    steps: tuple[Step, ...] = (("M", (x, -reach)), *bends, ("L", (x, h + reach)))
    return [Path(steps=steps, ink=Ink(stroke=PAPER, width=4)), Path(steps=steps, ink=Ink(stroke=SOFT, width=CUT))]


def _teeth(w: float, h: float) -> list[Spot]:
    """Return the outline of a pinked piece: its valleys lie on the measured edge, its peaks outside."""
    ring: list[Spot] = [(0, 0), (w, 0), (w, h), (0, h), (0, 0)]
    spots: list[Spot] = []
    for (x1, y1), (x2, y2) in pairwise(ring):
        length = abs(x2 - x1) + abs(y2 - y1)
        n = max(4, round(length / 8))
        ux, uy = (x2 - x1) / n, (y2 - y1) / n
        out_x, out_y = (y2 - y1) / length * _TOOTH, -(x2 - x1) / length * _TOOTH
        for i in range(n):
            spots += [(x1 + ux * i, y1 + uy * i), (x1 + ux * (i + 0.5) + out_x, y1 + uy * (i + 0.5) + out_y)]
    return spots
