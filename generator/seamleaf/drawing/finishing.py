"""The binding: how its strips are joined and folded."""

from __future__ import annotations

from typing import Final

from seamleaf.drawing.bias import bias_sketch
from seamleaf.drawing.colours import INK
from seamleaf.drawing.drafting import CUT, DASH, STEP, STITCH, Panel, draw_patch, label_lines, lay_out
from seamleaf.drawing.figure import Desk, Sketch
from seamleaf.drawing.labels import Room
from seamleaf.drawing.measures import size_text, with_unit
from seamleaf.drawing.scene import Ink, Line, Shape, Spot
from seamleaf.drawing.wording import count_word, say

_STRIP: Final = 34.0
_REACH: Final = 120.0


def binding_sketches(desk: Desk) -> list[Sketch]:
    """Return ``binding``, or nothing for a quilt without one: how strips are joined on the slant and folded."""
    binding = desk.booklet.binding
    if binding is None:
        return []
    if binding.cut == "bias":
        return [bias_sketch(desk, binding)]
    look = desk.look(binding.fabric, None)
    s, r = _STRIP, _REACH
    # One strip comes from the left; the other lies on it, wrong side up, and runs down.
    level = ((0.0, 0.0), (r, 0.0), (r, s), (0.0, s))
    down = ((r - s, 0.0), (r, 0.0), (r, r), (r - s, r))
    seam = ((r - s, 0.0), (r, s))
    off = 7.0
    trim = ((r - s + off * 1.414, 0.0), (r, s - off * 1.414))
    crossing: list[Shape] = [
        draw_patch(level, look, texts=[label_lines(binding.label)], tag="strip", room=_covered(down)),
        draw_patch(down, look, wrong=True, new=True, tag="strip"),
        Line(start=seam[0], end=seam[1], ink=Ink(stroke=INK, width=CUT, dash=STITCH)),
        Line(start=trim[0], end=trim[1], ink=Ink(stroke=INK, width=CUT, dash=DASH)),
    ]
    half = r * 0.6
    opened: list[Shape] = [
        draw_patch(((0.0, 0.0), (half - s / 2, 0.0), (half + s / 2, s), (0.0, s)), look, tag="strip",
                   texts=[label_lines(binding.label)]),
        draw_patch(((half - s / 2, 0.0), (2 * half, 0.0), (2 * half, s), (half + s / 2, s)), look, tag="strip",
                   texts=[label_lines(binding.label)]),
    ]  # fmt: skip
    folded: list[Shape] = [
        draw_patch(((0.0, 0.0), (2 * half, 0.0), (2 * half, s / 2), (0.0, s / 2)), look, tag="strip"),
        Line(start=(0, 0), end=(2 * half, 0), ink=Ink(stroke=INK, width=2.25)),
    ]
    width = with_unit(desk.booklet, size_text(desk.booklet, binding.width))
    allowance = desk.allowance()
    panels = [
        Panel(parts=tuple(crossing), number=1, caption=say("figure.binding.cross", seam=allowance)),
        Panel(parts=tuple(opened), number=2, caption=say("figure.binding.open")),
        Panel(parts=tuple(folded), number=3, caption=say("figure.binding.fold")),
    ]  # fmt: skip
    title = say("figure.binding.title", count=count_word(binding.strips), label=binding.label, width=width)
    return [
        Sketch(
            id="binding",
            kind="binding",
            title=title,
            scene=lay_out(panels, width=STEP, least=150),
            about={"fabric": binding.fabric},
        )
    ]


def _covered(spots: tuple[Spot, ...]) -> Room:
    room = Room()
    xs, ys = [x for x, _ in spots], [y for _, y in spots]
    room.take((min(xs) - 3, min(ys), max(xs) + 3, max(ys)))
    return room
