"""The corner of a border, large enough to show the mitre or the cornerstone and how its seams are pressed."""

from __future__ import annotations

from typing import Final

from seamleaf.booklet.record import BorderNote, Seam
from seamleaf.drawing.arrows import across, press_arrow
from seamleaf.drawing.colours import INK, PALE
from seamleaf.drawing.drafting import EDGE, Panel, draw_patch, label_lines
from seamleaf.drawing.figure import Desk
from seamleaf.drawing.labels import Room
from seamleaf.drawing.looks import Look
from seamleaf.drawing.outlines import Segment, Spots
from seamleaf.drawing.pens import extent_of
from seamleaf.drawing.regions import spots_of
from seamleaf.drawing.scene import Ink, Line, Polygon, Shape, Spot
from seamleaf.drawing.stages import square_of
from seamleaf.drawing.wording import say
from seamleaf.lengths import ZERO

_SIDE: Final = 110.0
_WIDTH: Final = 44.0
_SHORT: Final = 16.0


def border_seams(desk: Desk, border: BorderNote) -> tuple[list[Seam], list[Seam]]:
    """Return the long seams of a border, and the short ones at its corners: of cornerstones, or mitres."""
    long: list[Seam] = []
    short: list[Seam] = []
    for seam in desk.booklet.seams:
        if seam.of == f"border {border.order}":
            joins_what_lies_within = {seam.first, seam.second} - {seam.of, "cornerstone"}
            (long if joins_what_lies_within else short).append(seam)
    return long, short


def strip_label(border: BorderNote, edge: str) -> str | None:
    """Return the label of the patch that lies along an edge; ``None`` for a strip that is a unit."""
    return next((strip.label for strip in border.strips if strip.edge == edge), None) or border.label


def corner_panel(desk: Desk, border: BorderNote) -> Panel:
    """Draw the top left corner large: the mitre or the cornerstone, with the labels and all arrows."""
    b, far = _WIDTH, _SIDE
    lines: list[Segment] = [((b, b), (b, far)), ((b, b), (far, b))]
    patches: list[tuple[tuple[str, Look], Spots]]
    if border.corners is None:
        caption = say("figure.border.slope")
        lines.append(((0, 0), (b, b)))
        patches = []
        for band, look, start, end in _bands(desk, border):
            lines += [((start, start), (start, far)), ((start, start), (far, start))]
            upright: Spots = ((start, start), (end, end), (end, far), (start, far))
            level: Spots = ((start, start), (far, start), (far, end), (end, end))
            patches += [((_label(band, "left"), look), upright), ((_label(band, "top"), look), level)]
    else:
        caption = say("figure.border.stone", label=border.corners)
        stone = (border.corners, desk.look_of(border.corners))
        lines += [((0, 0), (far, 0)), ((0, 0), (0, far)), ((b, 0), (b, b)), ((0, b), (b, b))]
        sides: list[Spots] = [((0, b), (b, b), (b, far), (0, far)), ((b, 0), (far, 0), (far, b), (b, b))]
        patches = [(stone, square_of(0, 0, b))]
        if border.fabric is not None:
            look = desk.look(border.fabric, None)
            patches += [
                ((_label(border, edge), look), spots) for edge, spots in zip(("left", "top"), sides, strict=True)
            ]
    arrows = _corner_arrows(desk, border)
    room = Room()
    for arrow in arrows:
        room.take(extent_of((arrow,)))
    parts: list[Shape] = [Polygon(points=((b, b), (far, b), (far, far), (b, far)), ink=Ink(fill=PALE))]
    for (label, look), spots in patches:
        parts.append(draw_patch(spots, look, texts=[label_lines(label)], tag=f"strip {label}", room=room))
    ink = Ink(stroke=INK, width=EDGE, rounded=True)
    parts += [Line(start=start, end=end, ink=ink) for start, end in lines]
    return Panel(parts=(*parts, *arrows), caption=caption, tag="corner")


def _label(border: BorderNote, edge: str) -> str:
    return strip_label(border, edge) or ""


def _bands(desk: Desk, border: BorderNote) -> list[tuple[BorderNote, Look, float, float]]:
    """Return every border that is mitred with this one, from outside in, with its look and where it lies."""
    orders = border.together or (border.order,)
    group = [each for each in desk.booklet.borders if each.order in orders]
    whole = sum(each.width.to_float() for each in group)
    bands, at = [], 0.0
    for each in reversed(group):
        deep = _WIDTH * each.width.to_float() / whole
        bands.append((each, desk.look(each.fabric or "", None), at, at + deep))
        at += deep
    return bands


def _corner_arrows(desk: Desk, border: BorderNote) -> list[Shape]:
    """Draw the arrows of the seams that end at the top left corner, on the large picture of it."""
    long, short = border_seams(desk, border)
    b, far = _WIDTH, _SIDE
    first = sorted(short, key=lambda seam: sum(x + y for x, y in spots_of(seam.line)))[:1]
    places: list[tuple[Seam, Spot]] = [
        (min(each, key=lambda seam: seam.at or ZERO), at)
        for axis, at in (("x", (b, (b + far) / 2)), ("y", ((b + far) / 2, b)))
        if (each := [seam for seam in long if seam.axis == axis])
    ]
    places += [(seam, (b / 2, b / 2) if seam.axis == "d" else (b, b / 2)) for seam in first]
    return [
        press_arrow(at, across((spots_of(seam.line)[0], spots_of(seam.line)[1])), seam.press, length=_SHORT)
        for seam, at in places
    ]
