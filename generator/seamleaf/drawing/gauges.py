"""Gauges to scale: outlines on which a class lays its pieces, with the play that passes.

Drawn for the sizes that a class sews, at one point of the figure for 1/72 inch, so that a sheet printed at full size
measures true.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from seamleaf.booklet.record import Booklet, Unit
from seamleaf.drawing.colours import INK
from seamleaf.drawing.figure import Desk, Sketch
from seamleaf.drawing.measures import box_text, size_text, with_unit
from seamleaf.drawing.scene import Ink, Line, Rect, Scene, Shape, Text
from seamleaf.drawing.wording import say, spoken
from seamleaf.lengths import Length, measures_of

_POINTS: Final = 72.0
_AIR: Final = 8.0
_LARGEST: Final = 6
"""Inches of the longest side that both papers hold."""
_PLAY: Final = 1 / 16
"""Inches that a piece may be too small or too large (common practice, no source)."""
_SEAM_PLAY: Final = 1 / 32
"""Inches that three strips may differ (common practice, no source)."""


def gauge_sketches(desk: Desk) -> list[Sketch]:
    """Return the gauge of the seam test and of the first unit of each way of sewing, where a class sews this size."""
    booklet = desk.booklet
    if not booklet.classes:
        return []
    found = [_seam(booklet)] if _fits(booklet, (booklet.seam_test.whole,)) else []
    seen: set[tuple[str, str | None]] = set()
    for unit in booklet.units:
        size = unit.trim or unit.made
        if unit.how in ("patch", "join") or (unit.how, unit.method) in seen:
            continue
        seen.add((unit.how, unit.method))
        if size.w.is_rational and size.h.is_rational and _fits(booklet, (size.w, size.h)):
            found.append(_unit(booklet, unit))
    return found


def _fits(booklet: Booklet, sides: Sequence[Length]) -> bool:
    return max(sides) <= measures_of(booklet.unit).inch * _LARGEST


def _points(booklet: Booklet, length: Length) -> float:
    return (length / measures_of(booklet.unit).inch).to_float() * _POINTS


def _unit(booklet: Booklet, unit: Unit) -> Sketch:
    size = unit.trim or unit.made
    w, h = _points(booklet, size.w), _points(booklet, size.h)
    play = _PLAY * _POINTS
    parts: list[Shape] = [
        Rect(x=_AIR, y=_AIR, w=w, h=h, ink=Ink(stroke=INK, width=1)),
        *(
            Rect(x=_AIR + by, y=_AIR + by, w=w - 2 * by, h=h - 2 * by, ink=Ink(stroke=INK, width=0.5, dash=(3, 2)))
            for by in (play, -play)
        ),
        Text(x=_AIR + w / 2, y=_AIR + h / 2, text=unit.id, size=14, bold=True, colour=INK),
    ]
    if w > 110 and h > 50:
        text = box_text(booklet, size.w, size.h)
        parts.append(Text(x=_AIR + w / 2, y=_AIR + h / 2 + 16, text=text, size=10, colour=INK))
    return Sketch(
        id=f"gauge-{unit.id}",
        kind="gauge",
        title=say("figure.gauge.unit", unit=spoken(unit.id)),
        desc=say("figure.gauge.outline", size=box_text(booklet, size.w, size.h)),
        scene=Scene(w=w + 2 * _AIR, h=h + 2 * _AIR, parts=tuple(parts)),
        about={"gauge": "unit", "unit": unit.id},
    )


def _seam(booklet: Booklet) -> Sketch:
    test = booklet.seam_test
    whole, middle = _points(booklet, test.whole), _points(booklet, test.middle)
    left, right = _AIR + (whole - middle) / 2, _AIR + (whole + middle) / 2
    play = _SEAM_PLAY * _POINTS / 2
    top, h = _AIR, 100.0
    parts: list[Shape] = [Rect(x=_AIR, y=top, w=whole, h=h, ink=Ink(stroke=INK, width=1))]
    for x, sign in ((left, 1), (right, -1)):
        parts.append(Line(start=(x, top), end=(x, top + h), ink=Ink(stroke=INK, width=1)))
        parts += [
            Line(start=(x + by * sign, top), end=(x + by * sign, top + h), ink=Ink(stroke=INK, width=0.3, dash=(3, 2)))
            for by in (play, -play)
        ]
    texts = (((left + right) / 2, test.middle), ((_AIR + left) / 2, None), ((right + _AIR + whole) / 2, None))
    parts += [
        Text(x=x, y=top + h / 2, text=with_unit(booklet, size_text(booklet, size)), size=11, bold=True, colour=INK)
        for x, size in texts
        if size is not None
    ]
    shown = with_unit(booklet, size_text(booklet, test.whole))
    parts.append(Text(x=_AIR + whole / 2, y=top + h + 14, text=shown, size=11, colour=INK))
    return Sketch(
        id="gauge-seam",
        kind="gauge",
        title=say("figure.gauge.seam"),
        desc=say("figure.gauge.strips", size=shown),
        scene=Scene(w=whole + 2 * _AIR, h=h + 2 * _AIR + 12, parts=tuple(parts)),
        about={"gauge": "seam"},
    )
