"""What the stages of all units share: squares right sides together, marked lines, seams beside them, labels between.

Stages follow the maker's hands: mark, sew, cut, press. The upper of two squares shows its pale wrong side, and
the lower one looks out by a margin. All coordinates are points on the page, scaled from the cut sizes and the
seam allowance.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Final

from seamleaf.booklet.record import Unit
from seamleaf.drawing.colours import INK, PAPER
from seamleaf.drawing.drafting import CUT, DASH, STITCH, Panel, draw_patch, label_lines
from seamleaf.drawing.figure import Desk
from seamleaf.drawing.labels import Room
from seamleaf.drawing.measures import box_text, unbroken
from seamleaf.drawing.outlines import Segment, direction, lengthened
from seamleaf.drawing.scene import Circle, Group, Ink, Line, Spot
from seamleaf.drawing.wording import count_word, press_words, say, toward

SIDE: Final = 90.0
"""Side on the page of the largest square of a stage."""
_STOP: Final = 3.2
_EDGE_AIR: Final = 3.0
"""Between a label and the outline of a piece that lies over its patch."""
_MARKED: Final = Ink(stroke=INK, width=CUT)
_CUT: Final = Ink(stroke=INK, width=CUT, dash=DASH)
_SEWN: Final = Ink(stroke=INK, width=CUT, dash=STITCH)


@dataclass(frozen=True, slots=True, kw_only=True)
class Stages:
    """The pictures of a unit up to the last one, which shows it finished."""

    panels: tuple[Panel, ...]
    told: int = 0
    """So many of its seams, the first, are pressed in these pictures; the last one tells of the others."""
    finished: Panel | None = None
    """The last picture, where it is not simply the unit laid flat."""


def square_of(left: float, top: float, side: float) -> tuple[Spot, ...]:
    """Return the corners of an upright square, clockwise from the top left."""
    return ((left, top), (left + side, top), (left + side, top + side), (left, top + side))


def labels_taken(unit: Unit) -> tuple[str, ...]:
    """Return the different labels that a unit takes, in order."""
    return tuple(dict.fromkeys(take.label for take in unit.from_ if take.label is not None))


def lay(
    desk: Desk,
    label: str,
    spots: tuple[Spot, ...],
    *,
    upside: bool = False,
    new: bool | None = None,
    clear: Room | None = None,
    tag: str = "",
) -> Group:
    """Draw a patch of a stage; ``upside`` shows it wrong side up and, if nothing else is said, outlined as new.

    Its label keeps clear of what is taken in ``clear``; without a room it is left out.
    """
    texts = [label_lines(label)] if clear is not None else []
    outlined = upside if new is None else new
    tag = tag or f"patch {label}"
    return draw_patch(spots, desk.look_of(label), texts=texts, wrong=upside, new=outlined, tag=tag, room=clear)


def marked(segments: Iterable[Segment]) -> list[Line]:
    """Draw lines marked with a pencil."""
    return [Line(start=start, end=end, ink=_MARKED) for start, end in segments]


def cut_along(segments: Iterable[Segment]) -> list[Line]:
    """Draw cuts."""
    return [Line(start=start, end=end, ink=_CUT) for start, end in segments]


def sewn(segments: Iterable[Segment]) -> list[Line]:
    """Draw seams."""
    return [Line(start=start, end=end, ink=_SEWN) for start, end in segments]


def stop_mark(spot: Spot) -> Group:
    """Return the dot where a seam stops before its end."""
    halo = Circle(centre=spot, radius=_STOP + 1, ink=Ink(fill=PAPER))
    return Group(parts=(halo, Circle(centre=spot, radius=_STOP, ink=Ink(fill=INK))), tag="stop")


def beside(line: Segment, offset: float) -> tuple[Segment, Segment]:
    """Return the two seams at ``offset`` from a marked line, on both sides, ending where the edges cut them off."""
    one, other = shifted(line, offset), shifted(line, -offset)
    return (lengthened(one, -offset), lengthened(other, -offset))


def shifted(line: Segment, offset: float) -> Segment:
    """Return a line moved to its side."""
    (x1, y1), (x2, y2) = line
    ux, uy = direction(line)
    return ((x1 - uy * offset, y1 + ux * offset), (x2 - uy * offset, y2 + ux * offset))


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


def measured(desk: Desk, unit: Unit) -> str:
    """Return what to measure or trim to, and how many there are then."""
    box = unit.trim or unit.made
    size = say("figure.unfinished", size=unbroken(box_text(desk.booklet, box.w, box.h)))
    told = say("figure.trim-to" if unit.trim else "figure.measure", size=size)
    return f"{told} {say('figure.makes', count=count_word(unit.makes))}" if unit.makes > 1 else told


def pressed_to(desk: Desk, unit: Unit, otherwise: str) -> str:
    """Return where the first seam of a unit is pressed: ``toward B1`` or ``open``."""
    seams = desk.seams_of(unit)
    return press_words(seams[0]) if seams else toward(otherwise)
