"""Line weights, text sizes, and the small parts that all figures share: patches, circled numbers, panels."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Final

from seamleaf.drawing.colours import INK, PAPER, mix
from seamleaf.drawing.hatching import HATCHES, WRONG_SIDE, hatch
from seamleaf.drawing.labels import Line, Lines, Placed, Room, fit_first, set_lines
from seamleaf.drawing.looks import Look
from seamleaf.drawing.metrics import ASCENT, text_width, wrap
from seamleaf.drawing.pens import Extent, extent_of
from seamleaf.drawing.scene import Anchor, Circle, Group, Ink, Path, Polygon, Rect, Scene, Shape, Spot, Text

PAGE: Final = 480.0
"""Width of a full figure in points: 170 mm, which both A4 and Letter have room for."""
STEP: Final = 360.0
"""Width of a figure of stages: narrow enough that its text can be read on a phone too."""
MARGIN: Final = 8.0
SMALLEST: Final = 9.0
"""No text is smaller, at the printed width."""
LABEL: Final = 10.0
SEAM: Final = 0.75
CUT: Final = 1.0
EDGE: Final = 1.25
NEW: Final = 2.25
"""Outline of the piece that a step adds."""
DASH: Final = (4.0, 2.5)
STITCH: Final = (2.5, 1.5)
NUMBER_RADIUS: Final = 7.5
_CAPTION: Final = 9.5
_BELOW: Final = 9.0
"""Between a picture and its caption."""
_BETWEEN: Final = 14.0
_DOT: Final = 1.5
_LARGE_DOT: Final = 2.0
_LARGE_AREA: Final = 12000.0
"""In square points; about 6 by 6 cm."""
_LEADING: Final = 1.25


def scaled(spots: Iterable[Spot], scale: float, dx: float = 0, dy: float = 0) -> tuple[Spot, ...]:
    """Return spots of a frame on the page: scaled, then shifted."""
    return tuple((x * scale + dx, y * scale + dy) for x, y in spots)


def label_lines(label: str, size: str | None = None) -> Lines:
    """Return a patch's text: its label, and its size on a second line."""
    lines = [Line(text=label, size=LABEL, bold=True)]
    if size:
        lines.append(Line(text=size, size=SMALLEST, bold=False))
    return tuple(lines)


def draw_patch(
    spots: tuple[Spot, ...],
    look: Look,
    *,
    texts: Sequence[Lines] = (),
    tag: str = "",
    new: bool = False,
    wrong: bool = False,
    room: Room | None = None,
    placed: Placed | None = None,
    under: Sequence[Shape] = (),
    openness: float | None = None,
) -> Group:
    """Draw one patch: colour, hatch, edge, and the first of ``texts`` that fits inside it.

    Args:
        spots: its outline on the page.
        look: its fabric.
        texts: what to write on it, the most telling first; none is written when none fits.
        tag: what it is, for tests.
        new: outline it heavily, as the piece that a step adds.
        wrong: show the wrong side of the fabric: pale, and dotted.
        room: what the text must not cover, and where it is noted once written.
        placed: a text whose place is found already, instead of ``texts``.
        under: lines on the patch that its text stands over.
        openness: how far its hatch is opened up, the same for all neighbours; else by its own size.

    """
    colour, ink = (look.wrong, INK) if wrong else (look.colour, look.ink)
    edge = Ink(fill=colour, stroke=mix(colour, ink, 65), width=SEAM, rounded=True)
    parts: list[Shape] = [Polygon(points=spots, ink=edge)]
    opened = _openness(spots) if openness is None else openness
    steps = hatch(spots, WRONG_SIDE if wrong else HATCHES[look.hatch], openness=opened)
    if steps:
        dots = Ink(stroke=mix(colour, INK, 30), width=_DOT if opened == 1 else _LARGE_DOT, rounded=True)
        parts.append(Path(steps=steps, ink=dots if wrong else Ink(stroke=look.line, width=SEAM)))
    if new:
        parts.append(Polygon(points=spots, ink=Ink(stroke=INK, width=NEW, rounded=True)))
    parts += under
    if placed is None:
        placed = fit_first(spots, texts, room)
    if placed is not None:
        if steps or under:
            parts.append(plate(placed.extent, colour))
        parts += set_lines(placed, ink)
        if room is not None:
            room.take(placed.extent)
    return Group(parts=tuple(parts), tag=tag)


def label_over(spots: tuple[Spot, ...], look: Look, texts: Sequence[Lines]) -> tuple[Shape, ...]:
    """Write a text over lines that cross a patch, on a plate, so that none of them runs through its letters."""
    placed = fit_first(spots, texts)
    if placed is None:
        return ()
    return (plate(placed.extent, look.colour), *set_lines(placed, look.ink))


def _openness(spots: Sequence[Spot]) -> float:
    """Return how far a hatch is opened up: large areas need fewer lines to be told apart."""
    xs, ys = [x for x, _ in spots], [y for _, y in spots]
    return 2.0 if (max(xs) - min(xs)) * (max(ys) - min(ys)) > _LARGE_AREA else 1.0


def plate(extent: tuple[float, float, float, float], colour: str) -> Rect:
    """Return the plate behind a text, so that no hatch runs through its letters."""
    left, top, right, bottom = extent
    return Rect(x=left - 1.5, y=top - 0.5, w=right - left + 3, h=bottom - top + 1, corner=2, ink=Ink(fill=colour))


