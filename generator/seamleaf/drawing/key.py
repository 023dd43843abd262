"""The fabric key, and the legend of the marks that figures use."""

from __future__ import annotations

from typing import Final

from seamleaf.drawing.arrows import press_arrow, turn_mark
from seamleaf.drawing.colours import INK, SOFT
from seamleaf.drawing.drafting import (
    CUT,
    DASH,
    LABEL,
    MARGIN,
    SMALLEST,
    STEP,
    STITCH,
    circled,
    draw_patch,
    fit_page,
    line_height,
)
from seamleaf.drawing.figure import Desk, Sketch
from seamleaf.drawing.labels import Line as TextLine
from seamleaf.drawing.looks import Look
from seamleaf.drawing.measures import source_text
from seamleaf.drawing.metrics import wrap
from seamleaf.drawing.pins import pin_mark
from seamleaf.drawing.scene import Group, Ink, Line, Shape, Spot, Text
from seamleaf.drawing.stages import stop_mark
from seamleaf.drawing.wording import listed, say
from seamleaf.drawing.wrong_side import draw_flap, wrong_units
from seamleaf.words import isolated

_SWATCH_W: Final = 56.0
_SWATCH_H: Final = 36.0


def key_sketch(desk: Desk) -> Sketch:
    """Return ``key``: a swatch of every fabric, and of every print role of a bundle, with its letter and hatch."""
    parts: list[Shape] = []
    y = 0.0
    for fabric in desk.booklet.fabrics:
        looks = [
            look for (fabric_id, role), look in desk.looks.items() if fabric_id == fabric.id and look.print == role
        ]
        x = 0.0
        for look in looks:
            parts.append(_swatch(look, fabric.letter, x, y))
            x += _SWATCH_W + 8
        room = STEP - 2 * MARGIN - x
        lines = wrap(fabric.title, LABEL, room)
        top = y + _SWATCH_H / 2 - (len(lines) + 1) * line_height(LABEL) / 2 + 9
        for i, line in enumerate(lines):
            parts.append(_words(x + 4, top + i * line_height(LABEL), isolated(line), bold=True))
        note = source_text(fabric.source)
        if len(looks) > 1:
            note = say("figure.key.roles", source=note, first=1, last=len(looks))
        parts.append(_words(x + 4, top + len(lines) * line_height(LABEL), note))
        y += max(_SWATCH_H, (len(lines) + 1) * line_height(LABEL)) + 10
    named = listed([say("figure.key.is", letter=each.letter, title=each.title) for each in desk.booklet.fabrics])
    return Sketch(id="key", kind="key", title=say("figure.key.title", named=named), scene=fit_page(parts))


def _swatch(look: Look, letter: str, x: float, y: float) -> Group:
    text = letter if look.print is None else f"{letter} · {look.print}"
    spots = ((x, y), (x + _SWATCH_W, y), (x + _SWATCH_W, y + _SWATCH_H), (x, y + _SWATCH_H))
    return draw_patch(spots, look, texts=[(TextLine(text=text, size=12, bold=True),)], tag=f"swatch {look.name}")


def _words(x: float, y: float, text: str, *, bold: bool = False) -> Text:
    return Text(
        x=x, y=y, text=text, size=LABEL if bold else SMALLEST, bold=bold, anchor="start", colour=INK if bold else SOFT
    )


def legend_sketch(desk: Desk) -> Sketch:
    """Return ``legend``: every mark that the figures of this booklet use, with its meaning."""
    rows: list[tuple[tuple[Shape, ...], str]] = []
    presses = {seam.press for seam in desk.booklet.seams} | {press for row in desk.booklet.rows for press in row.press}
    middle: Spot = (22, 12)
    if presses & {"before", "after"}:
        rows.append(((_seam(middle), press_arrow(middle, (1, 0), "after")), say("figure.legend.press")))
    if "open" in presses:
        rows.append(((_seam(middle), press_arrow(middle, (1, 0), "open")), say("figure.legend.open")))
    if "spin" in presses:
        rows.append(((press_arrow(middle, (1, 0), "spin"),), say("figure.legend.spin")))
    look = next(iter(desk.looks.values()))
    box = ((6.0, 2.0), (38.0, 2.0), (38.0, 22.0), (6.0, 22.0))
    level = ((2.0, 12.0), (42.0, 12.0))
    rows += [
        ((draw_patch(box, look, new=True),), say("figure.legend.new")),
        ((draw_patch(box, look, wrong=True),), say("figure.legend.wrong")),
        ((_level(level),), say("figure.legend.line")),
        ((_level(level, STITCH),), say("figure.legend.seam")),
        ((_level(level, DASH),), say("figure.legend.cut")),
        ((circled(1, middle),), say("figure.legend.order")),
    ]
    if wrong_units(desk):
        rows.append((_allowance(look, box), say("figure.legend.allowance")))
    if any(unit.how == "partial" for unit in desk.booklet.units):
        rows.append(((_level(level, STITCH), stop_mark(middle)), say("figure.legend.stop")))
    if desk.booklet.pressing.pins:
        rows.append(((pin_mark(middle),), say("figure.legend.pin")))
    if any(place.pressing_turn % 360 for place in desk.booklet.places):
        rows.append(((turn_mark(middle),), say("figure.legend.turn")))
    parts: list[Shape] = []
    for i, (mark, meaning) in enumerate(rows):
        parts.append(Group(parts=mark, dy=i * 29))
        parts.append(Text(x=52, y=i * 29 + 15.5, text=meaning, size=9.5, anchor="start", colour=INK))
    title = say("figure.legend.title", marks="; ".join(meaning for _, meaning in rows))
    return Sketch(id="legend", kind="legend", title=title, scene=fit_page(parts))


def _level(line: tuple[Spot, Spot], dash: tuple[float, ...] = ()) -> Line:
    return Line(start=line[0], end=line[1], ink=Ink(stroke=INK, width=CUT, dash=dash))


def _allowance(look: Look, box: tuple[Spot, ...]) -> tuple[Shape, ...]:
    """Draw the wrong side with an allowance across it."""
    (left, top), _, (right, bottom), _ = box
    y = (top + bottom) / 2
    strip = ((left, y - 3.5), (right, y - 3.5), (right, y + 3.5), (left, y + 3.5))
    return (draw_patch(box, look, wrong=True), draw_flap(strip, look))


def _seam(middle: Spot) -> Line:
    x, y = middle
    return Line(start=(x, y - 12), end=(x, y + 12), ink=Ink(stroke=SOFT, width=CUT))
