"""A pen that writes down what is drawn, so that tests compare scenes without any XML."""

from __future__ import annotations

from dataclasses import dataclass

from seamleaf.drawing.pens import text_extent
from seamleaf.drawing.scene import Group, Ink, Spot, Step, Text


@dataclass(frozen=True, slots=True, kw_only=True)
class Mark:
    """One thing drawn, where it stands on the page, and the tags of the groups that it is in."""

    kind: str
    points: tuple[Spot, ...]
    ink: Ink | None
    text: Text | None
    tags: tuple[str, ...]


class RecordingPen:
    """Writes down all that is drawn, in page coordinates, so that scenes compare without any XML."""

    def __init__(self) -> None:
        self.marks: list[Mark] = []
        self._shifts: list[Spot] = [(0.0, 0.0)]
        self._tags: list[str] = []
        self.groups: list[tuple[str, ...]] = []
        """The tags of every group opened, outermost first."""

    def _record(self, kind: str, points: tuple[Spot, ...], ink: Ink | None, text: Text | None = None) -> None:
        dx, dy = self._shifts[-1]
        moved = tuple((x + dx, y + dy) for x, y in points)
        tags = tuple(tag for tag in self._tags if tag)
        self.marks.append(Mark(kind=kind, points=moved, ink=ink, text=text, tags=tags))

    def path(self, steps: tuple[Step, ...], ink: Ink) -> None:
        """Record a path by its points."""
        points = tuple(spot for _, n in steps for spot in zip(n[::2], n[1::2], strict=True))
        self._record("path", points, ink)

    def polygon(self, points: tuple[Spot, ...], ink: Ink) -> None:
        """Record a polygon."""
        self._record("polygon", points, ink)

    def rect(self, x: float, y: float, w: float, h: float, corner: float, ink: Ink) -> None:  # noqa: ARG002 -- pen
        """Record a rectangle by two corners."""
        self._record("rect", ((x, y), (x + w, y + h)), ink)

    def line(self, start: Spot, end: Spot, ink: Ink) -> None:
        """Record a line."""
        self._record("line", (start, end), ink)

    def circle(self, centre: Spot, radius: float, ink: Ink) -> None:
        """Record a circle by two corners of its box."""
        x, y = centre
        self._record("circle", ((x - radius, y - radius), (x + radius, y + radius)), ink)

    def text(self, text: Text) -> None:
        """Record a text by two corners of its box."""
        left, top, right, bottom = text_extent(text)
        self._record("text", ((left, top), (right, bottom)), None, text)

    def open_group(self, group: Group) -> None:
        """Shift and tag what follows."""
        dx, dy = self._shifts[-1]
        self._shifts.append((dx + group.dx, dy + group.dy))
        self._tags.append(group.tag)
        self.groups.append(tuple(tag for tag in self._tags if tag))

    def close_group(self) -> None:
        """End the shift and the tag."""
        self._shifts.pop()
        self._tags.pop()
