"""Guillotine cutting as a tree: a region is sliced along one axis, each slice again along the other.

A tree is the only way in which the planners say where a patch lies, so every plan can be cut with a ruler
from edge to edge. :func:`saw` turns a tree into placed patches, the cuts in the order of work, and rests.
Everything counts in whole steps (:class:`seamleaf.planning.cutting.scale.Scale`).
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal, NamedTuple

Axis = Literal["x", "y"]


class Patch(NamedTuple):  # a tuple, since they are compared and counted by the thousand
    """A patch as it lies; ``kind`` is the planner's index of its size."""

    kind: int
    w: int
    h: int


@dataclass(frozen=True, slots=True)
class Slices:
    """Nodes one after the other from the region's origin: along x with cuts of constant x, or along y."""

    axis: Axis
    nodes: tuple[Node, ...]

    @property
    def w(self) -> int:
        """Least width that holds all slices."""
        widths = [node.w for node in self.nodes]
        return sum(widths) if self.axis == "x" else max(widths, default=0)

    @property
    def h(self) -> int:
        """Least height that holds all slices."""
        heights = [node.h for node in self.nodes]
        return sum(heights) if self.axis == "y" else max(heights, default=0)


Node = Patch | Slices


def only(node: Node, left: dict[int, int]) -> Node | None:
    """Return the node with no more patches of each kind than are ``left``, and count them off.

    ``None`` if it has none then.
    """
    if isinstance(node, Patch):
        if not left.get(node.kind, 0):
            return None
        left[node.kind] -= 1
        return node
    kept = tuple(one for each in node.nodes if (one := only(each, left)) is not None)
    return Slices(node.axis, kept) if kept else None


@dataclass(frozen=True, slots=True)
class Laid:
    """A patch, or (``kind`` ``None``) a rest, by its top left corner in the sheet."""

    kind: int | None
    x: int
    y: int
    w: int
    h: int


@dataclass(frozen=True, slots=True)
class Line:
    """A cut along ``axis`` = ``at``, from ``start`` to ``end`` on the other axis."""

    axis: Axis
    at: int
    start: int
    end: int


@dataclass(slots=True)
class Sawn:
    """What one sheet gives."""

    patches: list[Laid] = field(default_factory=list)
    lines: list[Line] = field(default_factory=list)
    rests: list[Laid] = field(default_factory=list)


def saw(node: Node, w: int, h: int) -> Sawn:
    """Cut a sheet of ``w`` x ``h`` as ``node`` says.

    Cuts come level by level: first those that go through the whole sheet, from its origin on, then those
    through each slice; so a maker keeps the ruler on one set of lines before turning the fabric.

    Raises:
        ValueError: the tree needs more than the sheet has.

    """
    if node.w > w or node.h > h:
        raise ValueError(f"{node.w} x {node.h} does not come out of {w} x {h}")
    out = Sawn()
    level: list[tuple[Node, Laid]] = [(node, Laid(None, 0, 0, w, h))]
    while level:
        deeper: list[tuple[Node, Laid]] = []
        for one, region in level:
            if isinstance(one, Patch):
                _trim(one, region, out)
            else:
                _slice(one, region, out, deeper)
        level = deeper
    return out


def _trim(patch: Patch, region: Laid, out: Sawn) -> None:
    """Cut a patch from the origin of its region; the first cut leaves the larger of the two possible rests."""
    kept = region
    over_x, over_y = region.w - patch.w, region.h - patch.h
    order: tuple[Axis, Axis] = ("x", "y") if over_x * region.h >= over_y * region.w else ("y", "x")
    for axis in order:
        kept = _cut_off(axis, patch.w if axis == "x" else patch.h, kept, out)
    out.patches.append(Laid(patch.kind, kept.x, kept.y, kept.w, kept.h))


def _slice(node: Slices, region: Laid, out: Sawn, deeper: list[tuple[Node, Laid]]) -> None:
    """Cut a region into slices; what lies beyond the last one is a rest."""
    rest = region
    for one in node.nodes:
        slice_, after = _split(node.axis, one.w if node.axis == "x" else one.h, rest, out)
        deeper.append((one, slice_))
        if after is None:
            return
        rest = after
    out.rests.append(rest)


def _cut_off(axis: Axis, extent: int, region: Laid, out: Sawn) -> Laid:
    kept, rest = _split(axis, extent, region, out)
    if rest is not None:
        out.rests.append(rest)
    return kept


def _split(axis: Axis, extent: int, region: Laid, out: Sawn) -> tuple[Laid, Laid | None]:
    x, y, w, h = region.x, region.y, region.w, region.h
    if extent == (w if axis == "x" else h):
        return region, None
    if axis == "x":
        out.lines.append(Line("x", x + extent, y, y + h))
        return Laid(None, x, y, extent, h), Laid(None, x + extent, y, w - extent, h)
    out.lines.append(Line("y", y + extent, x, x + w))
    return Laid(None, x, y, w, extent), Laid(None, x, y + extent, w, h - extent)
