"""Half-rectangles from cut triangles: laid together, tips out, sewn, and trimmed so that the seam meets the corners."""

from __future__ import annotations

from typing import Final

from seamleaf.booklet.record import Unit
from seamleaf.drawing.arrows import press_arrow
from seamleaf.drawing.colours import INK
from seamleaf.drawing.drafting import CUT, DASH, Panel
from seamleaf.drawing.figure import Desk
from seamleaf.drawing.measures import box_text, size_text, unbroken, with_unit
from seamleaf.drawing.outlines import lengthened
from seamleaf.drawing.scene import Ink, Line, Polygon, Shape, Spot
from seamleaf.drawing.stages import Stages, keep_clear, lay, sewn
from seamleaf.drawing.wording import press_sentence, say

_LONG: Final = 112.0
"""Longer side on the page of a rectangle as it is cut."""
_GAP: Final = 12.0
_TRIM: Final = Ink(stroke=INK, width=CUT, dash=DASH)


def half_rectangle_stages(desk: Desk, unit: Unit) -> Stages:
    """Return the stages before the finished unit."""
    first, second = (take.label or "" for take in unit.from_)
    patch = desk.patches[first]
    w, h = patch.w.to_float(), patch.h.to_float()
    scale = _LONG / max(w, h)
    cut, laid = _cut(desk, first, second, w * scale, h * scale), _together(desk, unit, scale)
    tip = unbroken(with_unit(desk.booklet, size_text(desk.booklet, unit.offset))) if unit.offset else ""
    together = say("figure.half-rectangle.together", seam=desk.allowance())
    if tip:
        together = f"{together} {say('figure.half-rectangle.tips', tip=tip)}"
    box = unbroken(box_text(desk.booklet, (unit.trim or unit.made).w, (unit.trim or unit.made).h))
    trim = say("figure.half-rectangle.trim", size=box)
    return Stages(
        panels=(
            Panel(parts=cut, caption=say("figure.half-rectangle.cut")),
            Panel(parts=laid, caption=together),
            Panel(parts=_trimmed(desk, unit, scale), caption=f"{press_sentence(desk.seams_of(unit))} {trim}"),
        ),
        told=1,
    )


def _cut(desk: Desk, first: str, second: str, w: float, h: float) -> tuple[Shape, ...]:
    """Draw both rectangles with their diagonals; they stand side by side, or one above the other when they are long."""
    shapes: list[Shape] = []
    for index, label in enumerate((first, second)):
        x, y = (index * (w + _GAP), 0.0) if h > w else (0.0, index * (h + _GAP))
        spots = ((x, y), (x + w, y), (x + w, y + h), (x, y + h))
        diagonal = Line(start=spots[3], end=spots[1], ink=_TRIM)
        shapes += [lay(desk, label, spots, clear=keep_clear(lines=[diagonal])), diagonal]
    return tuple(shapes)


def _frame(unit: Unit, desk: Desk) -> tuple[float, float, float, float, float, float]:
    """Return cut and finished sides, the seam allowance, and how far the lower left tip sticks out."""
    patch = desk.patches[unit.from_[0].label or ""]
    w, h, offset = patch.w.to_float(), patch.h.to_float(), unit.offset.to_float() if unit.offset else 0.0
    box = unit.finished
    return w, h, box.w.to_float(), box.h.to_float(), desk.booklet.seam.to_float(), offset if h > w else -offset


def _along(unit: Unit, desk: Desk, scale: float) -> tuple[Spot, tuple[Spot, ...]]:
    """Return the middle of the seam, and the upper left triangle, in the frame of its right angle."""
    w, h, _, _, seam, tip = _frame(unit, desk)
    long = (w * w + h * h) ** 0.5
    reach = (long + tip) / 2
    middle = (reach * w / long - seam * h / long, h - reach * h / long - seam * w / long)
    triangle = ((0.0, 0.0), (w * scale, 0.0), (0.0, h * scale))
    return (middle[0] * scale, middle[1] * scale), triangle


def _together(desk: Desk, unit: Unit, scale: float) -> tuple[Shape, ...]:
    """Draw the second triangle folded over the first along the seam, wrong side up, with the seam."""
    first, second = (take.label or "" for take in unit.from_)
    middle, triangle = _along(unit, desk, scale)
    other = tuple((2 * middle[0] - x, 2 * middle[1] - y) for x, y in triangle)
    (ax, ay), (bx, by) = triangle[2], triangle[1]
    length = ((bx - ax) ** 2 + (by - ay) ** 2) ** 0.5
    ux, uy = (bx - ax) / length, (by - ay) / length

    def folded(spot: Spot) -> Spot:
        along = (spot[0] - middle[0]) * ux + (spot[1] - middle[1]) * uy
        foot = (middle[0] + along * ux, middle[1] + along * uy)
        return 2 * foot[0] - spot[0], 2 * foot[1] - spot[1]

    over = tuple(folded(spot) for spot in other)
    half = length / 2
    ends = ((middle[0] - ux * half, middle[1] - uy * half), (middle[0] + ux * half, middle[1] + uy * half))
    seam = sewn([lengthened(ends, -2.0)])
    return (lay(desk, first, triangle), lay(desk, second, over, upside=True, clear=keep_clear(lines=seam)), *seam)


def _trimmed(desk: Desk, unit: Unit, scale: float) -> tuple[Shape, ...]:
    """Draw the sewn unit opened, with the outline to trim to, turned a little so that the seam meets its corners."""
    first, second = (take.label or "" for take in unit.from_)
    cut_w, cut_h, w, h, seam, _ = _frame(unit, desk)
    middle, triangle = _along(unit, desk, scale)
    long, diagonal = (cut_w * cut_w + cut_h * cut_h) ** 0.5, (w * w + h * h) ** 0.5
    # The seam has the slope of the cut diagonal; the trimmed unit's own diagonal is laid on it.
    cosine = (cut_w * w + cut_h * h) / (long * diagonal)
    sine = (cut_w * h - cut_h * w) / (long * diagonal)
    # Up to the seam: what lies beyond it is allowance, folded under.
    depth = seam * scale * long / cut_h, seam * scale * long / cut_w
    upper = ((0.0, 0.0), (triangle[1][0] - depth[0], 0.0), (0.0, triangle[2][1] - depth[1]))
    lower = tuple((2 * middle[0] - x, 2 * middle[1] - y) for x, y in upper)
    right, low = (w / 2 + seam) * scale, (h / 2 + seam) * scale
    frame = tuple(
        (middle[0] + cosine * x - sine * y, middle[1] + sine * x + cosine * y)
        for x, y in ((-right, -low), (right, -low), (right, low), (-right, low))
    )
    arrow = press_arrow(middle, (cut_h / long, cut_w / long), desk.seams_of(unit)[0].press, length=14)
    x, y = middle
    clear = keep_clear([((x - 8, y - 8), (x + 8, y - 8), (x + 8, y + 8), (x - 8, y + 8))])
    opened = [lay(desk, label, spots, clear=clear) for label, spots in ((first, upper), (second, lower))]
    return (*opened, Polygon(points=frame, ink=_TRIM), arrow)
