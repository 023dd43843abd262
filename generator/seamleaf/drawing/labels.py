"""Where text goes: inside a patch if it fits, and never over other text."""

from __future__ import annotations

import functools
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from seamleaf.drawing.metrics import ASCENT, text_width
from seamleaf.drawing.pens import Extent
from seamleaf.drawing.scene import Spot, Text

_LEADING: Final = 1.2
_AIR: Final = 1.5
"""Least distance of a text's box from the edge of its patch."""
_GRID: Final = 6
"""Places tried along each side of a patch, besides its centre of gravity."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """One line of a label."""

    text: str
    size: float
    bold: bool


Lines = tuple[Line, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Placed:
    """A label that fits: its lines and the middle of its box."""

    lines: Lines
    centre: Spot
    extent: Extent
    turned: bool = False
    """Its lines run upwards."""


class Room:
    """The boxes of a figure that are taken, so that labels keep clear of each other."""

    def __init__(self) -> None:
        self._taken: list[Extent] = []

    def take(self, extent: Extent) -> None:
        """Note a box as taken."""
        self._taken.append(extent)

    def is_free(self, extent: Extent) -> bool:
        """Return whether a box keeps clear of all that is taken."""
        left, top, right, bottom = extent
        for at, (l, t, r, b) in enumerate(self._taken):  # noqa: E741 -- left
            if l < right and left < r and t < bottom and top < b:
                # What is in the way of one place is most often in the way of the next.
                self._taken.insert(0, self._taken.pop(at))
                return False
        return True


@functools.lru_cache(maxsize=2048)
def measure(lines: Lines) -> tuple[float, float]:
    """Return width and height of a label's box."""
    width = max(text_width(line.text, line.size, bold=line.bold) for line in lines)
    return (width, sum(line.size for line in lines) * _LEADING - lines[-1].size * (_LEADING - 1))


def fit(
    spots: Sequence[Spot], lines: Lines, room: Room | None = None, *, turned: bool = False, air: float = _AIR
) -> Placed | None:
    """Place a label inside a convex outline, as near to its centre of gravity as it fits; ``None`` when it does not.

    A ``turned`` one runs upwards. ``air`` is the least distance of its box from the edge.
    """
    w, h = measure(lines)[::-1] if turned else measure(lines)
    xs, ys = [x for x, _ in spots], [y for _, y in spots]
    left, right, top, bottom = min(xs), max(xs), min(ys), max(ys)
    if w + 2 * air > right - left or h + 2 * air > bottom - top:
        return None
    middle = centre_of(spots)
    extent = _box(middle, w, h)
    if _inside(spots, extent, air) and (room is None or room.is_free(extent)):
        return Placed(lines=lines, centre=middle, extent=extent, turned=turned)
    inner_w, inner_h = right - left - w, bottom - top - h
    (middle_x, middle_y), downs = middle, [top + h / 2 + inner_h * j / _GRID for j in range(_GRID + 1)]
    tried = [
        (round((x - middle_x) ** 2 + (y - middle_y) ** 2, 3), (x, y))
        for x in [left + w / 2 + inner_w * i / _GRID for i in range(_GRID + 1)]
        for y in downs
    ]
    tried.sort()
    for _, centre in tried:
        extent = _box(centre, w, h)
        if (room is None or room.is_free(extent)) and _inside(spots, extent, air):
            return Placed(lines=lines, centre=centre, extent=extent, turned=turned)
    return None


def fit_first(spots: Sequence[Spot], texts: Sequence[Lines], room: Room | None = None) -> Placed | None:
    """Place the first of several labels that fits; ``None`` when none does."""
    return next((placed for placed in (fit(spots, lines, room) for lines in texts) if placed is not None), None)


def set_lines(placed: Placed, colour: str) -> list[Text]:
    """Return the text of a placed label."""
    # Along the lines, and across them from the top of the first.
    middle, across = placed.centre[placed.turned], placed.extent[not placed.turned]
    texts = []
    for line in placed.lines:
        base = across + ASCENT * line.size
        x, y = (base, middle) if placed.turned else (middle, base)
        texts.append(
            Text(x=x, y=y, text=line.text, size=line.size, bold=line.bold, turned=placed.turned, colour=colour)
        )
        across += line.size * _LEADING
    return texts


def centre_of(spots: Sequence[Spot]) -> Spot:
    """Return the centre of gravity of a simple polygon."""
    area = x_sum = y_sum = 0.0
    for (x1, y1), (x2, y2) in zip(spots, (*spots[1:], spots[0]), strict=True):
        cross = x1 * y2 - x2 * y1
        area += cross
        x_sum += (x1 + x2) * cross
        y_sum += (y1 + y2) * cross
    return (x_sum / (3 * area), y_sum / (3 * area))


def _box(centre: Spot, w: float, h: float) -> Extent:
    x, y = centre
    return (x - w / 2, y - h / 2, x + w / 2, y + h / 2)


def _inside(spots: Sequence[Spot], extent: Extent, air: float) -> bool:
    """Return whether a box lies inside a convex outline, whichever way round its corners run.

    It is asked tens of thousands of times a quilt, so it stops at the first corner on the other side of some edge.
    """
    left, top, right, bottom = extent
    left, top, right, bottom = left - air, top - air, right + air, bottom + air
    least = most = 0.0
    x1, y1 = spots[-1]
    for x2, y2 in spots:
        dx, dy = x2 - x1, y2 - y1
        above, below = dx * (top - y1), dx * (bottom - y1)
        before, behind = dy * (left - x1), dy * (right - x1)
        for side in (above - before, above - behind, below - before, below - behind):
            if side < least:
                least = side
            elif side > most:
                most = side
        if least < -1e-9 and most > 1e-9:
            return False
        x1, y1 = x2, y2
    return True
