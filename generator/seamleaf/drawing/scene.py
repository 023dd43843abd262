"""Primitive shapes and the pen that they draw on.

A scene is a tuple of frozen shapes in page points: x runs to the right, y down, and one unit is 1/72 inch when the
figure is printed at its full width. Shapes know nothing of SVG: each one draws itself on a pen, and the
serialiser, the bounds and the recording that tests compare are pens.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field
from typing import Literal, Protocol

Spot = tuple[float, float]
Step = tuple[str, tuple[float, ...]]
"""One command of a path: M, L, C or Z with its coordinates."""
Anchor = Literal["start", "middle", "end"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Ink:
    """How a shape is filled and stroked; colours are ``#rrggbb``, ``None`` paints nothing."""

    fill: str | None = None
    opacity: float = 1
    """Of the fill alone."""
    stroke: str | None = None
    width: float = 0
    dash: tuple[float, ...] = ()
    rounded: bool = False
    """Round caps and joins."""


class Pen(Protocol):
    """What shapes draw on."""

    def path(self, steps: tuple[Step, ...], ink: Ink) -> None:
        """Draw a path."""

    def polygon(self, points: tuple[Spot, ...], ink: Ink) -> None:
        """Draw a closed polygon."""

    def rect(self, x: float, y: float, w: float, h: float, corner: float, ink: Ink) -> None:
        """Draw a rectangle, its corners rounded by ``corner``."""

    def line(self, start: Spot, end: Spot, ink: Ink) -> None:
        """Draw a line."""

    def circle(self, centre: Spot, radius: float, ink: Ink) -> None:
        """Draw a circle."""

    def text(self, text: Text) -> None:
        """Set one line of text."""

    def open_group(self, group: Group) -> None:
        """Begin a group: all until its end is shifted by its ``dx`` and ``dy``."""

    def close_group(self) -> None:
        """End the group that was opened last."""


class Shape(Protocol):
    """Anything that draws on a pen."""

    def draw(self, pen: Pen) -> None:
        """Draw this shape on the pen."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Path:
    """A path of M, L, C and Z commands in absolute coordinates."""

    steps: tuple[Step, ...]
    ink: Ink

    def draw(self, pen: Pen) -> None:
        """Draw this shape on the pen."""
        pen.path(self.steps, self.ink)


@dataclass(frozen=True, slots=True, kw_only=True)
class Polygon:
    """A closed polygon."""

    points: tuple[Spot, ...]
    ink: Ink

    def draw(self, pen: Pen) -> None:
        """Draw this shape on the pen."""
        pen.polygon(self.points, self.ink)


@dataclass(frozen=True, slots=True, kw_only=True)
class Rect:
    """An upright rectangle by its top left corner."""

    x: float
    y: float
    w: float
    h: float
    corner: float = 0
    ink: Ink

    def draw(self, pen: Pen) -> None:
        """Draw this shape on the pen."""
        pen.rect(self.x, self.y, self.w, self.h, self.corner, self.ink)


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """A straight line."""

    start: Spot
    end: Spot
    ink: Ink

    def draw(self, pen: Pen) -> None:
        """Draw this shape on the pen."""
        pen.line(self.start, self.end, self.ink)


@dataclass(frozen=True, slots=True, kw_only=True)
class Circle:
    """A circle."""

    centre: Spot
    radius: float
    ink: Ink

    def draw(self, pen: Pen) -> None:
        """Draw this shape on the pen."""
        pen.circle(self.centre, self.radius, self.ink)


@dataclass(frozen=True, slots=True, kw_only=True)
class Text:
    """One line of text; y is its baseline. Turned text runs upwards, its baseline on x."""

    x: float
    y: float
    text: str
    size: float
    anchor: Anchor = "middle"
    bold: bool = False
    turned: bool = False
    colour: str

    def draw(self, pen: Pen) -> None:
        """Draw this shape on the pen."""
        pen.text(self)


@dataclass(frozen=True, slots=True, kw_only=True)
class Group:
    """Shapes that belong together, shifted as one. ``tag`` says what they show, for tests; it is not published."""

    parts: tuple[Shape, ...]
    dx: float = 0
    dy: float = 0
    tag: str = field(default="")

    def draw(self, pen: Pen) -> None:
        """Draw the parts on the pen, in order."""
        pen.open_group(self)
        for part in self.parts:
            part.draw(pen)
        pen.close_group()


@dataclass(frozen=True, slots=True, kw_only=True)
class Scene:
    """Everything that a figure shows, on a page of w by h points."""

    w: float
    h: float
    parts: tuple[Shape, ...]

    def draw(self, pen: Pen) -> None:
        """Draw the parts on the pen, in order."""
        for part in self.parts:
            part.draw(pen)


def closed(points: Iterable[Spot]) -> tuple[Step, ...]:
    """Return the path steps of a closed polygon."""
    steps = [("M" if i == 0 else "L", point) for i, point in enumerate(points)]
    return (*steps, ("Z", ()))
