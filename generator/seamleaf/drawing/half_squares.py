"""Half-squares two, four or eight at a time: the stages before the finished unit."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Final

from seamleaf.booklet.record import Unit
from seamleaf.drawing.colours import luminance
from seamleaf.drawing.drafting import Panel, draw_patch
from seamleaf.drawing.figure import Desk
from seamleaf.drawing.labels import centre_of
from seamleaf.drawing.regions import spots_of
from seamleaf.drawing.scene import Line, Shape, Spot
from seamleaf.drawing.stages import SIDE, Segment, beside, keep_clear, labels_taken, lay, marked, sewn, square_of

_PEEK: Final = 7.0
_APART: Final = 9.0
_RISING: Final[Segment] = ((0, SIDE), (SIDE, 0))
_FALLING: Final[Segment] = ((0, 0), (SIDE, SIDE))


def half_square_stages(desk: Desk, unit: Unit) -> list[Panel]:
    """Return the stages of half-squares two, four or eight at a time."""
    upper, lower = _lighter_first(desk, labels_taken(unit))
    allowance = desk.booklet.seam.to_float() * SIDE / desk.patches[upper].w.to_float()
    pair = _Pair(desk=desk, upper=upper, lower=lower)
    together = f"{upper} on {lower}, right sides together."
    if unit.method == "four":
        seams = _round_the_edge(allowance)
        return [
            Panel(parts=pair.draw(()), caption=together),
            Panel(parts=pair.draw(sewn(seams)), caption=f"Sew all round, {desk.allowance()} from the edge."),
            Panel(parts=pair.cut_apart(_quarters(), seams), caption="Cut on both diagonals."),
        ]
    eight = unit.method == "eight"
    marks = (_RISING, _FALLING) if eight else (_RISING if _rises(unit) else _FALLING,)
    seams = tuple(seam for mark in marks for seam in beside(mark, allowance))
    pieces = _eighths() if eight else _halves(marks[0])
    what = "both diagonals" if eight else "the diagonal"
    cut = "Cut upright, across, and on both marked lines." if eight else "Cut on the marked line."
    return [
        Panel(parts=pair.draw(marked(marks)), caption=f"{together} Mark {what}."),
        Panel(
            parts=pair.draw([*marked(marks), *sewn(seams)]),
            caption=f"Sew {desk.allowance()} from the line, on both sides.",
        ),
        Panel(parts=pair.cut_apart(pieces, seams), caption=cut),
    ]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Pair:
    """Two squares right sides together."""

    desk: Desk
    upper: str
    lower: str

    def draw(self, lines: Iterable[Line]) -> tuple[Shape, ...]:
        """Draw the pair with lines on its wrong side."""
        shown = list(lines)
        below = lay(self.desk, self.lower, square_of(_PEEK, _PEEK, SIDE))
        above = lay(self.desk, self.upper, square_of(0, 0, SIDE), upside=True, clear=keep_clear(lines=shown))
        return (below, above, *shown)

    def cut_apart(self, pieces: Iterable[tuple[Spot, ...]], seams: Iterable[Segment]) -> tuple[Shape, ...]:
        """Draw the pieces that the cuts leave, moved apart, with the seams on them."""
        look = self.desk.look_of(self.upper)
        shapes: list[Shape] = []
        for piece in pieces:
            x, y = centre_of(piece)
            away = math.hypot(x - SIDE / 2, y - SIDE / 2)
            dx, dy = (x - SIDE / 2) / away * _APART, (y - SIDE / 2) / away * _APART
            moved = tuple((px + dx, py + dy) for px, py in piece)
            shapes.append(draw_patch(moved, look, wrong=True, tag=f"cut {self.upper} on {self.lower}"))
            inside = [clipped for clipped in (_clip(seam, piece) for seam in seams) if clipped is not None]
            shapes += sewn(((x1 + dx, y1 + dy), (x2 + dx, y2 + dy)) for (x1, y1), (x2, y2) in inside)
        return tuple(shapes)


def _lighter_first(desk: Desk, labels: tuple[str, ...]) -> tuple[str, str]:
    """Return the label to mark, which is the lighter, and the other; both squares may be of one label."""
    one, other = labels[0], labels[-1]
    if luminance(desk.look_of(other).colour) > luminance(desk.look_of(one).colour):
        return other, one
    return one, other


def _rises(unit: Unit) -> bool:
    """Return whether the diagonal of the first patch rises from lower left to upper right."""
    w, h = unit.finished.w.to_float(), unit.finished.h.to_float()
    corners = spots_of(unit.regions[0].outline)
    return sum((x < w / 2) == (y > h / 2) for x, y in corners) == 2


def _round_the_edge(offset: float) -> tuple[Segment, ...]:
    a, b = offset, SIDE - offset
    return (((0, a), (SIDE, a)), ((b, 0), (b, SIDE)), ((0, b), (SIDE, b)), ((a, 0), (a, SIDE)))


def _halves(mark: Segment) -> list[tuple[Spot, ...]]:
    a, b, c, d = square_of(0, 0, SIDE)
    return [(a, b, d), (b, c, d)] if mark == _RISING else [(a, b, c), (a, c, d)]


def _quarters() -> list[tuple[Spot, ...]]:
    ring = square_of(0, 0, SIDE)
    return [(ring[i], ring[(i + 1) % 4], (SIDE / 2, SIDE / 2)) for i in range(4)]


def _eighths() -> list[tuple[Spot, ...]]:
    a, b, c, d = square_of(0, 0, SIDE)
    half = SIDE / 2
    ring = (a, (half, 0.0), b, (SIDE, half), c, (half, SIDE), d, (0.0, half))
    return [(ring[i], ring[(i + 1) % 8], (half, half)) for i in range(8)]


def _clip(line: Segment, piece: tuple[Spot, ...]) -> Segment | None:
    """Return the part of a line inside a convex outline that runs clockwise on the page."""
    (x, y), (end_x, end_y) = line
    low, high = 0.0, 1.0
    for (x1, y1), (x2, y2) in zip(piece, (*piece[1:], piece[0]), strict=True):
        nx, ny = y1 - y2, x2 - x1  # points inward
        at_start = (x - x1) * nx + (y - y1) * ny
        change = (end_x - x) * nx + (end_y - y) * ny
        if abs(change) < 1e-9:
            if at_start < -1e-6:
                return None
        elif change > 0:
            low = max(low, -at_start / change)
        else:
            high = min(high, -at_start / change)
    if high - low < 0.02:
        return None
    dx, dy = end_x - x, end_y - y
    return ((x + dx * low, y + dy * low), (x + dx * high, y + dy * high))
