"""The wrong side of sewn units: where every seam allowance lies once it is pressed.

An allowance that is pressed to one side shows the wrong side of the part that it is pressed away from, whose edge
runs on over the seam. Pressed open, both edges are folded back and show their right sides. A spun seam has a match
point: there its two halves, and the seams that end on it, are folded the same way round, and a few stitches are
undone so that a little square opens.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Final

from seamleaf.booklet.record import Seam, Unit
from seamleaf.drawing.figure import Desk, Use
from seamleaf.drawing.outlines import NEAR, Segment, Spots, cut_to, direction, moved
from seamleaf.drawing.regions import Piece, motion_of, spots_of
from seamleaf.drawing.scene import Spot
from seamleaf.drawing.spread import seam_direction, side_of

_LEAST: Final = 0.02
"""Length below which a flap is not worth drawing, in units of length."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Fold:
    """A seam, or one half of a spun one, as it is pressed."""

    line: Segment
    lean: Spot | None
    """Unit vector to the side that the allowance lies on; ``None`` when it is open."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Flap:
    """What is seen of one patch's allowance at one seam."""

    fold: int
    """Index of its fold."""
    use: Use
    spots: Spots
    turned_up: bool
    """Whether it shows the right side of its fabric, as when it is pressed open."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Back:
    """A unit's wrong side, in the unit's own frame and seen from its right side."""

    folds: tuple[Fold, ...]
    flaps: tuple[Flap, ...]
    """In sewing order: later ones cover earlier ones."""
    openings: tuple[Spots, ...]
    """The little squares in the middle of spun seams, as diamonds or upright, corner by corner."""


class Backs:
    """The wrong sides of a booklet's units, each computed once."""

    def __init__(self, desk: Desk, width: float) -> None:
        """Take the width of the allowances in units of length: as a rule a little more than they really have."""
        self._desk = desk
        self.width = width
        self._done: dict[str, Back] = {}

    def of(self, unit_id: str) -> Back:
        """Return the wrong side of a unit."""
        done = self._done.get(unit_id)
        if done is None:
            done = self._done[unit_id] = self._back(self._desk.units[unit_id])
        return done

    def _back(self, unit: Unit) -> Back:
        folds: list[Fold] = []
        flaps: list[Flap] = []
        openings: list[Spots] = []
        for take in unit.from_:
            if take.unit is not None:
                box = self._desk.units[take.unit].finished
                motion = motion_of(box, turn=take.turn, mirror=take.mirror, x=take.x, y=take.y).floats()
                inner = self.of(take.unit)
                flaps += (_moved_flap(flap, motion, len(folds)) for flap in inner.flaps)
                folds += (_moved_fold(fold, motion) for fold in inner.folds)
                openings += (_moved(spots, motion) for spots in inner.openings)
        pieces = self._desk.pieces(unit.id)
        box_corners = spots_of(unit.outline)
        for seam in self._desk.seams_of(unit):
            own, opening = self._folds(seam, pieces, folds)
            openings += opening
            for fold in own:
                flaps += _flaps(len(folds), fold, pieces, self.width, box_corners)
                folds.append(fold)
        return Back(folds=tuple(folds), flaps=tuple(flaps), openings=tuple(openings))

    def _folds(
        self, seam: Seam, pieces: Sequence[Piece], earlier: Sequence[Fold]
    ) -> tuple[tuple[Fold, ...], tuple[Spots, ...]]:
        """Return the folds of a seam and, if it is spun, the square that opens in its middle."""
        a, b = spots_of(seam.line)
        if seam.press == "open":
            return (Fold(line=(a, b), lean=None),), ()
        dx, dy = seam_direction(seam, pieces)
        middle = _spun_at((a, b), earlier) if seam.press == "spin" else None
        if middle is None:
            lean = (-dx, -dy) if seam.press == "before" else (dx, dy)
            return (Fold(line=(a, b), lean=lean),), ()
        (x, y), turn = middle
        ux, uy = direction((a, b))
        nx, ny = -uy * turn, ux * turn
        k = self.width
        corners = ((1, 1), (-1, 1), (-1, -1), (1, -1))
        opening = tuple((x + (i * ux - j * uy) * k, y + (i * uy + j * ux) * k) for i, j in corners)
        halves = (Fold(line=(a, (x, y)), lean=(-nx, -ny)), Fold(line=((x, y), b), lean=(nx, ny)))
        return halves, (opening,)


