"""Three-triangle squares in mirrored pairs, or from triangles: the stages before, and the finished unit both ways."""

from __future__ import annotations

from dataclasses import replace
from typing import Final

from seamleaf.booklet.record import Unit
from seamleaf.drawing.arrows import press_arrow
from seamleaf.drawing.drafting import Panel, outline, scaled
from seamleaf.drawing.figure import Desk
from seamleaf.drawing.outlines import moved
from seamleaf.drawing.pairs import FALLING, PEEK, RISING, Pair, halves, lighter_first, two_triangles, whole_square
from seamleaf.drawing.quarter_squares import away, from_triangles
from seamleaf.drawing.regions import spots_of
from seamleaf.drawing.scene import Shape
from seamleaf.drawing.spread import Spread, draw_spread, spread, whole
from seamleaf.drawing.stages import SIDE, Stages, beside, keep_clear, lay, marked, measured, sewn
from seamleaf.drawing.wording import press_sentence, say

_BETWEEN: Final = 26.0
"""Between a unit and its mirror image."""
_SHORT: Final = 1
"""Seams sewn before the long one."""


def three_triangle_stages(desk: Desk, unit: Unit, scale: float) -> Stages:
    """Return the stages of three-triangle squares; ``scale`` is that of the finished unit."""
    stages = _two_at_a_time(desk, unit) if unit.method == "two" else from_triangles(desk, unit, scale)
    return replace(stages, finished=_both_hands(desk, unit, scale)) if unit.mirrored else stages


def _two_at_a_time(desk: Desk, unit: Unit) -> Stages:
    """Two squares become two half-squares; one of these and a plain square become two units, mirrored."""
    plain, right, bottom = (region.label for region in unit.regions)
    upper, lower = lighter_first(desk, (right, bottom))
    side = {label: desk.patches[label].w.to_float() for label in (plain, upper)}
    allowance = {label: desk.booklet.seam.to_float() * SIDE / size for label, size in side.items()}
    squares = Pair(desk=desk, upper=whole_square(upper), lower=whole_square(lower))
    first, second = marked([RISING]), sewn(beside(RISING, allowance[upper]))
    opened = two_triangles(lower, upper)
    short = desk.seams_of(unit)[:_SHORT]
    arrow = press_arrow((SIDE / 2, SIDE / 2), away(lower, short[0]), short[0].press, length=14)
    clear = keep_clear(lines=marked([((SIDE / 2 - 6, SIDE / 2 - 6), (SIDE / 2 + 6, SIDE / 2 + 6))]))
    half_square: tuple[Shape, ...] = (*(lay(desk, label, spots, clear=clear) for label, spots in opened), arrow)
    # The lower one looks out at the right and the top, where both of its fabrics are seen.
    units = Pair(desk=desk, upper=whole_square(plain), lower=opened, peek=(PEEK, -PEEK))
    beside_it = beside(FALLING, allowance[plain])
    together = say("figure.half-square.together", first=upper, second=lower)
    return Stages(
        panels=(
            Panel(parts=squares.draw(first), caption=f"{together} {say('figure.half-square.mark')}"),
            Panel(parts=squares.draw([*first, *second]), caption=say("figure.both-sides", seam=desk.allowance())),
            Panel(parts=half_square, caption=say("figure.halves", press=press_sentence(short))),
            Panel(
                parts=units.draw([*marked([FALLING]), *sewn(beside_it)]),
                caption=say("figure.three-triangle.pair", first=plain),
            ),
            Panel(parts=units.cut_apart(halves(FALLING), beside_it), caption=say("figure.half-square.halves")),
        ),
        told=_SHORT,
    )


def _both_hands(desk: Desk, unit: Unit, scale: float) -> Panel:
    """Show the finished unit beside its mirror image."""
    laid = replace(whole(desk, unit.id, scale), arrows=spread(desk, unit.id, scale, (0.0,)).arrows[_SHORT:])
    frame = scaled(spots_of(unit.outline), scale)
    parts = [*draw_spread(desk, laid, length=14), outline(frame)]
    parts += draw_spread(desk, _mirrored(laid), length=14)
    parts.append(outline(moved(frame, laid.w + _BETWEEN, 0.0)))
    told = f"{press_sentence(desk.seams_of(unit)[_SHORT:])} {measured(desk, unit)}"
    return Panel(parts=tuple(parts), caption=f"{told} {say('figure.three-triangle.hands')}")


def _mirrored(laid: Spread) -> Spread:
    """Return a spread as a mirror at its right shows it."""
    across = 2 * laid.w + _BETWEEN
    shown = tuple(replace(each, spots=tuple((across - x, y) for x, y in each.spots)) for each in laid.shown)
    arrows = tuple(
        replace(each, at=(across - each.at[0], each.at[1]), toward_after=(-each.toward_after[0], each.toward_after[1]))
        for each in laid.arrows
    )
    return replace(laid, shown=shown, arrows=arrows)
