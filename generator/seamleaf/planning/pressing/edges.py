"""Match points on the seams of borders, where a border is pieced: both sides of such a seam may have seams that end.

What is sewn before a border ends on its seam from within, and the strip's own seams end on it from without. Those of
the centre's rows and of other borders go one way whatever the plan; they stand in it under keys of their own.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Final

from seamleaf.lengths import ZERO, Length
from seamleaf.planning.frames import Frame
from seamleaf.planning.piecing.strips_round import PAIR_OF, TURN_OF, strip_name
from seamleaf.planning.pressing.arrangement import Arrangement
from seamleaf.planning.pressing.colouring import BACK, FORTH, OPEN
from seamleaf.planning.pressing.meetings import Ends, Geometry, Meeting, SeamKey, Segment, meetings_on, moved
from seamleaf.planning.pressing.program import Fold
from seamleaf.planning.records import Point, Press, Seam
from seamleaf.planning.seams import border_seams, fixed_seams
from seamleaf.sizing import Quilt
from seamleaf.sizing.pieced import PiecedBorder

HALF: Final = Fraction(1, 2)
_FOLDS: Final[dict[Press, Fold]] = {"before": BACK, "after": FORTH, "open": OPEN, "spin": OPEN}


@dataclass(frozen=True, slots=True, kw_only=True)
class Edges:
    """The match points on the seams of all borders, and how those seams in them are folded that no plan folds."""

    meetings: tuple[Meeting, ...]
    fixed: dict[SeamKey, Fold]


def edges_of(quilt: Quilt, arrangement: Arrangement, geometry: Geometry, rows: Sequence[tuple[Press, ...]]) -> Edges:
    """Find the match points on border seams; none where no border is pieced, but those of cornerstones, counted apart.

    Args:
        quilt: the quilt.
        arrangement: how the blocks lie.
        geometry: of its units.
        rows: how the seams of each row are pressed.

    """
    if not quilt.pieced:
        return Edges(meetings=(), fixed={})
    fixed: dict[SeamKey, Fold] = {}
    sewn = Ends([*_of_blocks(quilt, arrangement, geometry), *_of_strips(quilt, geometry)])
    there = [seam for seam in fixed_seams(quilt, rows) if any(_is_on_edge(quilt, point) for point in seam.line)]
    for seam in there:
        sewn.add(_segment(quilt, seam, fixed))
    found: list[Meeting] = []
    for seam in border_seams(quilt):
        crossing = _segment(quilt, seam, fixed)
        found += meetings_on(crossing, sewn)
        sewn.add(crossing)
    return Edges(meetings=tuple(found), fixed=fixed)


def _segment(quilt: Quilt, seam: Seam, fixed: dict[SeamKey, Fold]) -> Segment:
    """Return a seam between places, rows or borders, and note how it is folded."""
    key = (f"{seam.of} {seam.id}", 0)
    fixed[key] = _FOLDS[seam.press]
    return Segment(key=key, ends=seam.line, toward=_toward(quilt, seam))


def _toward(quilt: Quilt, seam: Seam) -> Point:
    """Return where the allowances lie that are pressed after."""
    one = Length(1)
    if seam.axis != "d":
        return (one, ZERO) if seam.axis == "x" else (ZERO, one)
    if seam.of == "row":  # from lower left to upper right
        return (one, -one)
    if seam.first != "centre":  # from row to row
        return (one, one)
    (ax, ay), (bx, by) = seam.line
    x, y = ax + bx - quilt.layout.w, ay + by - quilt.layout.h
    return (Length(x.sign()), Length(y.sign()))


def _is_on_edge(quilt: Quilt, point: Point) -> bool:
    return point[0] in (ZERO, quilt.layout.w) or point[1] in (ZERO, quilt.layout.h)


def _of_blocks(quilt: Quilt, arrangement: Arrangement, geometry: Geometry) -> Iterator[Segment]:
    """Yield the seams inside blocks that end on the edge of the centre."""
    tilt = 45 if quilt.pattern.setting.set == "on-point" else 0
    for index, placed in arrangement.placed.items():
        draft, spot = arrangement.drafts[placed.unit], quilt.layout.spots[index]
        # Far enough for every lattice: a block lies within half its sides added up from its centre.
        reach = (draft.w + draft.h) * HALF
        near = (spot.x - reach, quilt.layout.w - spot.x - reach, spot.y - reach, quilt.layout.h - spot.y - reach)
        if min(near) > 0:
            continue
        frame = Frame(w=draft.w, h=draft.h, x=spot.x, y=spot.y, turn=(placed.turn + tilt) % 360)
        for segment in geometry.segments(draft.id):
            there = moved(segment, frame)
            if any(_is_on_edge(quilt, point) for point in there.ends):
                yield there


def _of_strips(quilt: Quilt, geometry: Geometry) -> Iterator[Segment]:
    """Yield the seams inside the strips of pieced borders."""
    for pieced in quilt.pieced:
        for edge, frame in strip_frames(quilt, pieced).items():
            for segment in geometry.segments(strip_name(pieced.order, PAIR_OF[edge])):
                yield moved(segment, frame)


def strip_frames(quilt: Quilt, pieced: PiecedBorder) -> dict[str, Frame]:
    """Return how the strips of a pieced border lie in the centre's frame, by edge."""
    inside = sum((width for _, width in quilt.borders[: pieced.order - 1]), ZERO)
    w, h, b = quilt.layout.w, quilt.layout.h, pieced.depth
    tall, wide = h + inside * 2, w + inside * 2
    if pieced.border.corner != "cornerstone":
        wide = wide + b * 2
    out = inside + b * HALF
    at = {"left": (-out, h / 2), "right": (w + out, h / 2), "top": (w / 2, -out), "bottom": (w / 2, h + out)}
    return {
        edge: Frame(w=tall if PAIR_OF[edge] == "sides" else wide, h=b, x=x, y=y, turn=TURN_OF[edge])
        for edge, (x, y) in at.items()
    }
