"""Flying geese four at a time and by stitch and flip: the stages before the finished unit."""

from __future__ import annotations

import math
from typing import Final

from seamleaf.booklet.record import Unit
from seamleaf.drawing.drafting import Panel
from seamleaf.drawing.figure import Desk
from seamleaf.drawing.outlines import Segment
from seamleaf.drawing.scene import Shape, Spot
from seamleaf.drawing.stages import (
    SIDE,
    Stages,
    beside,
    cut_along,
    keep_clear,
    labels_taken,
    lay,
    marked,
    pressed_to,
    sewn,
    shifted,
    square_of,
)
from seamleaf.drawing.wording import say

_ROOT: Final = math.sqrt(0.5)
_HEART: Final = 0.8
"""The half square stands on its point here, and is drawn smaller to take no more room than the whole one."""
_RECTANGLE: Final = 112.0


def geese_four_stages(desk: Desk, unit: Unit) -> Stages:
    """Return the stages of flying geese four at a time: one large square, four small ones, no waste."""
    large, small = _by_size(desk, unit)
    side = desk.patches[large].w.to_float()
    q = desk.patches[small].w.to_float() * SIDE / side
    allowance = desk.booklet.seam.to_float() * SIDE / side
    mark: Segment = ((0.0, 0.0), (SIDE, SIDE))
    corners = (square_of(0, 0, q), square_of(SIDE - q, SIDE - q, q))
    mark_lines, seam_lines = marked([mark]), sewn(beside(mark, allowance))

    def pair(lines: list[Shape]) -> tuple[Shape, ...]:
        clear = keep_clear(lines=[*mark_lines, *seam_lines])
        under = lay(desk, large, square_of(0, 0, SIDE), clear=keep_clear(corners))
        return (under, *(lay(desk, small, corner, upside=True, clear=clear) for corner in corners), *lines)

    heart, wings, tip = _heart(q)
    middle: Segment = ((0.0, 0.0), tip)
    added = _on_corner(q)
    lines = [*marked([middle]), *sewn(beside(middle, allowance * _HEART))]
    opened: tuple[Shape, ...] = (
        lay(desk, large, heart, clear=keep_clear()),
        *(lay(desk, small, wing, clear=keep_clear()) for wing in wings),
    )
    covered: tuple[Shape, ...] = (
        lay(desk, large, heart),
        *(lay(desk, small, wing, clear=keep_clear()) for wing in wings),
        lay(desk, small, added, upside=True, clear=keep_clear(lines=lines)),
        *lines,
    )
    press = pressed_to(desk, unit, small)
    return Stages(panels=(
        Panel(parts=pair([*mark_lines]), caption=say("figure.geese.two", small=small, large=large)),
        Panel(
            parts=pair([*mark_lines, *seam_lines]), caption=say("figure.both-sides", seam=desk.allowance())
        ),
        Panel(parts=opened, caption=say("figure.halves", press=say("figure.press.way", way=press))),
        Panel(parts=covered, caption=say("figure.geese.free", small=small)),
    ))  # fmt: skip


def flip_stages(desk: Desk, unit: Unit) -> Stages:
    """Return the stages of flying geese by stitch and flip: a rectangle and two squares."""
    goose, sky = _by_size(desk, unit)
    patch = desk.patches[goose]
    long, short = max(patch.w, patch.h).to_float(), min(patch.w, patch.h).to_float()
    scale = _RECTANGLE / long
    w, h, q = long * scale, short * scale, desk.patches[sky].w.to_float() * scale
    allowance = desk.booklet.seam.to_float() * scale
    base: tuple[Spot, ...] = ((0.0, 0.0), (w, 0.0), (w, h), (0.0, h))
    left, right = square_of(0, 0, q), square_of(w - q, 0, q)
    left_seam: Segment = ((0.0, q), (q, 0.0))
    right_seam: Segment = ((w - q, 0.0), (w, q))
    left_flap: tuple[Spot, ...] = ((0.0, 0.0), (q, 0.0), (0.0, q))
    trims = [cut_along([shifted(seam, -allowance)]) for seam in (left_seam, right_seam)]
    press = pressed_to(desk, unit, sky)
    cut = say("figure.geese.flip", seam=desk.allowance())

    def stage(flaps: tuple[tuple[Spot, ...], ...], over: tuple[Spot, ...], lines: list[Shape]) -> tuple[Shape, ...]:
        return (
            lay(desk, goose, base, clear=keep_clear((over, *flaps))),
            *(lay(desk, sky, flap, clear=keep_clear()) for flap in flaps),
            lay(desk, sky, over, upside=True, clear=keep_clear(lines=sewn([left_seam, right_seam]))),
            *lines,
        )

    flipped = (lay(desk, goose, base, clear=keep_clear((left_flap,))), lay(desk, sky, left_flap, clear=keep_clear()))
    return Stages(panels=(
        Panel(
            parts=stage((), left, [*sewn([left_seam]), *trims[0]]),
            caption=f"{say('figure.half-square.together', first=sky, second=goose)} {cut}",
        ),
        Panel(parts=flipped, caption=say("figure.press.way", way=press)),
        Panel(
            parts=stage((left_flap,), right, [*sewn([right_seam]), *trims[1]]),
            caption=f"{say('figure.geese.other', sky=sky)} {cut}",
        ),
    ))  # fmt: skip


def _by_size(desk: Desk, unit: Unit) -> tuple[str, str]:
    """Return the labels of the goose, which is the larger patch, and of the sky."""
    ordered = sorted(labels_taken(unit), key=lambda label: -desk.patches[label].w.to_float())
    return ordered[0], ordered[-1]


def _heart(q: float) -> tuple[tuple[Spot, ...], tuple[tuple[Spot, ...], ...], Spot]:
    """Return a half of the large square, right angle down, the two small triangles pressed up, and its tip."""
    half, r = SIDE * _ROOT * _HEART, q * _ROOT * _HEART
    tip = (0.0, half)
    wings = (((-half, 0.0), (-half + r, -r), (-half + 2 * r, 0.0)), ((half - 2 * r, 0.0), (half - r, -r), (half, 0.0)))
    return ((-half, 0.0), (half, 0.0), tip), wings, tip


def _on_corner(q: float) -> tuple[Spot, ...]:
    """Return the small square on the right angle of the half, standing on its point."""
    tip, r = SIDE * _ROOT * _HEART, q * _ROOT * _HEART
    return ((0.0, tip - 2 * r), (r, tip - r), (0.0, tip), (-r, tip - r))
