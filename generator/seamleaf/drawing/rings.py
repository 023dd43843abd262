"""Rings that a partial seam closes: half of the first seam, the other three, and the rest of the first."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import Final

from seamleaf.booklet.record import Unit
from seamleaf.drawing.colours import PAPER
from seamleaf.drawing.drafting import Panel
from seamleaf.drawing.figure import Desk
from seamleaf.drawing.outlines import NEAR, Segment, Spots, box_of, direction, folded, grown, lengthened, moved
from seamleaf.drawing.rounds import Log, draw_round, logs_of
from seamleaf.drawing.scene import Ink, Line, Shape, Spot
from seamleaf.drawing.stages import Stages, keep_clear, lay, sewn, stop_mark
from seamleaf.drawing.unfinished import centre_of_unit, draw_cut
from seamleaf.drawing.wording import listed, press_words, say

_WIDE: Final = 112.0
_HALO: Final = 3.5
_LOOKS_OUT: Final = 7.0
"""By so much the centre looks out from below the first patch, which would hide it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Partial:
    """The first seam: from its flush end to the stop, and from there to its other end."""

    start: Spot
    stop: Spot
    end: Spot


def ring_stages(desk: Desk, unit: Unit) -> Stages:
    """Return the stages of a ring; the spot where the first seam stops is marked with a dot."""
    scale = _WIDE / unit.finished.w.to_float()
    logs = logs_of(desk, unit, scale)
    first, others = logs[0], logs[1:]
    seam = _partial_seam(logs)
    centre = unit.from_[0].label or unit.from_[0].unit or ""
    closed, _ = draw_round(desk, unit, scale, logs, [])
    opened, _ = draw_round(desk, unit, scale, [first], others)
    dot = stop_mark(seam.stop)
    press = press_words(first.seam)
    numbers = listed([str(log.number) for log in others])
    return Stages(
        panels=(
            Panel(
                parts=(*_half_sewn(desk, unit, first, seam, scale), dot),
                caption=say("figure.partial.start", first=first.label, centre=centre),
            ),
            Panel(
                parts=(*opened, dot),
                caption=f"{say('figure.press.way', way=press)} {say('figure.partial.others', others=numbers)}",
            ),
            Panel(
                parts=(*closed, *_over_patches((seam.stop, seam.end)), first.arrow(), dot),
                caption=say("figure.partial.close", way=press),
            ),
        ),
        told=len(logs),
    )


def _over_patches(line: Segment) -> list[Line]:
    """Draw stitches that are seen on any patch."""
    return [Line(start=line[0], end=line[1], ink=Ink(stroke=PAPER, width=_HALO)), *sewn([line])]


def _half_sewn(desk: Desk, unit: Unit, first: Log, seam: _Partial, scale: float) -> list[Shape]:
    """Draw the first patch lying on the centre, as cut, sewn from its flush end to the stop."""
    allowance = desk.booklet.seam.to_float() * scale
    over = folded(grown(first.spots, allowance), first.line)
    stitches = sewn([(lengthened((seam.start, seam.stop), allowance)[0], seam.stop)])
    dx, dy = _away(seam, over)
    centre = [
        replace(patch, finished=moved(patch.finished, dx, dy), cut=moved(patch.cut, dx, dy))
        for patch in centre_of_unit(desk, unit, scale)
    ]
    below = draw_cut(desk, centre, keep_clear([over]))
    return [*below, lay(desk, first.label, over, upside=True, clear=keep_clear(lines=stitches)), *stitches]


def _away(seam: _Partial, over: Spots) -> Spot:
    """Return how far to move what lies below a patch, square to its seam, for it to look out."""
    (x, y), (left, top, right, bottom) = seam.stop, box_of(over)
    ux, uy = direction((seam.start, seam.stop))
    side = _LOOKS_OUT if ((left + right) / 2 - x) * -uy + ((top + bottom) / 2 - y) * ux > 0 else -_LOOKS_OUT
    return (-uy * side, ux * side)


def _partial_seam(logs: list[Log]) -> _Partial:
    """Return where the first seam starts, stops and ends: it stops at the middle of the centre's side."""
    one, other = logs[0].line
    a, b = logs[1].line
    on_second = abs((b[0] - a[0]) * (one[1] - a[1]) - (b[1] - a[1]) * (one[0] - a[0])) < NEAR
    start, end = (one, other) if on_second else (other, one)
    ux, uy = direction((start, end))
    left, top, right, bottom = box_of(logs[0].spots)
    half = (math.dist(start, end) - min(right - left, bottom - top)) / 2
    return _Partial(start=start, stop=(start[0] + ux * half, start[1] + uy * half), end=end)