Floats = tuple[float, float, float, float, float, float]


def _spun_at(line: Segment, earlier: Sequence[Fold]) -> tuple[Spot, int] | None:
    """Return the match point of a spun seam, and 1 when all is folded clockwise round it, -1 when the other way."""
    (ax, ay), (ux, uy) = line[0], direction(line)
    length = (line[1][0] - ax) * ux + (line[1][1] - ay) * uy
    ends: dict[tuple[float, float], dict[bool, Fold]] = {}
    for fold in earlier:
        for end, other in (fold.line, fold.line[::-1]):
            along, off = (end[0] - ax) * ux + (end[1] - ay) * uy, (end[1] - ay) * ux - (end[0] - ax) * uy
            away = (other[1] - ay) * ux - (other[0] - ax) * uy
            if abs(off) < NEAR and NEAR < along < length - NEAR and abs(away) > NEAR:
                ends.setdefault((round(end[0], 4), round(end[1], 4)), {})[away > 0] = fold
    for spot, sides in ends.items():
        if set(sides) == {True, False}:
            lean = sides[True].lean or (0.0, 0.0)
            return spot, (-1 if lean[0] * ux + lean[1] * uy > 0 else 1)
    return None


def _flaps(index: int, fold: Fold, pieces: Sequence[Piece], width: float, window: Spots) -> list[Flap]:
    """Return what is seen of the patches' allowances along one fold, within the unit."""
    (ax, ay), (ux, uy) = fold.line[0], direction(fold.line)
    length = (fold.line[1][0] - ax) * ux + (fold.line[1][1] - ay) * uy
    flaps = []
    for piece in pieces:
        side = side_of(piece.spots, (ax, ay), (-uy, ux))
        out = (-uy * side, ux * side)
        if fold.lean is not None and out[0] * fold.lean[0] + out[1] * fold.lean[1] > 0:
            continue  # on the side that the allowance is pressed to
        toward = out if fold.lean is None else fold.lean
        for p, q in zip(piece.spots, (*piece.spots[1:], piece.spots[0]), strict=True):
            off = [(y - ay) * ux - (x - ax) * uy for x, y in (p, q)]
            start, end = sorted((x - ax) * ux + (y - ay) * uy for x, y in (p, q))
            start, end = max(start, 0.0), min(end, length)
            if max(map(abs, off)) > NEAR or end - start < _LEAST:
                continue
            edge = ((ax + ux * start, ay + uy * start), (ax + ux * end, ay + uy * end))
            spots = (*edge, *reversed(moved(edge, toward[0] * width, toward[1] * width)))
            use = (piece.fabric, piece.print)
            flaps.append(Flap(fold=index, use=use, spots=cut_to(spots, window), turned_up=fold.lean is None))
    return flaps


def _moved(spots: Spots, motion: Floats) -> Spots:
    a, b, c, d, e, f = motion
    return tuple((a * x + c * y + e, b * x + d * y + f) for x, y in spots)


def _moved_fold(fold: Fold, motion: Floats) -> Fold:
    start, end = _moved(fold.line, motion)
    lean = None if fold.lean is None else _moved((fold.lean,), (*motion[:4], 0.0, 0.0))[0]
    return Fold(line=(start, end), lean=lean)


def _moved_flap(flap: Flap, motion: Floats, offset: int) -> Flap:
    return replace(flap, fold=flap.fold + offset, spots=_moved(flap.spots, motion))
