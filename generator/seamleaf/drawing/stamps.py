"""Sewn units as they lie in the quilt, ready to be set down many times: each kind is laid out once a booklet."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final

from seamleaf.booklet.prints import piece_colour
from seamleaf.booklet.record import Place
from seamleaf.drawing.colours import mix
from seamleaf.drawing.figure import Desk, Laid, Use
from seamleaf.drawing.scene import Ink, Path, Spot, Step, closed

_ROOT: Final = math.sqrt(0.5)


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
        self._turned = turned
        self._stamps: dict[tuple[str, int, bool], Stamp] = {}

    def stamp(self, place: Place) -> Stamp:
        """Return the stamp of what lies at a place."""
        key = (place.unit, (place.turn + (45 if self._turned else 0)) % 360, place.mirror)
        done = self._stamps.get(key)
        if done is None:
            done = self._stamps[key] = self._scaled(self._desk.laid(*key))
        return done

    def spot(self, place: Place) -> Spot:
        """Return where the centre of a place's box lies on the page, the centre's own origin at 0."""
        x, y = place.x.to_float() * self._scale, place.y.to_float() * self._scale
        return ((x - y) * _ROOT, (x + y) * _ROOT) if self._turned else (x, y)

    def outline(self, place: Place) -> tuple[Spot, ...]:
        """Return the outline of what lies at a place, where it lies on the page."""
        dx, dy = self.spot(place)
        return tuple((x + dx, y + dy) for x, y in self.stamp(place).outline)

    def _scaled(self, laid: Laid) -> Stamp:
        scale = self._scale
        steps: dict[Use, list[Step]] = {}
        for use, spots in laid.patches:
            steps.setdefault(use, []).extend(closed((x * scale, y * scale) for x, y in spots))
        fills = tuple((use, tuple(path)) for use, path in steps.items())
        return Stamp(outline=tuple((x * scale, y * scale) for x, y in laid.outline), fills=fills)


def colour_at(desk: Desk, use: Use, place: Place) -> str:
    """Return the colour that a fabric shows at a place: the bundle piece that the layout gives it."""
    fabric_id, role = use
    roles = desk.roles.get(place.unit, ())
    if role is not None and (fabric_id, role) in roles[: len(place.prints)]:
        return piece_colour(desk.fabrics[fabric_id], place.prints[roles.index((fabric_id, role))])
    return desk.look(fabric_id, role).colour


def draw_place(desk: Desk, place: Place, stamps: Stamps, *, seams: bool = True) -> list[Path]:
    """Draw what lies at a place about its own centre, one path a fabric, with or without the lines of its seams."""
    paths = []
    for use, steps in stamps.stamp(place).fills:
        colour = colour_at(desk, use, place)
        edge = mix(colour, desk.look(*use).ink, 45) if seams else colour
        paths.append(Path(steps=steps, ink=Ink(fill=colour, stroke=edge, width=0.5, rounded=True)))
    return paths
