"""A square in a square: the stages, and the unit trimmed beyond the points of its centre."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Final

from seamleaf.booklet.record import Seam, Unit
from seamleaf.drawing.arrows import press_arrow
from seamleaf.drawing.colours import INK
from seamleaf.drawing.drafting import CUT, DASH, EDGE, Panel, scaled
from seamleaf.drawing.figure import Desk
from seamleaf.drawing.outlines import Segment, Spots, cut_to, direction, folded, lengthened
from seamleaf.drawing.pens import extent_of
from seamleaf.drawing.regions import spots_of
from seamleaf.drawing.scene import Ink, Polygon, Shape, Spot
from seamleaf.drawing.spread import seam_direction
from seamleaf.drawing.stages import Stages, keep_clear, lay, measured, sewn, square_of
from seamleaf.drawing.unfinished import centre_of_unit, draw_cut
from seamleaf.drawing.wording import capital, counted, press_sentence, say

_WIDE: Final = 124.0
_ARROW: Final = 14.0
_ROOT: Final = math.sqrt(2)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Side:
    """One corner triangle: what is seen of it pressed out, all of it folded back over its seam, and the stitches."""

    label: str
    seam: Seam
    pressed: Spots
    back: Spots
    stitches: Segment
    toward: Spot

    def arrow(self) -> Shape:
        """Draw the arrow of its seam."""
        (x1, y1), (x2, y2) = self.stitches
        return press_arrow(((x1 + x2) / 2, (y1 + y2) / 2), self.toward, self.seam.press, length=_ARROW)


def diamond_stages(desk: Desk, unit: Unit) -> Stages:
    """Return the stages of a square in a square: two opposite triangles, the other two, the trim."""
    scale = _WIDE / unit.made.w.to_float()
    centre = centre_of_unit(desk, unit, scale)
    sides = _sides(desk, unit, scale)
    first, second = sides[:2], sides[2:]
    allowance = desk.booklet.seam.to_float() * scale
    trimmed = square_of(-allowance, -allowance, unit.finished.w.to_float() * scale + 2 * allowance)
    name = unit.from_[0].label or unit.from_[0].unit or ""

    def draw(pressed: Sequence[_Side], over: Sequence[_Side], told: Sequence[_Side] = ()) -> tuple[Shape, ...]:
        stitches = sewn(side.stitches for side in over)
        arrows = [side.arrow() for side in told]
        clear = keep_clear([side.back for side in over])
        for arrow in arrows:
            clear.take(extent_of((arrow,)))
        return (
            *draw_cut(desk, [replace(p, cut=cut_to(p.cut, trimmed)) for p in centre] if told else centre, clear),
            *(lay(desk, side.label, side.pressed, clear=clear) for side in pressed),
            *(lay(desk, side.label, side.back, upside=True, clear=keep_clear(lines=stitches)) for side in over),
            *stitches,
            *arrows,
        )

    cut: list[Shape] = [Polygon(points=trimmed, ink=Ink(stroke=INK, width=EDGE, rounded=True))]
    beyond = ""
    if unit.trim:
        cut = [Polygon(points=trimmed, ink=Ink(stroke=INK, width=CUT, dash=DASH))]
        beyond = f" {say('figure.diamond.beyond', seam=desk.allowance())}"
    labels = counted(side.label for side in first)
    told = press_sentence([side.seam for side in second])
    return Stages(
        panels=(
            Panel(
                parts=draw((), first),
                caption=say("figure.diamond.opposite", labels=capital(labels), centre=name),
            ),
            Panel(parts=draw(first, (), first), caption=press_sentence([side.seam for side in first])),
            Panel(parts=draw(first, second), caption=say("figure.diamond.others")),
        ),
        finished=Panel(
            parts=(*draw(sides, (), second), *cut),
            caption=f"{told} {measured(desk, unit)}{beyond}",
        ),
    )


def _sides(desk: Desk, unit: Unit, scale: float) -> list[_Side]:
    """Return the triangles in sewing order, in the frame of the finished unit."""
    seams = desk.seams_of(unit)
    pieces = desk.pieces(unit.id)
    regions = unit.regions[-len(seams) :]
    allowance = desk.booklet.seam.to_float() * scale
    found = []
    for seam in seams:
        region = next(region for region in regions if set(seam.line) <= set(region.outline))
        (tip,) = scaled(spots_of(tuple(point for point in region.outline if point not in seam.line)), scale)
        a, b = scaled(spots_of(seam.line), scale)
        middle = ((a[0] + b[0]) / 2, (a[1] + b[1]) / 2)
        half = desk.patches[region.label].w.to_float() * scale / _ROOT
        ux, uy = direction((middle, tip))
        foot = (middle[0] - ux * allowance, middle[1] - uy * allowance)
        found.append(
            _Side(
                label=region.label,
                seam=seam,
                pressed=_triangle(middle, tip, half - allowance),
                back=folded(_triangle(foot, tip, half), (a, b)),
                stitches=lengthened((a, b), allowance),
                toward=seam_direction(seam, pieces),
            )
        )
    return found


def _triangle(foot: Spot, tip: Spot, high: float) -> Spots:
    """Return a triangle with its right angle toward ``tip``, by the middle of its long edge and its height."""
    ux, uy = direction((foot, tip))
    (x, y) = foot
    return (
        (x + ux * high, y + uy * high),
        (x + uy * high, y - ux * high),
        (x - uy * high, y + ux * high),
    )
