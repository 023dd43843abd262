"""The numbered ruler cuts of a sheet: dashed lines, each with a number in a circle that keeps clear of all else."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from seamleaf.booklet.record import Cut
from seamleaf.drawing.colours import INK, PAPER
from seamleaf.drawing.drafting import CUT, DASH, NUMBER_RADIUS, SEAM, circled
from seamleaf.drawing.labels import Room
from seamleaf.drawing.pens import Extent
from seamleaf.drawing.scene import Circle, Ink, Line, Shape, Spot
from seamleaf.drawing.windows import Held, outlined
from seamleaf.lengths import Length

AWAY: Final = NUMBER_RADIUS + 4
"""From the edge of a sheet, or from a cut, to the middle of a number beside it."""
SECOND: Final = 2 * NUMBER_RADIUS + 3.5
"""From there to a number of the second row."""
_LEADERS: Final = tuple(AWAY + 9 * k for k in range(6))
_DOT: Final = 1.4


@dataclass(frozen=True, slots=True, kw_only=True)
class Way:
    """One way of placing the numbers of a sheet."""

    along: tuple[int, ...]
    """Where they go on cuts inside the sheet, in sixteenths of the cut, the best first."""
    aside: bool = False
    """May they stand on the waste beside a cut, with a leader to it? Then the shortest cuts are numbered first, which
    have the least choice."""
    first_only: bool = False
    """Is a cut that goes on with the one before it, on the same line and as long, left without a number?"""


MIDDLE_FIRST: Final = Way(along=(8, 4, 12, 2, 14, 6, 10, 1, 15))
ENDS_FIRST: Final = Way(along=(3, 13, 2, 14, 5, 11, 8, 1, 15))
ASIDE: Final = Way(along=ENDS_FIRST.along, aside=True)
WAYS: Final = (MIDDLE_FIRST, ENDS_FIRST, ASIDE)
FIRST_ONLY: Final = Way(along=ENDS_FIRST.along, aside=True, first_only=True)
"""For a sheet of so many cuts that they have no room for a number each."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PlacedCuts:
    """The cuts of one line of a sheet, with a place for each number."""

    lines: tuple[tuple[Spot, Spot], ...]
    """Both ends of each cut."""
    numbers: tuple[tuple[int, Spot, Spot | None], ...]
    """Each number, where it stands, and from where a leader goes there if one does."""
    repeats: bool
    """Whether some cuts have no number, for they repeat the one before."""
    left_out: tuple[int, ...]
    """Numbers that have no place of their own, and so none at all."""

    @property
    def clear(self) -> bool:
        """Whether each number has a place of its own."""
        return not self.left_out


def place_cuts(
    cuts: Sequence[Cut], held: Held, size: Spot, scale: float, room: Room, way: Way, *, whole: bool
) -> PlacedCuts | None:
    """Find places for the numbers of the cuts in a window, and note in ``room`` where they stand.

    Args:
        cuts: all of the sheet.
        held: what the window holds.
        size: of the window on the page.
        scale: at which it is drawn.
        room: what is taken, by this too.
        way: how numbers are placed.
        whole: go on where a number finds no place; otherwise return ``None`` then.

    """
    found = [(cut.n, (x1 * scale, y1 * scale), (x2 * scale, y2 * scale)) for cut, (x1, y1), (x2, y2) in held.cuts]
    waste = [outlined(corner, opposite, scale) for _, corner, opposite in held.rests] if way.aside else []
    repeated = _repeated(cuts) if way.first_only else set()
    told = [each for each in found if each[0] not in repeated]
    places: dict[int, tuple[Spot, Spot | None] | None] = {}
    for number, start, end in sorted(told, key=lambda each: _length(*each[1:])) if way.aside else told:
        places[number] = _place(start, end, size, waste, room, way)
        if places[number] is None and not whole:
            return None
    return PlacedCuts(
        lines=tuple((start, end) for _, start, end in found),
        numbers=tuple((number, *place) for number, _, _ in told if (place := places[number]) is not None),
        repeats=len(told) < len(found),
        left_out=tuple(number for number, _, _ in told if places[number] is None),
    )


