"""How setting triangles come from their squares: cut once or twice, corner to corner."""

from __future__ import annotations

from typing import Final

from seamleaf.booklet.record import Unit
from seamleaf.drawing.colours import INK, PAPER
from seamleaf.drawing.drafting import CUT, DASH, STEP, Panel, draw_patch, label_lines, lay_out
from seamleaf.drawing.figure import Desk, Sketch
from seamleaf.drawing.labels import centre_of
from seamleaf.drawing.measures import unbroken, with_unit
from seamleaf.drawing.scene import Ink, Line, Shape
from seamleaf.drawing.stages import square_of
from seamleaf.drawing.wording import count_word, say

_SIDE: Final = 120.0
_APART: Final = 0.3


def triangle_sketch(desk: Desk, unit: Unit) -> Sketch:
    """Return the step figure of a setting triangle."""
    label = unit.regions[0].label
    look = desk.look_of(label)
    twice = desk.patches[label].shape == "quartered"
    a, b, c, d = square = square_of(0, 0, _SIDE)
    m = (_SIDE / 2, _SIDE / 2)
    cuts = [(d, b), (a, c)] if twice else [(d, b)]
    triangles = [(a, b, m), (b, c, m), (c, d, m), (d, a, m)] if twice else [(a, b, d), (b, c, d)]
    inks = (Ink(stroke=PAPER, width=2.5), Ink(stroke=INK, width=CUT, dash=DASH))
    lines = [Line(start=start, end=end, ink=ink) for ink in inks for start, end in cuts]
    apart: list[Shape] = []
    for triangle in triangles:
        x, y = centre_of(triangle)
        dx, dy = (x - m[0]) * _APART, (y - m[1]) * _APART
        moved = tuple((px + dx, py + dy) for px, py in triangle)
        apart.append(draw_patch(moved, look, texts=[label_lines(label)], tag=f"patch {label}"))
    size, count = desk.cut_size(label), count_word(len(triangles))
    kind = "side" if twice else "corner"
    inches = with_unit(desk.booklet, size)
    whole: tuple[Shape, ...] = (draw_patch(square, look, tag=f"square {label}"), *lines)
    panels = [
        Panel(parts=whole, caption=say(f"figure.triangle.cut-{kind}", size=unbroken(size), label=label), number=1),
        Panel(parts=tuple(apart), caption=say(f"figure.triangle.{kind}", count=count, label=label), number=2),
    ]
    return Sketch(
        id=f"step-{unit.id}",
        kind="step",
        title=say(f"figure.triangle.title-{kind}", size=inches, label=label, count=count),
        scene=lay_out(panels, width=STEP),
        about={"unit": unit.id},
    )
