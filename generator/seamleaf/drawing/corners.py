"""Corners by stitch and flip: the stages before the finished unit."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from seamleaf.booklet.record import Seam, Unit
from seamleaf.drawing.arrows import press_arrow
from seamleaf.drawing.drafting import Panel
from seamleaf.drawing.figure import Desk
from seamleaf.drawing.outlines import Segment, Spots, box_of
from seamleaf.drawing.pens import extent_of
from seamleaf.drawing.regions import spots_of
from seamleaf.drawing.scene import Shape, Spot
from seamleaf.drawing.stages import Stages, cut_along, keep_clear, lay, marked, sewn, square_of
from seamleaf.drawing.wording import counted, press_sentence, say

_LONG: Final = 96.0
_SLOPE: Final = math.sqrt(2)
_TOUCH: Final = 1e-6
"""Squares that lap by less than that on the page touch."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Corner:
    """One square on its corner, as cut: what is sewn, what is cut off, and the triangle that is left."""

    label: str
    seam: Seam
    square: Spots
    line: Segment
    cut: Segment
    flap: Spots
    out: Spot

    def arrow(self) -> Shape:
        """Draw the arrow of its seam, which points to the corner if that is where it is pressed."""
        (x1, y1), (x2, y2) = self.line
        toward = self.out if self.seam.second == self.label else (-self.out[0], -self.out[1])
        return press_arrow(((x1 + x2) / 2, (y1 + y2) / 2), toward, self.seam.press, length=14)


def corner_stages(desk: Desk, unit: Unit) -> Stages:
    """Return the stages of flipped corners: the first one by itself, then the others."""
    scale = _LONG / max(unit.made.w, unit.made.h).to_float()
    w, h = unit.made.w.to_float() * scale, unit.made.h.to_float() * scale
    base: Spots = ((0.0, 0.0), (w, 0.0), (w, h), (0.0, h))
    name = unit.regions[0].label
    corners = _corners(desk, unit, scale)
    first, others = corners[0], corners[1:]

    def draw(done: Sequence[_Corner], over: Sequence[_Corner], lines: list[Shape]) -> tuple[Shape, ...]:
        covered = [corner.square for corner in over] + [corner.flap for corner in done]
        stitches = sewn(corner.line for corner in over)
        arrows = [corner.arrow() for corner in done[-1:] if not over]
        flaps = keep_clear([_extent(arrow) for arrow in arrows])
        return (
            lay(desk, name, base, clear=keep_clear(covered)),
            *(lay(desk, corner.label, corner.flap, clear=flaps) for corner in done),
            *(lay(desk, corner.label, corner.square, upside=True, clear=keep_clear(lines=stitches)) for corner in over),
            *lines,
            *arrows,
        )

    panels = [
        Panel(
            parts=draw((), (first,), [*marked([first.line])]),
            caption=say("figure.corners.place", first=first.label, base=name),
        ),
        Panel(
            parts=draw((), (first,), [*sewn([first.line]), *cut_along([first.cut])]),
            caption=say("figure.corners.sew", seam=desk.allowance()),
        ),
    ]
    if others:
        panels.append(Panel(parts=draw((first,), (), []), caption=press_sentence([first.seam])))
    done = [first]
    for group in _apart(others):
        lines: list[Shape] = [*sewn(corner.line for corner in group), *cut_along(corner.cut for corner in group)]
        labels = counted(corner.label for corner in group)
        panels.append(Panel(parts=draw(done, group, lines), caption=say("figure.corners.then", labels=labels)))
        done += group
    return Stages(panels=tuple(panels), told=1 if others else 0)


def _corners(desk: Desk, unit: Unit, scale: float) -> list[_Corner]:
    """Return the corners in sewing order, in a frame that begins at the corner of the cut rectangle."""
    w, h = unit.made.w.to_float() * scale, unit.made.h.to_float() * scale
    middle_x, middle_y = unit.finished.w.to_float() / 2, unit.finished.h.to_float() / 2
    slant = desk.booklet.seam.to_float() * scale * _SLOPE
    found = []
    for region, seam in zip(unit.regions[1:], desk.seams_of(unit), strict=True):
        left, top, right, bottom = box_of(spots_of(region.outline))
        q = desk.patches[region.label].w.to_float() * scale
        at_left, at_top = left + right < 2 * middle_x, top + bottom < 2 * middle_y
        x, y = (0.0 if at_left else w), (0.0 if at_top else h)
        dx, dy = (1 if at_left else -1), (1 if at_top else -1)
        found.append(
            _Corner(
                label=region.label,
                seam=seam,
                square=square_of(min(x, x + dx * q), min(y, y + dy * q), q),
                line=((x, y + dy * q), (x + dx * q, y)),
                cut=((x, y + dy * (q - slant)), (x + dx * (q - slant), y)),
                flap=((x, y), (x, y + dy * q), (x + dx * q, y)),
                out=(-dx / _SLOPE, -dy / _SLOPE),
            )
        )
    return found


def _apart(corners: Sequence[_Corner]) -> list[list[_Corner]]:
    """Group corners in sewing order so that no two squares of a group lie on each other."""
    groups: list[list[_Corner]] = []
    for corner in corners:
        if groups and not any(_overlap(corner.square, other.square) for other in groups[-1]):
            groups[-1].append(corner)
        else:
            groups.append([corner])
    return groups


def _overlap(one: Spots, other: Spots) -> bool:
    a, b = box_of(one), box_of(other)
    return all(a[at] + _TOUCH < b[at + 2] and b[at] + _TOUCH < a[at + 2] for at in (0, 1))


def _extent(shape: Shape) -> Spots:
    left, top, right, bottom = extent_of((shape,))
    return ((left, top), (right, bottom))
