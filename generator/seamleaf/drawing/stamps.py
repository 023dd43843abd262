"""Sewn units as they lie in the quilt, ready to be set down many times: each kind is computed once a figure."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final

from seamleaf.booklet.record import Place
from seamleaf.drawing.figure import Desk
from seamleaf.drawing.looks import print_colour
from seamleaf.drawing.regions import motion_of, spots_of
from seamleaf.drawing.scene import Spot, Step, closed

_ROOT: Final = math.sqrt(0.5)
Use = tuple[str, int | None]
"""A fabric and, for a bundle, its print role."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Stamp:
    """A unit about its own centre, scaled: its outline, and its patches as one path a fabric and print role."""

    outline: tuple[Spot, ...]
    fills: tuple[tuple[Use, tuple[Step, ...]], ...]


class Stamps:
    """The stamps of one figure: one scale, and all places turned alike."""

    def __init__(self, desk: Desk, scale: float, *, turned: bool = False) -> None:
        """Take the scale in points a unit of length; ``turned`` lays diagonal rows level."""
        self._desk = desk
        self._scale = scale
        self._extra = 45 if turned else 0
        self._stamps: dict[tuple[str, int, bool], Stamp] = {}

    def stamp(self, place: Place) -> Stamp:
        """Return the stamp of what lies at a place."""
        key = (place.unit, place.turn, place.mirror)
        done = self._stamps.get(key)
        if done is None:
            done = self._stamps[key] = self._make(place)
        return done

    def spot(self, place: Place) -> Spot:
        """Return where the centre of a place's box lies on the page, the centre's own origin at 0."""
        x, y = place.x.to_float() * self._scale, place.y.to_float() * self._scale
        return ((x - y) * _ROOT, (x + y) * _ROOT) if self._extra else (x, y)

    def _make(self, place: Place) -> Stamp:
        unit = self._desk.units[place.unit]
        motion = motion_of(place, unit.finished, self._extra)
        a, b, c, d, e, f = motion.floats()
        cx, cy = place.x.to_float(), place.y.to_float()
        scale = self._scale

        def move(spots: tuple[Spot, ...]) -> tuple[Spot, ...]:
            return tuple(((a * x + c * y + e - cx) * scale, (b * x + d * y + f - cy) * scale) for x, y in spots)

        steps: dict[Use, list[Step]] = {}
        for piece in self._desk.pieces(place.unit):
            steps.setdefault((piece.fabric, piece.print), []).extend(closed(move(piece.spots)))
        fills = tuple((use, tuple(path)) for use, path in steps.items())
        return Stamp(outline=move(spots_of(unit.outline)), fills=fills)


def colour_at(desk: Desk, use: Use, place: Place) -> str:
    """Return the colour that a fabric shows at a place: the bundle piece that the layout gives it."""
    fabric_id, role = use
    if role is not None and role <= len(place.prints):
        return print_colour(desk.fabrics[fabric_id], place.prints[role - 1])
    return desk.look(fabric_id, role).colour
