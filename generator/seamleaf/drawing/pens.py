"""A pen that looks at scenes instead of writing them: it finds their bounds."""

from __future__ import annotations

from collections.abc import Sequence

from seamleaf.drawing.metrics import ASCENT, DESCENT, text_width
from seamleaf.drawing.scene import Group, Ink, Shape, Spot, Step, Text

Extent = tuple[float, float, float, float]
"""Left, top, right, bottom."""


def text_extent(text: Text) -> Extent:
    """Return the box that a line of text fills, from the widths of the first font of the family."""
    width = text_width(text.text, text.size, bold=text.bold)
    before = {"start": 0.0, "middle": 0.5, "end": 1.0}[text.anchor] * width
    if text.turned:
        bottom = text.y + before
        return (text.x - ASCENT * text.size, bottom - width, text.x + DESCENT * text.size, bottom)
    left = text.x - before
    return (left, text.y - ASCENT * text.size, left + width, text.y + DESCENT * text.size)


class BoundsPen:
    """Collects the extent of all that is drawn, strokes included."""

    def __init__(self) -> None:
        self._shifts: list[Spot] = [(0.0, 0.0)]
        self._boxes: list[Extent] = []

    @property
    def extent(self) -> Extent:
        """What was drawn so far; all zero for nothing."""
        if not self._boxes:
            return (0.0, 0.0, 0.0, 0.0)
        return around(self._boxes)

    def _add(self, xs: Sequence[float], ys: Sequence[float], margin: float) -> None:
        dx, dy = self._shifts[-1]
        self._boxes.append((min(xs) + dx - margin, min(ys) + dy - margin, max(xs) + dx + margin, max(ys) + dy + margin))

    def path(self, steps: tuple[Step, ...], ink: Ink) -> None:
        """Take the ends and the control points of a path, which enclose it."""
        if steps:
            flat = [number for _, numbers in steps for number in numbers]
            self._add(flat[::2], flat[1::2], ink.width / 2)

    def polygon(self, points: tuple[Spot, ...], ink: Ink) -> None:
        """Take a polygon's corners."""
        self._add([x for x, _ in points], [y for _, y in points], ink.width / 2)

    def rect(self, x: float, y: float, w: float, h: float, corner: float, ink: Ink) -> None:  # noqa: ARG002 -- pen
        """Take a rectangle's corners."""
        self.polygon(((x, y), (x + w, y + h)), ink)

    def line(self, start: Spot, end: Spot, ink: Ink) -> None:
        """Take a line's ends."""
        self.polygon((start, end), ink)

    def circle(self, centre: Spot, radius: float, ink: Ink) -> None:
        """Take a circle's box."""
        self._add(centre[:1], centre[1:], radius + ink.width / 2)

    def text(self, text: Text) -> None:
        """Take the box of a text."""
        left, top, right, bottom = text_extent(text)
        self._add((left, right), (top, bottom), 0)

    def open_group(self, group: Group) -> None:
        """Shift what follows."""
        dx, dy = self._shifts[-1]
        self._shifts.append((dx + group.dx, dy + group.dy))

    def close_group(self) -> None:
        """End the shift."""
        self._shifts.pop()


def extent_of(shapes: tuple[Shape, ...]) -> Extent:
    """Return the extent of the shapes."""
    pen = BoundsPen()
    for shape in shapes:
        shape.draw(pen)
    return pen.extent


def around(extents: Sequence[Extent]) -> Extent:
    """Return the extent of several, of which there is at least one."""
    lefts, tops, rights, bottoms = zip(*extents, strict=True)
    return (min(lefts), min(tops), max(rights), max(bottoms))
