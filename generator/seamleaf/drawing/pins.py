"""Where to pin: the match points that do not nest, in the joined centre and inside a block."""

from __future__ import annotations

from typing import Final

from seamleaf.booklet.record import Unit
from seamleaf.drawing.colours import INK, PAPER
from seamleaf.drawing.figure import Desk
from seamleaf.drawing.regions import motion_of
from seamleaf.drawing.scene import Circle, Group, Ink, Spot
from seamleaf.lengths import ZERO

_RADIUS: Final = 4.0
_DOT: Final = 1.7
_INSIDE: Final = 1e-6


def pin_mark(spot: Spot) -> Group:
    """Return the mark of a spot to pin: a dot in a ring."""
    ring = Circle(centre=spot, radius=_RADIUS, ink=Ink(fill=PAPER, stroke=INK, width=1.1))
    return Group(parts=(ring, Circle(centre=spot, radius=_DOT, ink=Ink(fill=INK))), tag="pin")


def pins_inside(desk: Desk, unit: Unit) -> list[Spot]:
    """Return the spots to pin inside a block, in its own frame; all its places are alike, and each spot comes once."""
    w, h = unit.finished.w.to_float(), unit.finished.h.to_float()
    pins = [(pin.x.to_float(), pin.y.to_float()) for pin in desk.booklet.pressing.pins]
    reach = (w + h) / 2
    found: dict[Spot, Spot] = {}
    for place in desk.booklet.places:
        if place.unit != unit.id:
            continue
        a, b, c, d, _, _ = motion_of(unit.finished, turn=place.turn, mirror=place.mirror, x=ZERO, y=ZERO).floats()
        left, top = place.x.to_float(), place.y.to_float()
        for dx, dy in ((x - left, y - top) for x, y in pins):
            if abs(dx) < reach and abs(dy) < reach:
                # A turn and a mirroring keep lengths, so their inverse is the same table read by columns.
                x, y = a * dx + b * dy + w / 2, c * dx + d * dy + h / 2
                if _INSIDE < x < w - _INSIDE and _INSIDE < y < h - _INSIDE:
                    found.setdefault((round(x, 4), round(y, 4)), (x, y))
    return [found[key] for key in sorted(found, key=lambda spot: (spot[1], spot[0]))]
