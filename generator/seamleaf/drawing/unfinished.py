"""Sewn units with the allowance that they have at their edges until they are sewn on."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from seamleaf.booklet.record import Unit
from seamleaf.drawing.drafting import draw_patch, label_lines, scaled
from seamleaf.drawing.figure import Desk
from seamleaf.drawing.labels import Room, fit
from seamleaf.drawing.outlines import Spots, grown, widened
from seamleaf.drawing.regions import motion_of, spots_of
from seamleaf.drawing.scene import Group


@dataclass(frozen=True, slots=True, kw_only=True)
class CutPatch:
    """One patch on the page: its finished outline, and the same with its part of the allowance."""

    label: str
    finished: Spots
    cut: Spots


def centre_of_unit(desk: Desk, unit: Unit, scale: float) -> list[CutPatch]:
    """Return the centre of a unit that is sewn round one, in the unit's frame."""
    allowance = desk.booklet.seam.to_float()
    take = unit.from_[0]
    if take.unit is None:
        outline = spots_of(unit.regions[0].outline)
        cut = scaled(grown(outline, allowance), scale)
        return [CutPatch(label=unit.regions[0].label, finished=scaled(outline, scale), cut=cut)]
    box = desk.units[take.unit].finished
    w, h = box.w.to_float(), box.h.to_float()
    a, b, c, d, e, f = motion_of(box, turn=take.turn, mirror=take.mirror, x=take.x, y=take.y).floats()

    def move(spots: Spots) -> Spots:
        return tuple(((a * x + c * y + e) * scale, (b * x + d * y + f) * scale) for x, y in spots)

    return [
        CutPatch(label=p.label, finished=move(p.spots), cut=move(widened(p.spots, w, h, allowance)))
        for p in desk.pieces(take.unit)
    ]


def draw_cut(desk: Desk, patches: Sequence[CutPatch], clear: Room) -> list[Group]:
    """Draw such patches right side up, with their labels where these fit clear of what is taken."""
    drawn = []
    for patch in patches:
        placed = fit(patch.finished, label_lines(patch.label), clear)
        look = desk.look_of(patch.label)
        drawn.append(draw_patch(patch.cut, look, placed=placed, tag=f"patch {patch.label}", room=clear))
    return drawn
