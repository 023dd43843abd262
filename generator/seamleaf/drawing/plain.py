"""The quilt as plain data, for a script that colours it: shapes by fabric and print role, and where they lie."""

from __future__ import annotations

from typing import Any, Final

from seamleaf.booklet.record import Booklet
from seamleaf.drawing.borders import border_sides, centre_corner, strip_look
from seamleaf.drawing.figure import Desk
from seamleaf.drawing.pieced_strips import strip_patches, strip_unit
from seamleaf.drawing.scene import Spot
from seamleaf.drawing.stamps import Stamps
from seamleaf.drawing.svg import number

_LONG: Final = 1000.0
"""The longer side of the picture."""


def plain_quilt(booklet: Booklet) -> dict[str, Any]:
    """Return the picture of a quilt as JSON values.

    ``stamps`` are units as they lie: an outline and paths, each with its fabric and print role, about the unit's own
    centre; ``places`` say for every place its stamp and centre, in the order of the booklet; ``borders`` are polygons
    with their fabrics; ``binding`` is the fabric of the rim.
    """
    desk = Desk(booklet)
    w, h = booklet.finished.w.to_float(), booklet.finished.h.to_float()
    scale = _LONG / max(w, h)
    stamps = Stamps(desk, scale)
    left, top = centre_corner(booklet, scale, within=booklet.finished)
    shapes: list[dict[str, Any]] = []
    known: dict[int, int] = {}
    places: list[list[Any]] = []
    for place in booklet.places:
        stamp = stamps.stamp(place)
        if id(stamp) not in known:
            known[id(stamp)] = len(shapes)
            fills = [
                [fabric, role, "".join(code + " ".join(map(number, at)) for code, at in steps)]
                for (fabric, role), steps in stamp.fills
            ]
            shapes.append({"outline": _points(stamp.outline), "fills": fills})
        dx, dy = stamps.spot(place)
        places.append([known[id(stamp)], number(left + dx), number(top + dy)])
    borders: list[list[str]] = []
    for border in booklet.borders:
        for name, spots in border_sides(booklet, border, scale).items():
            if strip_unit(border, name):
                patches = strip_patches(desk, border, name, spots)
                borders += [[fabric, _points(tuple(outline))] for (fabric, _), outline in patches]
            else:
                borders.append([strip_look(desk, border, name).fabric, _points(spots)])
    return {
        "w": number(w * scale),
        "h": number(h * scale),
        "stamps": shapes,
        "places": places,
        "borders": borders,
        "binding": booklet.binding.fabric if booklet.binding else None,
    }


def _points(spots: tuple[Spot, ...]) -> str:
    return " ".join(f"{number(x)},{number(y)}" for x, y in spots)
