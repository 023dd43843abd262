"""What the stages of all units share: squares right sides together, marked lines, seams beside them, labels between.

Stages follow the maker's hands: mark, sew, cut, press. The upper of two squares shows its pale wrong side, and
the lower one looks out by a margin. All coordinates are points on the page, scaled from the cut sizes and the
seam allowance.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from typing import Final

from seamleaf.booklet.record import Unit
from seamleaf.drawing.colours import INK
from seamleaf.drawing.drafting import CUT, DASH, STITCH, draw_patch, label_lines
from seamleaf.drawing.figure import Desk
from seamleaf.drawing.labels import Room
from seamleaf.drawing.scene import Group, Ink, Line, Spot

SIDE: Final = 90.0
"""Side on the page of the largest square of a stage."""
Segment = tuple[Spot, Spot]
_EDGE_AIR: Final = 3.0
"""Between a label and the outline of a piece that lies over its patch."""
_MARKED: Final = Ink(stroke=INK, width=CUT)
_CUT: Final = Ink(stroke=INK, width=CUT, dash=DASH)
_SEWN: Final = Ink(stroke=INK, width=CUT, dash=STITCH)


def square_of(left: float, top: float, side: float) -> tuple[Spot, ...]:
    """Return the corners of an upright square, clockwise from the top left."""
    return ((left, top), (left + side, top), (left + side, top + side), (left, top + side))


def labels_taken(unit: Unit) -> tuple[str, ...]:
    """Return the different labels that a unit takes, in order."""
    return tuple(dict.fromkeys(take.label for take in unit.from_ if take.label is not None))


def lay(desk: Desk, label: str, spots: tuple[Spot, ...], *, upside: bool = False, clear: Room | None = None) -> Group:
    """Draw a patch of a stage; ``upside`` shows it wrong side up and outlined, as the piece that is added.

    Its label keeps clear of what is taken in ``clear``; without a room it is left out.
    """
    texts = [label_lines(label)] if clear is not None else []
    return draw_patch(
        spots, desk.look_of(label), texts=texts, wrong=upside, new=upside, tag=f"patch {label}", room=clear
    )  # fmt: skip


def marked(segments: Iterable[Segment]) -> list[Line]:
    """Draw lines marked with a pencil."""
    return [Line(start=start, end=end, ink=_MARKED) for start, end in segments]


def cut_along(segments: Iterable[Segment]) -> list[Line]:
    """Draw cuts."""
    return [Line(start=start, end=end, ink=_CUT) for start, end in segments]


def sewn(segments: Iterable[Segment]) -> list[Line]:
    """Draw seams."""
    return [Line(start=start, end=end, ink=_SEWN) for start, end in segments]


def beside(line: Segment, offset: float) -> tuple[Segment, Segment]:
    """Return the two seams at ``offset`` from a marked line, on both sides, ending where the edges cut them off."""
    one, other = shifted(line, offset), shifted(line, -offset)
    return (_shortened(one, offset), _shortened(other, offset))


def shifted(line: Segment, offset: float) -> Segment:
    """Return a line moved to its side."""
    (x1, y1), (x2, y2) = line
    length = math.hypot(x2 - x1, y2 - y1)
    nx, ny = -(y2 - y1) / length * offset, (x2 - x1) / length * offset
    return ((x1 + nx, y1 + ny), (x2 + nx, y2 + ny))


def keep_clear(outlines: Sequence[tuple[Spot, ...]] = (), lines: Iterable[Line] = ()) -> Room:
    """Return a room in which the boxes of these outlines, and these lines, are taken."""
    room = Room()
    for spots in outlines:
        xs, ys = [x for x, _ in spots], [y for _, y in spots]
        room.take((min(xs) - _EDGE_AIR, min(ys) - _EDGE_AIR, max(xs) + _EDGE_AIR, max(ys) + _EDGE_AIR))
    for line in lines:
        (x1, y1), (x2, y2) = line.start, line.end
        for i in range(24):
            x, y = x1 + (x2 - x1) * i / 23, y1 + (y2 - y1) * i / 23
            room.take((x - 1.5, y - 1.5, x + 1.5, y + 1.5))
    return room


def pressed_to(desk: Desk, unit: Unit, otherwise: str) -> str:
    """Return where the first seam of a unit is pressed: ``toward B1`` or ``open``."""
    seams = desk.seams_of(unit)
    if not seams:
        return f"toward {otherwise}"
    if seams[0].press == "open":
        return "open"
    return f"toward {seams[0].first if seams[0].press == 'before' else seams[0].second}"


def _shortened(line: Segment, by: float) -> Segment:
    (x1, y1), (x2, y2) = line
    length = math.hypot(x2 - x1, y2 - y1)
    ux, uy = (x2 - x1) / length * by, (y2 - y1) / length * by
    return ((x1 + ux, y1 + uy), (x2 - ux, y2 - uy))
