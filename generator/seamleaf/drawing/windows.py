"""A sheet broken into lines for drawing, and the pieces that its cuts leave.

A long strip is drawn in several lines, broken where a cut runs through its whole height, so that labels stay legible.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from seamleaf.booklet.record import Cut, Sheet, SheetPart
from seamleaf.drawing.scene import Spot
from seamleaf.lengths import ZERO, Length

Corners = tuple[Length, Length, Length, Length]
"""Left, top, right, bottom in the sheet."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Window:
    """The part of a sheet between two breaks, drawn as one line of the figure."""

    start: Length
    end: Length
    height: Length
    scale: float

    @property
    def size(self) -> Spot:
        """Width and height on the page."""
        return self.spot(self.end, self.height)

    def spot(self, x: Length, y: Length) -> Spot:
        """Return a point of the sheet on the page, the window's top left corner at 0."""
        return ((x - self.start).to_float() * self.scale, y.to_float() * self.scale)

    def holds(self, corners: Corners) -> bool:
        """Return whether a rectangle of the sheet lies in this window; no patch lies across a break."""
        return self.start <= corners[0] and corners[2] <= self.end


@dataclass(frozen=True, slots=True, kw_only=True)
class Held:
    """What a window of a sheet holds, measured from its top left corner, ready to be drawn at any scale."""

    cuts: tuple[tuple[Cut, Spot, Spot], ...]
    """With both ends; a cut along a break shows at the end of the line before."""
    parts: tuple[tuple[SheetPart, Spot, Spot], ...]
    """With the top left and bottom right corner."""
    rests: tuple[tuple[Corners, Spot, Spot], ...]


def held_by(window: Window, sheet: Sheet, rests: Sequence[Corners]) -> Held:
    """Look up what of a sheet and its rests a window holds, whatever its scale."""
    at = replace(window, scale=1).spot
    cuts: list[tuple[Cut, Spot, Spot]] = []
    for cut in sheet.cuts:
        if cut.axis == "x":
            if window.start < cut.at <= window.end:
                cuts.append((cut, at(cut.at, cut.span[0]), at(cut.at, cut.span[1])))
            continue
        first, last = max(cut.span[0], window.start), min(cut.span[1], window.end)
        if first < last:
            cuts.append((cut, at(first, cut.at), at(last, cut.at)))
    parts = [(part, corners) for part in sheet.parts if window.holds(corners := corners_of(part))]
    return Held(
        cuts=tuple(cuts),
        parts=tuple((part, at(*corners[:2]), at(*corners[2:])) for part, corners in parts),
        rests=tuple((rest, at(*rest[:2]), at(*rest[2:])) for rest in rests if window.holds(rest)),
    )


def outlined(corner: Spot, opposite: Spot, scale: float) -> tuple[Spot, ...]:
    """Return a rectangle at a scale, clockwise from its top left."""
    left, top, right, bottom = corner[0] * scale, corner[1] * scale, opposite[0] * scale, opposite[1] * scale
    return ((left, top), (right, top), (right, bottom), (left, bottom))


def windows(sheet: Sheet, places: Sequence[Length], lines: int, width: float, height: float) -> tuple[Window, ...]:
    """Break a sheet at some of ``places`` into about so many lines, as large as a line of this size allows."""
    breaks = _breaks(places, sheet.sheet.w.to_float() / lines)
    widest = max((b - a).to_float() for a, b in pairwise(breaks))
    scale = min(width / widest, height / sheet.sheet.h.to_float())
    return tuple(Window(start=a, end=b, height=sheet.sheet.h, scale=scale) for a, b in pairwise(breaks))


def corners_of(part: SheetPart) -> Corners:
    """Return where a patch lies in its sheet."""
    return (part.x, part.y, part.x + part.w, part.y + part.h)


