"""The figure of a binding cut on the bias: a square, its two halves sewn, and the tube that is cut round and round."""

from __future__ import annotations

from typing import Final

from seamleaf.booklet.record import BindingNote
from seamleaf.drawing.colours import INK
from seamleaf.drawing.drafting import CUT, DASH, STEP, STITCH, Panel, draw_patch, label_lines, label_over, lay_out
from seamleaf.drawing.figure import Desk, Sketch
from seamleaf.drawing.measures import size_text, with_unit
from seamleaf.drawing.scene import Ink, Line, Shape
from seamleaf.drawing.wording import say
from seamleaf.lengths import ZERO

_SIDE: Final = 110.0


def bias_sketch(desk: Desk, binding: BindingNote) -> Sketch:
    """Return ``binding``: the cut, the slanting panel with its lines to scale, the shifted tube, the fold."""
    booklet, look, a = desk.booklet, desk.look(binding.fabric, None), _SIDE
    scale = a / (binding.square or binding.width).to_float()
    side = with_unit(booklet, size_text(booklet, binding.square or ZERO))
    width = with_unit(booklet, size_text(booklet, binding.width))
    texts = [label_lines(binding.label)]
    cut, dash = Ink(stroke=INK, width=CUT), Ink(stroke=INK, width=CUT, dash=DASH)
    square: list[Shape] = [
        draw_patch(((0.0, 0.0), (a, 0.0), (a, a), (0.0, a)), look, tag="strip"),
        Line(start=(0, 0), end=(a, a), ink=cut),
        *label_over(((0.0, 0.0), (a, a), (0.0, a)), look, texts),
    ]
    # The upper half slides down to the lower one; between its bias edges the panel is ``tall`` along each short end.
    tall = a - 2 * booklet.seam.to_float() * scale
    panel = ((0.0, 0.0), (a, a), (a, a + tall), (0.0, tall))
    step = binding.width.to_float() * scale * 2**0.5
    lines: list[Shape] = [
        Line(start=(0, step * i), end=(a, a + step * i), ink=dash) for i in range(1, (binding.rounds or 0) + 1)
    ]
    sewn: list[Shape] = [
        draw_patch(panel, look, tag="strip"),
        *lines,
        *label_over(((0.0, 0.0), (tall, tall), (0.0, tall)), look, texts),
        Line(start=(0, tall), end=(a, tall), ink=Ink(stroke=INK, width=CUT, dash=STITCH)),
    ]
    # The right end of the panel at the left, its left end at the right: the lines meet one further down.
    end = 40.0
    ends: list[Shape] = [
        draw_patch(((0.0, 0.0), (end, end), (end, end + tall), (0.0, tall)), look, tag="strip"),
        draw_patch(
            ((end, end + step), (2 * end, 2 * end + step), (2 * end, 2 * end + step + tall), (end, end + step + tall)),
            look,
            tag="strip",
        ),
    ]
    for i in range(1, (binding.rounds or 0) + 1):
        ends.append(Line(start=(0, step * i), end=(end, end + step * i), ink=dash))
        ends.append(Line(start=(end, end + step * (i + 1)), end=(2 * end, 2 * end + step * (i + 1)), ink=dash))
    ends.append(Line(start=(end, end + step), end=(end, end + tall), ink=Ink(stroke=INK, width=CUT, dash=STITCH)))
    panels = [
        Panel(parts=tuple(square), number=1, caption=say("figure.bias.square", side=side)),
        Panel(parts=tuple(sewn), number=2, caption=say("figure.bias.halves", width=width)),
        Panel(parts=tuple(ends), number=3, caption=say("figure.bias.tube")),
    ]
    title = say("figure.bias.title", label=binding.label, side=side, width=width)
    return Sketch(
        id="binding",
        kind="binding",
        title=title,
        scene=lay_out(panels, width=STEP, least=150),
        about={"fabric": binding.fabric},
    )
