"""The seams of a sashed set on point: where they run, and in which order all of them are straight.

Worked out in the frame of the blocks, before it is turned: u runs to the lower right, along the block's x axis, and
v to the lower left, along its y axis. Rows run along v, from large v to small; joins between rows are lines u = at.

A side triangle is as long as a block and a sash. So it is sewn to a row of blocks and the row of sashes beside it,
once those are joined. With outer sashes, triangles of the left and top edge (early ones) take the sashes before the
row, and those of the right and bottom edge (late ones) the sashes after it; without them the other way round.
A row with both kinds, as quilts have that are two or more blocks longer than wide, joins the sashes before it; its
late triangle is sewn to the row alone and that seam left open at its end, until the next sashes close it.
(Derived; tests and the proof see that every seam, in this order, is one straight line.)
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise

from seamleaf.lengths import Length
from seamleaf.planning.frames import rotated
from seamleaf.planning.records import Point
from seamleaf.sizing import Quilt
from seamleaf.sizing.diagonal import first_centre, pitch_of
from seamleaf.sizing.spots import Spot

HALF = Fraction(1, 2)
EARLY = (135, 225)
"""Turns of side triangles on the left and the top edge."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Stretch:
    """A seam: of a row along v = at, with u from low to high; between rows the other way round."""

    at: Length
    low: Length
    high: Length


@dataclass(frozen=True, slots=True, kw_only=True)
class _Extent:
    """A spot's box in the frame of the blocks; of a triangle also where its square corner is."""

    u: tuple[Length, Length]
    v: tuple[Length, Length]
    square: Point | None


class Diagonal:
    """The seams of one quilt. Rows are counted from 1, the seams of a row from 1 too, as in the booklet."""

    def __init__(self, quilt: Quilt) -> None:
        self._quilt = quilt
        setting = quilt.pattern.setting
        self._leg = pitch_of(setting, quilt.block_w)
        self._first = first_centre(setting, quilt.block_w)
        self._extents = [self._extent(spot) for spot in quilt.layout.spots]
        self._outer = setting.sashing is not None and setting.sashing.outer

    def point(self, u: Length, v: Length) -> Point:
        """Return a point of the centre's frame."""
        x, y = rotated((u, v), 45)
        return x + self._first, y + self._first

    def _extent(self, spot: Spot) -> _Extent:
        u, v = rotated((spot.x - self._first, spot.y - self._first), 315)
        if spot.kind != "side":
            w, h = (spot.w * HALF, spot.h * HALF) if spot.turn in (45, 225) else (spot.h * HALF, spot.w * HALF)
            return _Extent(u=(u - w, u + w), v=(v - h, v + h), square=None)
        half = self._leg * HALF
        to_u, to_v = {225: (1, 1), 315: (-1, 1), 45: (-1, -1), 135: (1, -1)}[spot.turn]
        return _Extent(u=(u - half, u + half), v=(v - half, v + half), square=(u + half * to_u, v + half * to_v))

    # ------------------------------------------------------------------------------------- where seams run

    def row_seams(self, row: int) -> list[Stretch]:
        """Return the seams of a row in sewing order."""
        found: list[Stretch] = []
        for a, b in pairwise(self._quilt.layout.rows[row - 1]):
            one, other = self._extents[a], self._extents[b]
            triangle = next((each for each in (one, other) if each.square), None)
            low, high = triangle.u if triangle else one.u
            found.append(Stretch(at=one.v[0], low=low, high=high))
        return found

    def joins(self) -> list[Stretch]:
        """Return the seam between each row and the next: as far as something lies on both sides of the line."""
        spots = self._quilt.layout.spots
        triangles = [each for each in self._extents if each.square]
        found: list[Stretch] = []
        for upper, lower in pairwise(self._quilt.layout.rows):
            sides = [[self._extents[i] for i in row if spots[i].kind != "side"] for row in (upper, lower)]
            at = sides[0][0].u[1]
            for triangle in triangles:
                if triangle.square and triangle.square[0] == at:
                    sides[triangle.u[0] == at].append(triangle)
            low = max(min(each.v[0] for each in side) for side in sides)
            high = min(max(each.v[1] for each in side) for side in sides)
            found.append(Stretch(at=at, low=low, high=high))
        return found

    # ------------------------------------------------------------------------------------------- the order

    def beside(self, row: int) -> int | None:
        """Return the row of sashes that a row of blocks is joined to before its side triangles are sewn on."""
        early = [self._is_early(index) for index in self._ends(row)]
        if not early:
            return None
        return row - 1 if any(early) == self._outer else row + 1

    def left_open(self, row: int) -> tuple[int, ...]:
        """Return the side triangles of a row, as spots, whose seam stays open at its end until the next join."""
        ends = self._ends(row)
        early = [index for index in ends if self._is_early(index)]
        return tuple(index for index in ends if index not in early) if early else ()

    def late_joins(self) -> list[int]:
        """Return the rows whose join to the next one no side triangle waits for."""
        rows = range(1, len(self._quilt.layout.rows) + 1)
        early = {min(row, beside) for row in rows if (beside := self.beside(row)) is not None}
        return [row for row in rows[:-1] if row not in early]

    def sewing_order(self, half: int | None) -> Iterator[tuple[str, int, int]]:
        """Yield every seam of rows and between rows: ``("row", row, position)`` or ``("rows", row, 0)``.

        ``half``, one of the late joins, comes last.
        """
        rows = range(1, len(self._quilt.layout.rows) + 1)
        for row in rows:
            yield from (("row", row, n) for n in self._positions(row) if self._is_first(row, n))
        for row in rows:
            beside = self.beside(row)
            if beside is not None:
                yield "rows", min(row, beside), 0
                yield from (("row", row, n) for n in self._positions(row) if not self._is_first(row, n))
        yield from (("rows", row, 0) for row in sorted(self.late_joins(), key=lambda row: (row == half, row)))

    def _positions(self, row: int) -> range:
        return range(1, len(self._quilt.layout.rows[row - 1]))

    def _is_first(self, row: int, position: int) -> bool:
        """Whether a seam of a row is sewn before the row is joined to any other."""
        items = self._quilt.layout.rows[row - 1]
        ends = [i for i in items[position - 1 : position + 1] if self._quilt.layout.spots[i].kind == "side"]
        return all(index in self.left_open(row) for index in ends)

    def _ends(self, row: int) -> list[int]:
        items = self._quilt.layout.rows[row - 1]
        return [index for index in items if self._quilt.layout.spots[index].kind == "side"]

    def _is_early(self, index: int) -> bool:
        return self._quilt.layout.spots[index].turn in EARLY