def draw_dashes(placed: PlacedCuts) -> list[Shape]:
    """Draw the cuts."""
    dashes: list[Shape] = []
    for start, end in placed.lines:
        dashes.append(Line(start=start, end=end, ink=Ink(stroke=PAPER, width=2.2)))
        dashes.append(Line(start=start, end=end, ink=Ink(stroke=INK, width=CUT, dash=DASH)))
    return dashes


def draw_numbers(placed: PlacedCuts) -> list[Shape]:
    """Draw the numbers of the cuts."""
    shapes: list[Shape] = []
    for number, spot, leader in placed.numbers:
        if leader is not None:
            shapes.append(Line(start=leader, end=spot, ink=Ink(stroke=INK, width=SEAM)))
            shapes.append(Circle(centre=leader, radius=_DOT, ink=Ink(fill=INK)))
        shapes.append(circled(number, spot))
    return shapes


def _repeated(cuts: Sequence[Cut]) -> set[int]:
    """Return the numbers of cuts that go on where one on the same line ends, and are as long."""
    last: dict[tuple[str, Length], Cut] = {}
    repeated = set()
    for cut in cuts:
        before = last.get((cut.axis, cut.at))
        goes_on = before is not None and before.span[1] == cut.span[0]
        if before is not None and goes_on and before.span[1] - before.span[0] == cut.span[1] - cut.span[0]:
            repeated.add(cut.n)
        last[cut.axis, cut.at] = cut
    return repeated


def _place(
    start: Spot, end: Spot, size: Spot, waste: Sequence[tuple[Spot, ...]], room: Room, way: Way
) -> tuple[Spot, Spot | None] | None:
    """Place the number of a cut at the first spot that is free: outside, on the cut, or beside it on a leader."""
    for spot in _spots(start, end, size, way):
        box = _circle_box(spot)
        if room.is_free(box):
            room.take(box)
            return spot, None
    (at,) = _along(start, end, (8,))
    for away in (side * step for step in (_LEADERS if waste else ()) for side in (1, -1)):
        spot = (at[0] + away, at[1]) if start[0] == end[0] else (at[0], at[1] + away)
        leader = _leader_box(at, spot)
        on_waste = any(_lies_in(spot, outline) for outline in waste)
        if on_waste and room.is_free(_circle_box(spot)) and room.is_free(leader):
            room.take(_circle_box(spot))
            room.take(leader)
            return spot, at
    return None


def _leader_box(at: Spot, spot: Spot) -> Extent:
    (x1, y1), (x2, y2) = at, spot
    return (min(x1, x2) - 1, min(y1, y2) - 1, max(x1, x2) + 1, max(y1, y2) + 1)


def _spots(start: Spot, end: Spot, size: Spot, way: Way) -> Iterator[Spot]:
    """Yield where a number may go, the best first: outside the sheet if the cut ends there, else on the cut."""
    w, h = size
    (x1, y1), (x2, y2) = start, end
    for out in (AWAY, AWAY + SECOND):
        if x1 == x2:
            if y1 <= 0.01:
                yield (x1, -out)
            if y2 >= h - 0.01:
                yield (x1, h + out)
        else:
            if x1 <= 0.01:
                yield (-out, y1)
            if x2 >= w - 0.01:
                yield (w + out, y1)
    is_short = _length(start, end) < 2 * SECOND
    yield from _along(start, end, MIDDLE_FIRST.along if way.aside and is_short else way.along)


def _along(start: Spot, end: Spot, sixteenths: Iterable[int]) -> Iterator[Spot]:
    (x1, y1), (x2, y2) = start, end
    for k in sixteenths:
        yield (x1 + (x2 - x1) * k / 16, y1 + (y2 - y1) * k / 16)


def _length(start: Spot, end: Spot) -> float:
    return abs(end[0] - start[0]) + abs(end[1] - start[1])


def _lies_in(spot: Spot, outline: tuple[Spot, ...]) -> bool:
    """Return whether a circle lies on a rest, off all of its edges."""
    (left, top), _, (right, bottom), _ = outline
    x, y = spot
    r = NUMBER_RADIUS
    return left <= x - r and x + r <= right and top <= y - r and y + r <= bottom


def _circle_box(spot: Spot) -> Extent:
    x, y = spot
    r = NUMBER_RADIUS + 1.5
    return (x - r, y - r, x + r, y + r)
