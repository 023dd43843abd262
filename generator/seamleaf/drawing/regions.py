"""A unit laid flat: the patches it shows, in its own frame, by exact moves.

The frames are those of the booklet: mirror first, then turn clockwise about the centre of the box, then move the centre
to its place. Turns are multiples of 45 degrees, whose sines and cosines are 0, 1 and sqrt(2)/2, so every corner of
every patch stays an exact length.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import Final

from seamleaf.booklet.record import Box, Outline, Point, Unit
from seamleaf.drawing.scene import Spot
from seamleaf.lengths import ZERO, Length

_ONE: Final = Length(1)
_DIAGONAL: Final = Length(0, Fraction(1, 2))
_COSINES: Final = {
    0: _ONE, 45: _DIAGONAL, 90: ZERO, 135: -_DIAGONAL, 180: -_ONE, 225: -_DIAGONAL, 270: ZERO, 315: _DIAGONAL,
}  # fmt: skip
_SHOWS_CHILDREN: Final = {"join", "around", "partial", "diamond", "corners", "strip-set", "patch"}
"""Ways of sewing that leave the units taken whole; the others cut them up, and their regions tell it all."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Motion:
    """The affine map x' = a*x + c*y + e, y' = b*x + d*y + f, exact."""

    a: Length
    b: Length
    c: Length
    d: Length
    e: Length
    f: Length

    def apply(self, point: Point) -> Point:
        """Move a point, exactly."""
        x, y = point
        return (self.a * x + self.c * y + self.e, self.b * x + self.d * y + self.f)

    def floats(self) -> tuple[float, float, float, float, float, float]:
        """Return the six numbers for drawing."""
        return (
            self.a.to_float(), self.b.to_float(), self.c.to_float(),
            self.d.to_float(), self.e.to_float(), self.f.to_float(),
        )  # fmt: skip


def motion_of(box: Box, *, turn: int, mirror: bool, x: Length = ZERO, y: Length = ZERO) -> Motion:
    """Return the move that mirrors and turns a unit of this box, and lays its centre at (x, y)."""
    cosine, sine = _COSINES[turn % 360], _COSINES[(turn - 90) % 360]
    flip = -1 if mirror else 1
    a, b, c, d = cosine * flip, sine * flip, -sine, cosine
    middle_x, middle_y = box.w / 2, box.h / 2
    e = x - (a * middle_x + c * middle_y)
    f = y - (b * middle_x + d * middle_y)
    return Motion(a=a, b=b, c=c, d=d, e=e, f=f)


@dataclass(frozen=True, slots=True, kw_only=True)
class Piece:
    """One patch as it shows in a sewn unit, its outline exact and for drawing."""

    label: str
    fabric: str
    print: int | None
    outline: Outline
    spots: tuple[Spot, ...]


def spots_of(outline: Outline) -> tuple[Spot, ...]:
    """Return an outline in floats, for drawing and nothing else."""
    return tuple((x.to_float(), y.to_float()) for x, y in outline)


class Flat:
    """Every unit of a booklet laid flat, each computed once."""

    def __init__(self, units: dict[str, Unit]) -> None:
        self._units = units
        self._pieces: dict[str, tuple[Piece, ...]] = {}

    def pieces(self, unit_id: str) -> tuple[Piece, ...]:
        """Return the patches that a unit shows: its own first, then those of the units that it takes."""
        done = self._pieces.get(unit_id)
        if done is None:
            done = self._pieces[unit_id] = tuple(self._flatten(self._units[unit_id]))
        return done

    def _flatten(self, unit: Unit) -> list[Piece]:
        pieces = [
            Piece(label=r.label, fabric=r.fabric, print=r.print, outline=r.outline, spots=spots_of(r.outline))
            for r in unit.regions
        ]
        if unit.how not in _SHOWS_CHILDREN:
            return pieces
        for take in unit.from_:
            if take.unit is None:
                continue
            box = self._units[take.unit].finished
            motion = motion_of(box, turn=take.turn, mirror=take.mirror, x=take.x, y=take.y)
            for piece in self.pieces(take.unit):
                outline = tuple(motion.apply(point) for point in piece.outline)
                pieces.append(
                    Piece(
                        label=piece.label,
                        fabric=piece.fabric,
                        print=piece.print,
                        outline=outline,
                        spots=spots_of(outline),
                    )
                )
        return pieces
