"""Strip sets: the strips sewn along their long edges, and the lines along which units are cut from them.

The set lies with its strips level, the way it is cut; the first part of a row is the uppermost strip, so that the
last picture, the unit as it lies in the block, shows it turned by a quarter to the left. A long set is drawn
shortened, with a broken end.
"""

from __future__ import annotations

from itertools import pairwise
from typing import Final

from seamleaf.booklet.record import Unit
from seamleaf.drawing.arrows import press_arrow
from seamleaf.drawing.drafting import Panel, draw_patch, label_lines, label_over
from seamleaf.drawing.figure import Desk
from seamleaf.drawing.measures import size_text, unbroken, with_unit
from seamleaf.drawing.scene import Shape, Spot
from seamleaf.drawing.stages import Stages, cut_along, sewn
from seamleaf.drawing.wording import press_sentence, say
from seamleaf.lengths import Length

_LONG: Final = 300.0
"""Most of a set's length on the page."""
_THIN: Final = 17.0
"""Least height of a strip on the page, so that its label can be read."""
_BREAK: Final = 6.0
_OVER: Final = 7.0
"""How far a cut is drawn beyond the set."""


def strip_set_stages(desk: Desk, unit: Unit) -> Stages:
    """Return the stages of a strip set: sewn and pressed, then sub-cut."""
    drawn = _Set(desk, unit)
    seams = desk.seams_of(unit)
    pressed = f"{say('figure.strip-set.sew', seam=desk.allowance())} {press_sentence(seams)}"
    return Stages(
        panels=(
            Panel(parts=(*drawn.strips(), *drawn.arrows()), caption=pressed),
            Panel(
                parts=(*drawn.strips(labelled=False), *drawn.cuts(), *drawn.labels()), caption=cut_sentence(desk, unit)
            ),
        ),
        told=len(seams),
    )


def cut_sentence(desk: Desk, unit: Unit) -> str:
    """Return how a set is cut: square one end, and then so many units, each so wide."""
    width = unbroken(with_unit(desk.booklet, size_text(desk.booklet, _across(unit))))
    return say("figure.strip-set.cut", n=unit.makes, width=width)


class _Set:
    """The sewn set on the page."""

    def __init__(self, desk: Desk, unit: Unit) -> None:
        s = desk.booklet.seam.to_float()
        labels = [take.label or "" for take in unit.from_]
        highs = [desk.patches[label].h.to_float() - 2 * s for label in labels]
        highs = [high + s * ((i == 0) + (i == len(highs) - 1)) for i, high in enumerate(highs)]
        length = desk.patches[labels[0]].w.to_float()
        scale = max(_LONG / length, _THIN / min(highs))
        self._desk, self._unit, self._labels = desk, unit, labels
        self._broken = length * scale > _LONG
        self._long = min(length * scale, _LONG)
        self._across = _across(unit).to_float() * scale
        self._squared = (length * scale - self._across * unit.makes) / 2
        edges = [0.0]
        for high in highs:
            edges.append(edges[-1] + high * scale)
        self._edges = edges

    def _outlines(self) -> list[tuple[str, tuple[Spot, ...]]]:
        """Return each strip's label and outline."""
        found: list[tuple[str, tuple[Spot, ...]]] = []
        for label, (top, bottom) in zip(self._labels, pairwise(self._edges), strict=True):
            end = [(self._long, top), (self._long, bottom)]
            if self._broken:
                end.insert(1, (self._long + _BREAK, (top + bottom) / 2))
            found.append((label, ((0.0, top), *end, (0.0, bottom))))
        return found

    def strips(self, *, labelled: bool = True) -> list[Shape]:
        """Draw the strips, the first uppermost."""
        shapes: list[Shape] = []
        for label, spots in self._outlines():
            texts = [label_lines(label)] if labelled else []
            shapes.append(draw_patch(spots, self._desk.look_of(label), texts=texts, tag=f"strip {label}"))
        shapes += sewn(((0.0, y), (self._long, y)) for y in self._edges[1:-1])
        return shapes

    def arrows(self) -> list[Shape]:
        """Draw where each seam is pressed, near the right end."""
        seams = sorted(self._desk.seams_of(self._unit), key=lambda seam: seam.at.to_float() if seam.at else 0.0)
        x = self._long * 0.8
        return [
            press_arrow((x, y), (0.0, 1.0), seam.press, length=14)
            for y, seam in zip(self._edges[1:-1], seams, strict=True)
        ]

    def labels(self) -> list[Shape]:
        """Write the labels between the cuts, so that no line runs through them."""
        lines = self._cut_lines()
        middle = max(len(lines) // 2 - 1, 0)
        shapes: list[Shape] = []
        for (label, spots), (top, bottom) in zip(self._outlines(), pairwise(self._edges), strict=True):
            look, texts = self._desk.look_of(label), [label_lines(label)]
            left, right = lines[middle], lines[middle + 1] if len(lines) > 1 else self._long
            between = ((left, top), (right, top), (right, bottom), (left, bottom))
            shapes += label_over(between, look, texts) or label_over(spots, look, texts)
        return shapes

    def cuts(self) -> list[Shape]:
        """Draw the cut that squares an end and those after each unit."""
        return list(cut_along(((x, -_OVER), (x, self._edges[-1] + _OVER)) for x in self._cut_lines()))

    def _cut_lines(self) -> list[float]:
        xs = [self._squared + self._across * n for n in range(self._unit.makes + 1)]
        return [x for x in xs if not self._broken or x < self._long - _BREAK]


def _across(unit: Unit) -> Length:
    """Return the width of one sub-cut."""
    return unit.made.h if unit.axis == "row" else unit.made.w
