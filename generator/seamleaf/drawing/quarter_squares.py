"""Quarter-squares two at a time, or from triangles: the stages before the finished unit."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Final

from seamleaf.booklet.record import Seam, Unit
from seamleaf.drawing.arrows import press_arrow
from seamleaf.drawing.drafting import Panel
from seamleaf.drawing.figure import Desk
from seamleaf.drawing.outlines import moved
from seamleaf.drawing.pairs import FALLING, PEEK, RISING, Pair, halves, lighter_first, two_triangles, whole_square
from seamleaf.drawing.regions import spots_of
from seamleaf.drawing.scene import Shape, Spot
from seamleaf.drawing.spread import Spread, draw_spread, seam_direction, side_of, spread, whole
from seamleaf.drawing.stages import SIDE, Stages, beside, keep_clear, labels_taken, lay, marked, sewn
from seamleaf.drawing.wording import listed, press_sentence, press_words, say

_APART: Final = 16.0
_PAIR_GAP: Final = 22.0
_BEFORE_LAST: Final = 2
"""Seams sewn before the long one."""


def quarter_square_stages(desk: Desk, unit: Unit, scale: float) -> Stages:
    """Return the stages of quarter-squares; ``scale`` is that of the finished unit."""
    return _two_at_a_time(desk, unit) if unit.method == "two" else from_triangles(desk, unit, scale)


def _two_at_a_time(desk: Desk, unit: Unit) -> Stages:
    """Two squares become two half-squares, and these, laid on each other, two quarter-squares."""
    upper, lower = lighter_first(desk, labels_taken(unit))
    allowance = desk.booklet.seam.to_float() * SIDE / desk.patches[upper].w.to_float()
    squares = Pair(desk=desk, upper=whole_square(upper), lower=whole_square(lower))
    first, second = marked([RISING]), sewn(beside(RISING, allowance))
    opened = two_triangles(lower, upper)
    short = desk.seams_of(unit)[:_BEFORE_LAST]
    targets = tuple(dict.fromkeys(press_words(seam) for seam in short))
    arrow = press_arrow((SIDE / 2, SIDE / 2), away(lower, short[0]), short[0].press, length=14)
    clear = keep_clear(lines=marked([((SIDE / 2 - 6, SIDE / 2 - 6), (SIDE / 2 + 6, SIDE / 2 + 6))]))
    half_square: tuple[Shape, ...] = (*(lay(desk, label, spots, clear=clear) for label, spots in opened), arrow)
    # The lower one looks out at the right and the top, where both of its fabrics are seen.
    units = Pair(desk=desk, upper=two_triangles(upper, lower), lower=opened, peek=(PEEK, -PEEK))
    across, beside_it = marked([FALLING]), beside(FALLING, allowance)
    if len(targets) == 1:
        press = say("figure.press.way", way=targets[0])
    else:
        press = say("figure.press.either", one=targets[0], other=targets[1])
    together = say("figure.half-square.together", first=upper, second=lower)
    return Stages(
        panels=(
            Panel(parts=squares.draw(first), caption=f"{together} {say('figure.half-square.mark')}"),
            Panel(
                parts=squares.draw([*first, *second]),
                caption=say("figure.both-sides", seam=desk.allowance()),
            ),
            Panel(parts=half_square, caption=say("figure.halves", press=press)),
            Panel(
                parts=units.draw([*across, *sewn(beside_it)]),
                caption=say("figure.quarter-square.pair"),
            ),
            Panel(parts=units.cut_apart(halves(FALLING), beside_it), caption=say("figure.half-square.halves")),
        ),
        told=_BEFORE_LAST,
    )


def away(upper_left: str, seam: Seam) -> Spot:
    """Return the direction to the second part of a seam where one label lies at the upper left."""
    sign = -1 if seam.second == upper_left else 1
    return (sign * math.sqrt(0.5), sign * math.sqrt(0.5))


def from_triangles(desk: Desk, unit: Unit, scale: float) -> Stages:
    """Triangles are sewn to pairs along their short seams, and these along the long one, which is the last."""
    *short, _ = desk.seams_of(unit)
    apart = replace(spread(desk, unit.id, scale, (_APART,)), arrows=())
    pairs = _pairs(desk, unit, scale)
    labels = [take.label or "" for take in unit.from_]
    return Stages(
        panels=(
            Panel(
                parts=tuple(draw_spread(desk, apart)), caption=say("figure.quarter-square.lay", labels=listed(labels))
            ),
            Panel(
                parts=tuple(draw_spread(desk, pairs, length=14)),
                caption=f"{say('figure.quarter-square.pairs', n=len(short))} {press_sentence(short)}",
            ),
        ),
        told=len(short),
    )


def _pairs(desk: Desk, unit: Unit, scale: float) -> Spread:
    """Return the unit flat but for a gap along its last, long seam."""
    *short, long = desk.seams_of(unit)
    pieces = desk.pieces(unit.id)
    start = spots_of(long.line)[0]
    normal = seam_direction(long, pieces)
    laid = whole(desk, unit.id, scale)
    drifts = [
        (side * normal[0] * _PAIR_GAP / 2, side * normal[1] * _PAIR_GAP / 2)
        for side in (side_of(piece.spots, start, normal) for piece in pieces)
    ]
    flat = spread(desk, unit.id, scale, (0.0,)).arrows
    arrows = []
    for seam, arrow in zip(short, flat, strict=False):
        side = side_of(spots_of(seam.line), start, normal) * _PAIR_GAP / 2
        arrows.append(replace(arrow, at=(arrow.at[0] + side * normal[0], arrow.at[1] + side * normal[1])))
    shown = tuple(replace(s, spots=moved(s.spots, *drift)) for s, drift in zip(laid.shown, drifts, strict=True))
    return replace(laid, shown=shown, arrows=tuple(arrows))
