"""What a block's prints are sewn to: the yardage fabrics that share a seam with each print role, exactly."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping
from itertools import combinations

from seamleaf.lengths import Length
from seamleaf.planning.piecing.drafts import Draft
from seamleaf.planning.records import Outline, Point
from seamleaf.reading.part_records import FabricUse

Role = tuple[str, int]
"""A bundle fabric and one of its print roles in a block."""
_Line = tuple[Length | None, Length]
"""Slope (none for an upright line) and where it crosses: all points of a line have the same."""


def grounds_of(block: str, drafts: Mapping[str, Draft]) -> dict[Role, tuple[str, ...]]:
    """Return the fabrics without prints that lie along each print role inside a block, in the order of their names."""
    lines: dict[_Line, list[tuple[Length, Length, FabricUse]]] = defaultdict(list)
    for use, outline in _patches(block, drafts):
        for start, end in zip(outline, (*outline[1:], outline[0]), strict=True):
            line, low, high = _on_line(start, end)
            lines[line].append((low, high, use))
    found: dict[Role, set[str]] = defaultdict(set)
    for edges in lines.values():
        for (low, high, use), (other_low, other_high, other) in combinations(edges, 2):
            printed, plain = (use, other) if use.print is not None else (other, use)
            if printed.print is None or plain.print is not None:
                continue
            if low < other_high and other_low < high:
                found[printed.fabric, printed.print].add(plain.fabric)
    return {role: tuple(sorted(fabrics)) for role, fabrics in sorted(found.items())}


def _patches(unit: str, drafts: Mapping[str, Draft]) -> Iterator[tuple[FabricUse, Outline]]:
    draft = drafts[unit]
    yield from ((face.use, face.outline) for face in draft.faces)
    for child in draft.children:
        if child.ref.unit:
            inner = drafts[child.ref.unit]
            frame = child.frame(inner)
            for use, outline in _patches(inner.id, drafts):
                yield use, tuple(frame.point(point) for point in outline)


def _on_line(start: Point, end: Point) -> tuple[_Line, Length, Length]:
    """Return the line through two points and what the piece between them takes up of it, along y if it is upright."""
    (x1, y1), (x2, y2) = start, end
    if x1 == x2:
        return (None, x1), min(y1, y2), max(y1, y2)
    slope = (y2 - y1) / (x2 - x1)
    return (slope, y1 - slope * x1), min(x1, x2), max(x1, x2)
