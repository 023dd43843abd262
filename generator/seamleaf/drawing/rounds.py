"""Patches sewn round a centre: how the new ones are numbered, labelled and pressed; log cabins round by round."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from seamleaf.booklet.record import Seam, Unit
from seamleaf.drawing.arrows import press_arrow
from seamleaf.drawing.colours import INK
from seamleaf.drawing.drafting import LABEL, NUMBER_RADIUS, Panel, circled, draw_patch, label_lines, scaled
from seamleaf.drawing.figure import Desk
from seamleaf.drawing.labels import Room, fit
from seamleaf.drawing.metrics import text_width
from seamleaf.drawing.outlines import Segment, Spots, box_of
from seamleaf.drawing.pens import extent_of
from seamleaf.drawing.regions import spots_of
from seamleaf.drawing.scene import Shape, Spot, Text
from seamleaf.drawing.spread import side_of
from seamleaf.drawing.stages import Stages
from seamleaf.drawing.wording import listed, press_sentence, say

_LARGE: Final = 106.0
"""Side of the finished unit: two of them, with their numbers, stand side by side."""
_ROUND: Final = 4
_MOST_PANELS: Final = 5
_AWAY: Final = 3.0
_LOWER: Final = 9.0
"""From the middle of a number to that of the label below it."""
_ARROW: Final = 14.0
_ARROW_AT: Final = 0.2
"""Along the seam; the label stands in the middle."""
_TO_BASELINE: Final = 0.36
"""From the middle of a line of text, in its size."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Log:
    """One patch sewn on: its number in sewing order, its outline and seam, and which way is out."""

    number: int
    label: str
    seam: Seam
    spots: Spots
    line: Segment
    out: Spot

    def arrow(self) -> Shape:
        """Draw the arrow of its seam."""
        (x1, y1), (x2, y2) = self.line
        # Round and round, so that the arrows of one round keep clear of each other at the corners.
        along = _ARROW_AT if self.out in ((0.0, -1.0), (1.0, 0.0)) else 1 - _ARROW_AT
        at = (x1 + (x2 - x1) * along, y1 + (y2 - y1) * along)
        toward = (1.0, 0.0) if self.seam.axis == "x" else (0.0, 1.0)
        return press_arrow(at, toward, self.seam.press, length=_ARROW)


def logs_of(desk: Desk, unit: Unit, scale: float) -> list[Log]:
    """Return the patches sewn round the centre, in order: one a seam."""
    seams = desk.seams_of(unit)
    logs = []
    for number, (seam, region) in enumerate(zip(seams, unit.regions[-len(seams) :], strict=True), start=1):
        spots = scaled(spots_of(region.outline), scale)
        a, b = scaled(spots_of(seam.line), scale)
        normal = (1.0, 0.0) if seam.axis == "x" else (0.0, 1.0)
        side = side_of(spots, a, normal)
        out = (normal[0] * side, normal[1] * side)
        logs.append(Log(number=number, label=region.label, seam=seam, spots=spots, line=(a, b), out=out))
    return logs


def draw_round(
    desk: Desk, unit: Unit, scale: float, before: Sequence[Log], new: Sequence[Log]
) -> tuple[tuple[Shape, ...], list[Log]]:
    """Draw a unit so far: its centre, the logs sewn before, and the new ones outlined, numbered and with arrows.

    A number stands outside, beside its log, and so does a label that the log is too narrow for. Returned beside the
    picture are the new logs that have no such place, because others of the same picture lie round them.
    """
    room = Room()
    untold = [log for i, log in enumerate(new) if any(later.out == log.out for later in new[i + 1 :])]
    outer = [log for log in new if log not in untold]
    arrows = [log.arrow() for log in outer]
    for arrow in arrows:
        room.take(extent_of((arrow,)))
    box = box_of([spot for log in (*before, *new) for spot in log.spots])
    marks: list[Shape] = []
    for log in outer:
        is_labelled = fit(log.spots, label_lines(log.label), room) is not None
        marks += _outside(log, box, labelled=is_labelled)
    patches = [*_centre(desk, unit, scale, room), *(_draw_log(desk, log, room) for log in before)]
    patches += [_draw_log(desk, log, room, new=True) for log in new]
    return (*patches, *arrows, *marks), untold


def _draw_log(desk: Desk, log: Log, room: Room, *, new: bool = False) -> Shape:
    texts = [label_lines(log.label)]
    return draw_patch(log.spots, desk.look_of(log.label), texts=texts, new=new, tag=f"patch {log.label}", room=room)


def _centre(desk: Desk, unit: Unit, scale: float, room: Room) -> list[Shape]:
    """Draw the patch or the unit that all is sewn round."""
    own, logs = len(unit.regions), len(unit.seams)
    pieces = desk.pieces(unit.id)
    return [
        draw_patch(
            scaled(piece.spots, scale),
            desk.look(piece.fabric, piece.print),
            texts=[label_lines(piece.label)],
            tag=f"patch {piece.label}",
            room=room,
        )
        for piece in (*pieces[: own - logs], *pieces[own:])
    ]


def _outside(log: Log, box: tuple[float, float, float, float], *, labelled: bool) -> list[Shape]:
    """Write the number of a log outside the unit, and its label too if the log has no room for it."""
    left, top, right, bottom = box_of(log.spots)
    away = _AWAY + NUMBER_RADIUS
    x, y = (left + right) / 2, (top + bottom) / 2
    label = text_width(log.label, LABEL, bold=True)
    if log.out[0]:
        away = _AWAY + max(NUMBER_RADIUS, 0 if labelled else label / 2)
        x = box[2] + away if log.out[0] > 0 else box[0] - away
    else:
        away = _AWAY + NUMBER_RADIUS
        y = box[3] + away if log.out[1] > 0 else box[1] - away
    if labelled:
        return [circled(log.number, (x, y))]
    if log.out[0]:  # the label below the number, else beside it
        number, at = (x, y - _LOWER), (x, y + _LOWER)
    else:
        number, at = (x, y), (x + NUMBER_RADIUS + 3 + label / 2, y)
    text = Text(x=at[0], y=at[1] + LABEL * _TO_BASELINE, text=log.label, size=LABEL, bold=True, colour=INK)
    return [circled(log.number, number), text]


def log_cabin_stages(desk: Desk, unit: Unit) -> Stages:
    """Return one picture a round, or a few rounds in one where there are many; logs are numbered as they are sewn."""
    scale = _LARGE / max(unit.finished.w, unit.finished.h).to_float()
    logs = logs_of(desk, unit, scale)
    each = _ROUND * -(-len(logs) // (_ROUND * _MOST_PANELS))
    first = unit.from_[0]
    panels = []
    for start in range(0, len(logs), each):
        new = logs[start : start + each]
        parts, untold = draw_round(desk, unit, scale, logs[:start], new)
        told = [] if start else [say("figure.around.start", centre=first.label or first.unit)]
        told += [say("figure.around.sew", n=len(new), first=new[0].number, last=new[-1].number), _pressing(new)]
        if untold:
            names = [say("figure.around.is", number=log.number, label=log.label) for log in untold]
            told.append(f"{listed(names)}.")
        panels.append(Panel(parts=parts, caption=" ".join(told)))
    return Stages(panels=tuple(panels), told=len(logs))


def _pressing(logs: Sequence[Log]) -> str:
    """Return the press instruction of some logs: as a rule each is pressed to the log that is added."""
    outward = all((log.seam.press == "after") == (sum(log.out) > 0) and log.seam.press != "open" for log in logs)
    if outward:
        return say("figure.around.press", n=len(logs))
    return press_sentence([log.seam for log in logs])
