"""Whether a handful of patches comes out of one piece, cut with a ruler from edge to edge.

Answered exactly. For every part of the handful the search keeps the smallest boxes that hold it: those with no
other box both narrower and lower. A box of two parts is one beside the other or one above the other, which
is what an edge-to-edge cut between them means; so a handful fits if and only if one of its boxes does. A box that
wastes more than the piece can spare beside the whole handful is of no use, so the fuller the piece, the fewer boxes.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import product
from typing import Final, Literal

from seamleaf.planning.cutting.firstfit import LAYS, plan_by_filling
from seamleaf.planning.cutting.kinds import Kind
from seamleaf.planning.cutting.strips import tree_of
from seamleaf.planning.cutting.tree import Axis, Node, Patch, Slices

Counts = tuple[int, ...]
"""Patches by kind."""
Unknown = Literal["unknown"]
UNKNOWN: Final[Unknown] = "unknown"
_FILLING: Final = 100
"""That many handfuls may be looked at, and one more for so many steps of the search."""


@dataclass(frozen=True, slots=True)
class _Box:
    """A box of patches and how it is made: of one patch, or of two boxes beside or above one another."""

    w: int
    h: int
    patch: Patch | None
    axis: Axis = "x"
    first: _Box | None = None
    second: _Box | None = None


class _OutOfWorkError(Exception):
    """The search has come to its limit."""


class Fitter:
    """Answers for one piece of ``w`` x ``h`` and one set of kinds; remembers what it has found.

    ``work`` limits the search by steps and not by time, so that the answer is the same on every machine.
    """

    def __init__(self, kinds: Sequence[Kind], w: int, h: int, work: int) -> None:
        self._kinds = tuple(kinds)
        self._w = w
        self._h = h
        self._work = work
        self._fillings = _FILLING + work // _FILLING
        self._boxes: dict[Counts, tuple[int, tuple[_Box, ...]]] = {}
        """The smallest boxes of a part, but for those that waste more than the number beside them."""
        self._answers: dict[Counts, Node | Unknown | None] = {}

    def fit(self, counts: Counts) -> Node | Unknown | None:
        """Return how the patches are cut from one piece, ``None`` when they do not fit, or ``UNKNOWN``."""
        if counts not in self._answers:
            self._answers[counts] = self._find(counts)
        return self._answers[counts]

    def _find(self, counts: Counts) -> Node | Unknown | None:
        spared = self._w * self._h - self._area(counts)
        if spared < 0:
            return None
        self._fillings -= 1
        if self._fillings < 0:
            return UNKNOWN
        found = self._fill(counts)
        if found is not None:
            return found
        try:
            boxes = self._boxes_of(counts, spared)
        except _OutOfWorkError:
            return UNKNOWN
        return _node(min(boxes, key=lambda box: (box.w * box.h, box.w))) if boxes else None

    def _fill(self, counts: Counts) -> Node | None:
        """Try strips across the piece: they prove nothing, but they are quick and easy to cut."""
        wanted = [
            Kind(index=kind.index, w=kind.w, h=kind.h, turns=kind.turns, count=n, labels=())
            for n, kind in zip(counts, self._kinds, strict=True)
            if n
        ]
        for across, along, axis in ((self._w, self._h, "y"), (self._h, self._w, "x")):
            kinds = wanted if axis == "y" else [_transposed(kind) for kind in wanted]
            if any(all(lay.w > across for lay in kind.lays) for kind in kinds):
                return None
            for lay in LAYS:
                plan = plan_by_filling(kinds, across, lay)
                if sum(strip.height * times for strip, times in plan) <= along:
                    strips = Slices("y", tuple(tree_of(strip) for strip, times in plan for _ in range(times)))
                    return strips if axis == "y" else _mirrored(strips)
        return None

    def _area(self, counts: Counts) -> int:
        return sum(n * kind.w * kind.h for n, kind in zip(counts, self._kinds, strict=True))

    def _boxes_of(self, counts: Counts, spared: int) -> tuple[_Box, ...]:
        """Return the smallest boxes that hold the patches, lie in the piece and waste no more than ``spared``.

        The narrowest comes first. Boxes that waste more may be among them.
        """
        known, boxes = self._boxes.get(counts, (-1, ()))
        if known >= spared:
            return boxes
        if sum(counts) == 1:
            kind = self._kinds[counts.index(1)]
            found = [_Box(lay.w, lay.h, lay) for lay in kind.lays if lay.w <= self._w and lay.h <= self._h]
        else:
            found = []
            most = self._area(counts) + spared
            for part, rest in _halves(counts):
                first, second = self._boxes_of(part, spared), self._boxes_of(rest, spared)
                found += (box for box in self._joined(first, second) if box.w * box.h <= most)
                if len(found) > 256:
                    found = list(_smallest(found))
        self._boxes[counts] = spared, _smallest(found)
        return self._boxes[counts][1]

    def _joined(self, first: tuple[_Box, ...], second: tuple[_Box, ...]) -> Iterator[_Box]:
        self._work -= max(len(first) * len(second), 1)
        if self._work < 0:
            raise _OutOfWorkError
        for a in first:
            for b in second:
                if a.w + b.w <= self._w:
                    yield _Box(a.w + b.w, max(a.h, b.h), None, "x", a, b)
                if a.h + b.h <= self._h:
                    yield _Box(max(a.w, b.w), a.h + b.h, None, "y", a, b)


def _halves(counts: Counts) -> Iterator[tuple[Counts, Counts]]:
    """Yield every way to part a handful in two, once."""
    for part in product(*(range(n + 1) for n in counts)):
        rest = tuple(n - m for n, m in zip(counts, part, strict=True))
        if part > rest:
            return
        if any(part):
            yield part, rest


def _smallest(boxes: Sequence[_Box]) -> tuple[_Box, ...]:
    kept: list[_Box] = []
    for box in sorted(boxes, key=lambda box: (box.w, box.h)):
        if not kept or box.h < kept[-1].h:
            kept.append(box)
    return tuple(kept)


def _node(box: _Box) -> Node:
    if box.patch is not None:
        return box.patch
    nodes = [node for half in (box.first, box.second) if half is not None for node in _flat(_node(half), box.axis)]
    nodes.sort(key=lambda node: -(node.h if box.axis == "y" else node.w))
    return Slices(box.axis, tuple(nodes))


def _flat(node: Node, axis: Axis) -> tuple[Node, ...]:
    """Return slices of the same axis one by one, so that they are cut one after the other."""
    return node.nodes if isinstance(node, Slices) and node.axis == axis else (node,)


def _transposed(kind: Kind) -> Kind:
    w, h = (kind.w, kind.h) if kind.turns else (kind.h, kind.w)
    return Kind(index=kind.index, w=w, h=h, turns=kind.turns, count=kind.count, labels=())


def _mirrored(node: Node) -> Node:
    """Return the tree with x and y exchanged."""
    if isinstance(node, Patch):
        return Patch(node.kind, node.h, node.w)
    return Slices("y" if node.axis == "x" else "x", tuple(_mirrored(one) for one in node.nodes))
