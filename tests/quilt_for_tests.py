"""A published quilt put together again with shapely, by the words of the format alone.

Nothing here is taken from the planners: frames are placed as the format says (mirror, turn clockwise about the
centre of the box, move), in floating point, and areas and unions are shapely's.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from dataclasses import dataclass

from shapely.geometry import Point as ShapelyPoint
from shapely.geometry import Polygon

from seamleaf.booklet import Booklet
from seamleaf.booklet.record import Box, Place, Take, Unit

XY = tuple[float, float]
Placing = Callable[[XY], XY]


def placing(box: Box, x: float, y: float, turn: int, *, mirror: bool) -> Placing:
    """Return how a box is placed so that its centre lies at (x, y)."""
    w, h = box.w.to_float(), box.h.to_float()
    cos, sin = math.cos(math.radians(turn)), math.sin(math.radians(turn))

    def place(point: XY) -> XY:
        dx, dy = point[0] - w / 2, point[1] - h / 2
        if mirror:
            dx = -dx
        # Clockwise, since y runs down.
        return x + dx * cos - dy * sin, y + dx * sin + dy * cos

    return place


def units_by_id(booklet: Booklet) -> dict[str, Unit]:
    """Return the units by their ids."""
    return {unit.id: unit for unit in booklet.units}


def place_of(item: Place | Take, unit: Unit) -> Placing:
    """Return how a unit is placed in the centre or in another unit."""
    return placing(unit.finished, item.x.to_float(), item.y.to_float(), item.turn, mirror=item.mirror)


def strips_of_borders(booklet: Booklet) -> Iterator[tuple[Unit, Placing]]:
    """Yield the strips of pieced borders with how each lies in the centre's frame, the middle of its edge known."""
    units = units_by_id(booklet)
    w, h = booklet.set.centre.w.to_float(), booklet.set.centre.h.to_float()
    out = 0.0
    for border in booklet.borders:
        away = out + border.width.to_float() / 2
        at = {"left": (-away, h / 2), "right": (w + away, h / 2), "top": (w / 2, -away), "bottom": (w / 2, h + away)}
        for strip in border.strips:
            if strip.unit is not None:
                unit = units[strip.unit]
                yield unit, placing(unit.finished, *at[strip.edge], strip.turn, mirror=False)
        out += border.width.to_float()


@dataclass(frozen=True, kw_only=True)
class Laid:
    """One patch where it lies."""

    label: str
    fabric: str
    polygon: Polygon


def patches_of(unit: Unit, units: dict[str, Unit]) -> Iterator[Laid]:
    """Yield every patch of one unit in the unit's frame, those of the units that it takes among them."""
    for region in unit.regions:
        outline = [(x.to_float(), y.to_float()) for x, y in region.outline]
        yield Laid(label=region.label, fabric=region.fabric, polygon=Polygon(outline))
    for take in unit.from_:
        if take.unit is not None:
            inner = units[take.unit]
            yield from moved(patches_of(inner, units), place_of(take, inner))


def moved(patches: Iterator[Laid], place: Placing) -> Iterator[Laid]:
    """Yield patches mapped into another frame."""
    for patch in patches:
        corners = list(patch.polygon.exterior.coords)[:-1]
        yield Laid(label=patch.label, fabric=patch.fabric, polygon=Polygon([place(corner) for corner in corners]))


def patches_of_centre(booklet: Booklet) -> list[Laid]:
    """Return every patch of the centre in the centre's frame."""
    units = units_by_id(booklet)
    return [
        patch
        for place in booklet.places
        for patch in moved(patches_of(units[place.unit], units), place_of(place, units[place.unit]))
    ]


def fabric_at(patches: list[Laid], x: float, y: float) -> str:
    """Return the fabric of the one patch that holds a point."""
    (fabric,) = (patch.fabric for patch in patches if patch.polygon.contains(ShapelyPoint(x, y)))
    return fabric