def rests_of(sheet: Sheet) -> list[Corners]:
    """Follow the cuts and return the pieces that hold no patch."""
    grid = _Grid(sheet)
    pieces: list[_Ranks] = [(0, 0, len(grid.xs) - 1, len(grid.ys) - 1)]
    for cut, (at, start, end) in zip(sheet.cuts, grid.cuts, strict=True):
        pieces = [half for piece in pieces for half in _halves(piece, cut.axis, at, start, end)]
    rests = [piece for piece in pieces if not any(_holds(piece, part) for part in grid.parts)]
    return [(grid.xs[left], grid.ys[top], grid.xs[right], grid.ys[bottom]) for left, top, right, bottom in rests]


def break_places(sheet: Sheet) -> tuple[Length, ...]:
    """Return where a sheet may be broken: at its ends, and where a cut runs through its whole height but no patch."""
    grid = _Grid(sheet)
    whole = (0, len(grid.ys) - 1)
    through = {
        at for cut, (at, *span) in zip(sheet.cuts, grid.cuts, strict=True) if cut.axis == "x" and (*span,) == whole
    }
    free = {at for at in through if not any(part[0] < at < part[2] for part in grid.parts)}
    return tuple(grid.xs[at] for at in sorted(free | {0, len(grid.xs) - 1}))


_Ranks = tuple[int, int, int, int]
"""Left, top, right, bottom, each as its rank among the coordinates of a sheet."""


class _Grid:
    """The coordinates of a sheet in order, so that pieces are compared by small whole numbers, and exactly."""

    def __init__(self, sheet: Sheet) -> None:
        corners = [corners_of(part) for part in sheet.parts]
        across = [cut for cut in sheet.cuts if cut.axis == "x"]
        along = [cut for cut in sheet.cuts if cut.axis == "y"]
        xs = {ZERO, sheet.sheet.w, *(c.at for c in across), *(end for c in along for end in c.span)}
        ys = {ZERO, sheet.sheet.h, *(c.at for c in along), *(end for c in across for end in c.span)}
        self.xs = sorted(xs.union(*(c[0::2] for c in corners)))
        self.ys = sorted(ys.union(*(c[1::2] for c in corners)))
        x_ranks = {x: rank for rank, x in enumerate(self.xs)}
        y_ranks = {y: rank for rank, y in enumerate(self.ys)}
        self.parts: list[_Ranks] = [(x_ranks[c[0]], y_ranks[c[1]], x_ranks[c[2]], y_ranks[c[3]]) for c in corners]
        self.cuts: list[tuple[int, int, int]] = []
        """For each cut: where it runs, and both ends."""
        for cut in sheet.cuts:
            at, ends = (x_ranks, y_ranks) if cut.axis == "x" else (y_ranks, x_ranks)
            self.cuts.append((at[cut.at], ends[cut.span[0]], ends[cut.span[1]]))


def _holds(piece: _Ranks, part: _Ranks) -> bool:
    return piece[0] <= part[0] and piece[1] <= part[1] and part[2] <= piece[2] and part[3] <= piece[3]


def _halves(piece: _Ranks, axis: str, at: int, start: int, end: int) -> tuple[_Ranks, ...]:
    left, top, right, bottom = piece
    if axis == "x" and left < at < right and start <= top and bottom <= end:
        return ((left, top, at, bottom), (at, top, right, bottom))
    if axis == "y" and top < at < bottom and start <= left and right <= end:
        return ((left, top, right, at), (left, at, right, bottom))
    return (piece,)


def _breaks(places: Sequence[Length], aim: float) -> tuple[Length, ...]:
    """Return breaks for lines of about ``aim``: each line ends at the place nearest to its share."""
    breaks = [places[0]]
    share = aim
    while share < places[-1].to_float() - aim / 2:
        nearest = min(places, key=lambda at: (abs(at.to_float() - share), at))
        if breaks[-1] < nearest < places[-1]:
            breaks.append(nearest)
        share += aim
    return (*breaks, places[-1])
