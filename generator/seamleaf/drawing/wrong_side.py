"""Wrong-side figures: units with a spun seam, and blocks A and B beside each other, as they lie after pressing."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from seamleaf.booklet.record import Unit
from seamleaf.drawing.backs import Back, Backs
from seamleaf.drawing.colours import INK, PAPER, mix
from seamleaf.drawing.drafting import EDGE, PAGE, SEAM, STEP, Panel, draw_patch, label_lines, lay_out
from seamleaf.drawing.figure import Desk, Sketch
from seamleaf.drawing.labels import Room, fit
from seamleaf.drawing.looks import Look
from seamleaf.drawing.outlines import Spots, box_of, slices, widened
from seamleaf.drawing.scene import Group, Ink, Line, Polygon, Shape
from seamleaf.drawing.wording import say, spoken

_ALONE: Final = 200.0
_BESIDE: Final = 192.0
_LEAST_WIDTH: Final = 7.0
"""Of an allowance on the page, where the patches are large enough for it."""
_OF_PATCH: Final = 0.35
"""Share of the smallest patch that an allowance may take when it is drawn wider than it is."""
_PALER: Final = 45
"""Percent of paper in the colour of an allowance that shows its wrong side."""
_SLICE: Final = 3.0
_UNLIKE: Final = 2.0
"""Edge of an allowance that lies otherwise than that of the other block."""


def wrong_units(desk: Desk) -> list[tuple[Unit, Unit | None]]:
    """Return the units whose wrong side is shown: each block A with its B, and every other one with a spun seam."""
    shown: list[tuple[Unit, Unit | None]] = []
    beside: set[str] = set()
    for unit in desk.booklet.units:
        other = desk.units.get(f"{unit.id}.B") if unit.variant == "A" and unit.block is not None else None
        if other is not None:
            beside.add(other.id)
        if other is not None or any(seam.press == "spin" for seam in desk.seams_of(unit)):
            shown.append((unit, other))
    return [(unit, other) for unit, other in shown if unit.id not in beside]


def wrong_sketches(desk: Desk) -> list[Sketch]:
    """Return ``wrong-X`` for each of these units."""
    return [_spun(desk, unit) if other is None else _a_and_b(desk, unit, other) for unit, other in wrong_units(desk)]


def _spun(desk: Desk, unit: Unit) -> Sketch:
    scale = _ALONE / max(unit.finished.w, unit.finished.h).to_float()
    backs = Backs(desk, _width(desk, unit, scale))
    caption = say("figure.wrong.spun", unit=spoken(unit.id))
    panel = Panel(parts=draw_back(desk, unit, backs, scale), caption=caption, tag=f"wrong {unit.id}")
    return Sketch(
        id=f"wrong-{unit.id}",
        kind="wrong",
        title=say("figure.wrong.spun-title", unit=spoken(unit.id)),
        desc=caption,
        scene=lay_out([panel], width=STEP),
        about={"unit": unit.id},
    )


def _a_and_b(desk: Desk, unit: Unit, other: Unit) -> Sketch:
    scale = _BESIDE / max(unit.finished.w, unit.finished.h).to_float()
    backs = Backs(desk, _width(desk, unit, scale))
    one, two = backs.of(unit.id), backs.of(other.id)
    unlike = _unlike(one, two)
    panels = [
        Panel(
            parts=draw_back(desk, each, backs, scale, unlike=unlike),
            caption=say("figure.wrong.variant", variant=each.variant, unit=spoken(each.id)),
            tag=f"wrong {each.id}",
        )
        for each in (unit, other)
    ]
    return Sketch(
        id=f"wrong-{unit.id}",
        kind="wrong",
        title=say("figure.wrong.title", first=spoken(unit.id), second=spoken(other.id)),
        desc=" ".join(f"{panel.caption}." for panel in panels),
        scene=lay_out(panels, width=PAGE),
        about={"unit": unit.id, "other": other.id},
    )


def _unlike(one: Back, two: Back) -> frozenset[int]:
    """Return the folds that lie otherwise in B than in A; both are sewn alike, so their folds come in one order."""
    pairs = zip(one.folds, two.folds, strict=False)
    return frozenset(i for i, (a, b) in enumerate(pairs) if not _alike(a.lean, b.lean))


def _alike(one: tuple[float, float] | None, other: tuple[float, float] | None) -> bool:
    if one is None or other is None:
        return one is other
    return one[0] * other[0] + one[1] * other[1] > 0


def _width(desk: Desk, unit: Unit, scale: float) -> float:
    """Return how wide allowances are drawn, in units of length: as they are, or a little wider where that is narrow."""
    boxes = [box_of(piece.spots) for piece in desk.pieces(unit.id)]
    smallest = min(min(right - left, bottom - top) for left, top, right, bottom in boxes)
    return max(desk.booklet.seam.to_float(), min(_LEAST_WIDTH / scale, smallest * _OF_PATCH))


def draw_back(
    desk: Desk, unit: Unit, backs: Backs, scale: float, *, unlike: frozenset[int] = frozenset()
) -> tuple[Shape, ...]:
    """Draw a unit as sewn from its wrong side: mirrored left to right, with the allowances as they are pressed."""
    back = backs.of(unit.id)
    w, h = unit.finished.w.to_float(), unit.finished.h.to_float()

    def seen(spots: Spots) -> Spots:
        return tuple(((w - x) * scale, y * scale) for x, y in spots)

    flaps = [(flap, seen(widened(flap.spots, w, h, backs.width))) for flap in back.flaps]
    boxed = [(taken, box_of(taken)) for _, taken in flaps]
    parts: list[Shape] = []
    for piece in desk.pieces(unit.id):
        spots = seen(piece.spots)
        placed = fit(spots, label_lines(piece.label), _room_beside(spots, boxed))
        cut = seen(widened(piece.spots, w, h, backs.width))
        look = desk.look(piece.fabric, piece.print)
        parts.append(draw_patch(cut, look, wrong=True, placed=placed, tag=f"patch {piece.label}"))
    for flap, spots in flaps:
        parts.append(draw_flap(spots, desk.look(*flap.use), turned_up=flap.turned_up, heavy=flap.fold in unlike))
    parts += (_draw_opening(seen(opening)) for opening in back.openings)
    edge = Ink(stroke=INK, width=EDGE, rounded=True)
    box: Spots = ((0.0, 0.0), (w, 0.0), (w, h), (0.0, h))
    parts.append(Polygon(points=seen(widened(box, w, h, backs.width)), ink=edge))
    return tuple(parts)


def draw_flap(spots: Spots, look: Look, *, turned_up: bool = False, heavy: bool = False) -> Group:
    """Draw an allowance on the wrong side; ``turned_up`` shows the right side of its fabric."""
    fill = look.colour if turned_up else mix(look.colour, PAPER, _PALER)
    ink = Ink(fill=fill, stroke=INK, width=_UNLIKE if heavy else SEAM, rounded=True)
    return Group(parts=(Polygon(points=spots, ink=ink),), tag="flap")


def _draw_opening(spots: Spots) -> Group:
    """Draw the little square that opens in the middle of a spun seam, with its own four seams."""
    ink = Ink(stroke=INK, width=SEAM)
    middles = [((p[0] + q[0]) / 2, (p[1] + q[1]) / 2) for p, q in zip(spots, (*spots[1:], spots[0]), strict=True)]
    cross = [Line(start=middles[i], end=middles[i + 2], ink=ink) for i in (0, 1)]
    return Group(parts=(*cross, Polygon(points=spots, ink=Ink(stroke=INK, width=EDGE, rounded=True))), tag="opening")


def _room_beside(spots: Spots, flaps: Sequence[tuple[Spots, tuple[float, float, float, float]]]) -> Room:
    """Return the room of a patch in which the flaps are taken that lie on it, in level slices; each with its box."""
    room = Room()
    left, top, right, bottom = box_of(spots)
    for flap, (x1, y1, x2, y2) in flaps:
        if x1 < right and left < x2 and y1 < bottom and top < y2:
            for slice_ in slices(flap, _SLICE):
                room.take(slice_)
    return room