def outline(spots: tuple[Spot, ...]) -> Polygon:
    """Return a heavy outline round sewn patches."""
    return Polygon(points=spots, ink=Ink(stroke=INK, width=EDGE, rounded=True))


def circled(number: int | str, centre: Spot, *, filled: bool = False) -> Group:
    """Return a number in a circle, which always tells an order."""
    x, y = centre
    back, front = (INK, PAPER) if filled else (PAPER, INK)
    ring = Circle(centre=centre, radius=NUMBER_RADIUS, ink=Ink(fill=back, stroke=INK, width=0.9))
    digits = Text(x=x, y=y + 0.36 * SMALLEST, text=str(number), size=SMALLEST, bold=True, colour=front)
    return Group(parts=(ring, digits), tag=f"number {number}")


def words(x: float, y: float, text: str, *, anchor: Anchor = "middle") -> Text:
    """Return a line of caption text by its baseline."""
    return Text(x=x, y=y, text=text, size=_CAPTION, anchor=anchor, colour=INK)


def words_width(text: str) -> float:
    """Return the width of a line of caption text."""
    return text_width(text, _CAPTION)


@dataclass(frozen=True, slots=True, kw_only=True)
class Panel:
    """One picture of a figure with its caption; it has a number when the order matters."""

    parts: tuple[Shape, ...]
    caption: str = ""
    number: int | None = None
    tag: str = ""


def lay_out(panels: Sequence[Panel], *, width: float = PAGE, gap: float = 24, least: float = 96) -> Scene:
    """Set panels side by side, as many a row as the width allows, captions level below them."""
    room = width - 2 * MARGIN
    cells = [_cell(panel, least, room) for panel in panels]
    rows = _rows(cells, room, gap)
    parts: list[Shape] = []
    y = MARGIN
    widest = 0.0
    for row in rows:
        height = max(cell.bottom - cell.top for cell in row)
        x = MARGIN
        for cell in row:
            across = x + (cell.width - (cell.right - cell.left)) / 2 - cell.left
            down = y + (height - (cell.bottom - cell.top)) / 2 - cell.top
            parts.append(Group(parts=cell.panel.parts, dx=across, dy=down, tag=cell.panel.tag))
            parts += _caption(cell, x, y + height + _BELOW)
            x += cell.width + gap
        widest = max(widest, x - gap + MARGIN)
        told = max(cell.caption_height for cell in row)
        y += height + (told + _BELOW if told else 0) + _BETWEEN
    return Scene(w=widest, h=y - _BETWEEN + MARGIN, parts=tuple(parts))


def _rows(cells: list[_Cell], room: float, gap: float) -> list[list[_Cell]]:
    """Break cells into as few rows as fit, of as like a number of cells as can be."""
    for count in range(1, len(cells) + 1):
        each = -(-len(cells) // count)
        rows = [cells[i : i + each] for i in range(0, len(cells), each)]
        if all(sum(cell.width for cell in row) + gap * (len(row) - 1) <= room for row in rows):
            return rows
    return [[cell] for cell in cells]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Cell:
    panel: Panel
    left: float
    top: float
    right: float
    bottom: float
    width: float
    lines: tuple[str, ...]

    @property
    def caption_height(self) -> float:
        height = len(self.lines) * _CAPTION * _LEADING
        return max(height, 2 * NUMBER_RADIUS) if self.panel.number is not None else height


def _cell(panel: Panel, least: float, room: float) -> _Cell:
    left, top, right, bottom = extent_of(panel.parts)
    indent = _indent(panel)
    width = right - left
    if panel.caption:
        width = max(width, min(least, words_width(panel.caption) + indent + 1))
    width = max(width, min(room, indent + max((words_width(word) for word in panel.caption.split(" ")), default=0) + 1))
    lines = wrap(panel.caption, _CAPTION, width - indent)
    return _Cell(panel=panel, left=left, top=top, right=right, bottom=bottom, width=width, lines=lines)


def _indent(panel: Panel) -> float:
    return 2 * NUMBER_RADIUS + 5 if panel.number is not None else 0.0


def _caption(cell: _Cell, x: float, y: float) -> list[Shape]:
    """Set the caption below a panel: centred, or beside its number."""
    parts: list[Shape] = []
    number = cell.panel.number
    indent = _indent(cell.panel)
    widest = max((words_width(line) for line in cell.lines), default=0.0)
    start = x + max(0.0, (cell.width - indent - widest) / 2)
    if number is not None:
        parts.append(circled(number, (start + NUMBER_RADIUS, y + NUMBER_RADIUS)))
    first = y + (NUMBER_RADIUS + 0.36 * _CAPTION if number is not None else ASCENT * _CAPTION)
    for i, line in enumerate(cell.lines):
        baseline = first + i * _CAPTION * _LEADING
        if number is not None:
            parts.append(words(start + indent, baseline, line, anchor="start"))
        else:
            parts.append(words(x + cell.width / 2, baseline, line))
    return parts


def fit_page(parts: Sequence[Shape], extent: Extent | None = None) -> Scene:
    """Return a scene just large enough for the parts, with a margin; whoever knows their ``extent`` may say it."""
    left, top, right, bottom = extent or extent_of(tuple(parts))
    shifted = Group(parts=tuple(parts), dx=MARGIN - left, dy=MARGIN - top)
    return Scene(w=right - left + 2 * MARGIN, h=bottom - top + 2 * MARGIN, parts=(shifted,))


def line_height(size: float = _CAPTION) -> float:
    """Return the distance between the baselines of two lines of text."""
    return size * _LEADING
