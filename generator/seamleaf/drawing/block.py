"""Block figures: each block with its parts apart and press arrows on the seams, and the whole block."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Final

from seamleaf.booklet.record import Box, Unit
from seamleaf.drawing.arrows import LENGTH
from seamleaf.drawing.drafting import MARGIN, PAGE, Panel, lay_out, outline, scaled
from seamleaf.drawing.figure import Desk, Sketch
from seamleaf.drawing.measures import box_text, unbroken
from seamleaf.drawing.pins import pin_mark, pins_inside
from seamleaf.drawing.regions import spots_of
from seamleaf.drawing.scene import Spot
from seamleaf.drawing.spread import Labelled, label_spread, spread, turned_spread, whole
from seamleaf.drawing.wording import count_word, say, spoken

_GAPS: Final = (26.0, 20.0)
_LEAST_GAP: Final = 11.0
_ALL_GAPS: Final = 84.0
"""Room on one side for the gaps between logs, which lie there one behind the other."""
_SIDES: Final = 4
_SIZES: Final = (180.0, 220.0, 260.0, 300.0)
"""Sides tried for a block, until as many of its labels have room as on the largest."""


def block_sketches(desk: Desk) -> list[Sketch]:
    """Return two figures a block: ``block-X-parts`` with its parts apart, and ``block-X`` whole."""
    sketches = []
    for unit in desk.booklet.units:
        if unit.block is not None and unit.how != "patch":
            sketches += [_apart(desk, unit), _whole(desk, unit)]
    return sketches


def _apart(desk: Desk, unit: Unit) -> Sketch:
    gaps: tuple[float, ...] = _GAPS
    room, length = PAGE, LENGTH
    if unit.how in ("around", "partial"):
        rounds = -(-len(unit.seams) // _SIDES)
        gap = max(_LEAST_GAP, min(_GAPS[1], _ALL_GAPS / rounds))
        gaps, length = (gap,), gap - 2
        room = PAGE - 2 * MARGIN - 2 * gap * rounds

    def labelled(side: float) -> Labelled:
        laid = turned_spread(spread(desk, unit.id, _scale(unit, min(side, room)), gaps), unit.lies)
        return label_spread(desk, laid, length=length)

    title = say("figure.block.parts", id=spoken(unit.id))
    panel = Panel(parts=tuple(_as_small_as_it_tells(labelled)[1].draw()))
    return Sketch(
        id=f"block-{unit.id}-parts",
        kind="block",
        title=title,
        scene=lay_out([panel], width=PAGE),
        about={"unit": unit.id, "view": "parts"},
    )


def _whole(desk: Desk, unit: Unit) -> Sketch:
    pins = _as_it_lies(unit, pins_inside(desk, unit))

    def labelled(side: float) -> Labelled:
        scale = _scale(unit, side)
        laid = turned_spread(whole(desk, unit.id, scale), unit.lies)
        return label_spread(desk, laid, marks=[pin_mark(spot) for spot in scaled(pins, scale)])

    side, placed = _as_small_as_it_tells(labelled)
    parts = [*placed.draw(), outline(scaled(_as_it_lies(unit, spots_of(unit.outline)), _scale(unit, side)))]
    made, finished = (_size(desk, unit, box) for box in (unit.trim or unit.made, unit.finished))
    patches = len(desk.pieces(unit.id))
    title = say(
        "figure.block.whole",
        id=spoken(unit.id),
        count=count_word(patches),
        size=say("figure.unfinished", size=made),
        finished=finished,
        make=unit.count,
    )
    shown = say("figure.unfinished", size=unbroken(made))
    caption = say("figure.block.caption", size=shown, finished=unbroken(finished))
    if pins:
        title += f" {say('figure.pin')}"
        caption += f". {say('figure.pin-short')}"
    return Sketch(
        id=f"block-{unit.id}",
        kind="block",
        title=title,
        scene=lay_out([Panel(parts=tuple(parts), caption=caption)], width=PAGE),
        about={"unit": unit.id, "view": "whole"},
    )


def _size(desk: Desk, unit: Unit, box: Box) -> str:
    lying = _lying(unit, box)
    return box_text(desk.booklet, lying.w, lying.h)


def _as_small_as_it_tells(labelled: Callable[[float], Labelled]) -> tuple[float, Labelled]:
    """Return the smallest side at which no label is missing that the largest has room for, and the block so large."""
    *smaller, largest = _SIZES
    full = labelled(largest)
    tried = ((side, labelled(side)) for side in smaller)
    return next((each for each in tried if each[1].labels == full.labels), (largest, full))


def _scale(unit: Unit, side: float) -> float:
    return side / max(unit.finished.w.to_float(), unit.finished.h.to_float())


def _lying(unit: Unit, box: Box) -> Box:
    """Return a size of a unit as its block lies."""
    return Box(w=box.h, h=box.w) if unit.lies % 180 else box


def _as_it_lies(unit: Unit, spots: Sequence[Spot]) -> tuple[Spot, ...]:
    """Turn spots of a unit's frame with its block."""
    w, h = unit.finished.w.to_float(), unit.finished.h.to_float()
    for _ in range(unit.lies // 90):
        spots, w, h = tuple((h - y, x) for x, y in spots), h, w
    return tuple(spots)
